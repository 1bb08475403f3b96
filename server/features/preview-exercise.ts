import type { Day, DayItem } from "../days/day";
import { midiOf } from "../music/pitch";
import { spokenDate } from "../plan/date";
import type { Exercise } from "../plan/exercise";
import type { Place } from "../plan/place";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Assignment, Session } from "../plan/term";
import type { PreviewItem, PreviewView } from "../protocol/requests";
import { type AskedMusic, assignedAsk, sheetAskOf } from "./asked-music";
import { instrumentOf, type Lying, lyingFor, profileFor } from "./exercise-reach";
import { missingIn } from "./missing";
import { musicAskOf } from "./music-ask";
import { playerTerms } from "./player-terms";
import { choiceOf, chosenFirst, type Ground, linked, NO_WEEKS } from "./preview-ground";
import { askedWords, ownWords, withoutNotes } from "./preview-item";
import { writtenPiece } from "./readable-exercise";

/** An exercise, as its line asks for it or by itself. */
export function exerciseView(ground: Ground, music: AskedMusic): PreviewView {
  const { checked, file, places, chosen } = ground;
  const { exercise, assignment, plan } = music;
  const met = assignment === undefined ? undefined : meetingOf(ground, plan, assignment);
  const player = met?.player ?? choiceOf(bestFirst(plan, exercise, music.players), chosen);
  const players = player === undefined ? music.players : [player, ...music.players];
  const ask =
    assignment === undefined
      ? sheetAskOf({ ...music, players })
      : assignedAsk(plan, assignment, met?.item, exercise, instrumentOf(players));
  const shown = ask.exercise;
  const piece = writtenPiece(shown.place.piece);
  const place = assignment?.place ?? { piece, span: shown.place.span };
  const noted = checked.homes.get(piece)?.file.plan ?? plan;
  const item: PreviewItem = {
    id: shown.name,
    name: shown.name,
    asked: met === undefined ? ownWords(shown) : askedWords(plan, met.item),
    aims: [...(assignment?.aims ?? []), ...shown.aims],
    place: linked(ground, place),
    music:
      shown.content.kind === "notes" ? musicAskOf(file, ask, assignment, player, checked, places) : undefined,
    without: withoutNotes(shown),
  };
  const under = [
    ...(shown.area === "…" ? [] : [shown.area]),
    ...(met === undefined ? [] : [`${spokenDate(met.day.date)}, “${met.session.name}”`]),
  ];
  return {
    kind: "exercise",
    title: shown.name,
    under,
    place: linked(ground, place),
    ...NO_WEEKS,
    players: music.players.map((each) => each.name),
    player: player?.name,
    items: [item],
    figures: undefined,
    missing: missingIn(piece, noted, checked.homes, places),
  };
}

/** Of those around an exercise that nobody in particular asks for, the first it suits comes first. */
function bestFirst(plan: Plan, exercise: Exercise, players: readonly Player[]): readonly Player[] {
  const { low, high } = profileFor(plan, exercise, players);
  if (low === undefined || high === undefined) return players;
  const suits = (player: Player, lies: Lying): boolean => lyingFor(low, high, [player]).lies === lies;
  const best =
    players.find((each) => suits(each, "comfortable")) ??
    players.find((each) => suits(each, "within the limit")) ??
    players.reduce<Player | undefined>((far, each) => (reachOf(each) > reachOf(far) ? each : far), undefined);
  return best === undefined ? players : [best, ...players.filter((each) => each !== best)];
}

/** How high a player may be asked to play, as a MIDI number. */
function reachOf(player: Player | undefined): number {
  const limit = player?.figures.limit?.value;
  return limit === undefined ? 0 : midiOf(limit.high);
}

interface Meeting {
  readonly player: Player;
  readonly day: Day;
  readonly session: Session;
  readonly item: DayItem;
}

/** The first day on which the chosen player, or else the first who does, meets an assignment. */
function meetingOf({ chosen }: Ground, plan: Plan, assignment: Assignment): Meeting | undefined {
  const { piece } = assignment.place;
  const own = plan.own.terms.filter((term) => term.place.piece === piece);
  for (const term of own.length > 0 ? own : plan.own.terms) {
    for (const { days, player } of chosenFirst(playerTerms(plan, term), chosen)) {
      for (const day of days) {
        for (const { items, session } of day.sessions) {
          const item = items.find((each) => each.assignment === assignment);
          if (item !== undefined) return { player, day, session, item };
        }
      }
    }
  }
  return undefined;
}

/** An exercise in which there is nothing yet to show but what is missing. */
export function unreadView(ground: Ground, name: string, place: Place): PreviewView {
  const { checked, file, places } = ground;
  return {
    kind: "exercise",
    title: name,
    under: [],
    place: linked(ground, place),
    ...NO_WEEKS,
    players: [],
    player: undefined,
    items: [],
    figures: undefined,
    missing: missingIn(place.piece, file.plan, checked.homes, places),
  };
}
