import type { Day, DayItem, PlayerTerm } from "../days/day";
import { midiOf } from "../music/pitch";
import { clockText } from "../output/numbers";
import { amountWords, restWords, sheetTempo, tempoWords, whereWords } from "../pages/sheet-words";
import { dateText, spokenDate } from "../plan/date";
import type { Exercise } from "../plan/exercise";
import type { Place } from "../plan/place";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Assignment, Routine, Session, Term, WeeksPlan } from "../plan/term";
import type { PlaceView, PreviewItem, PreviewParams, PreviewView } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { type AskedMusic, assignedAsk, musicAt, playersFor, sheetAskOf } from "./asked-music";
import { instrumentOf, type Lying, lyingFor, profileFor } from "./exercise-reach";
import { fileOf, locationOf, offsetOf, type Places } from "./lines-of";
import { missingIn } from "./missing";
import { musicAskOf } from "./music-ask";
import { playerTerms } from "./player-terms";
import { dayFigures, termFigures, weekFigures } from "./preview-figures";
import { writtenPiece } from "./readable-exercise";
import { type TermSubject, termSubject } from "./term-subject";
import { chainAt, pieceAt } from "./tree-at";

const NO_WEEKS = { weeks: [], week: undefined } as const;

/** What the preview shows needs of the rest. */
interface Ground {
  readonly checked: Checked;
  readonly file: CheckedFile;
  readonly places: Places;
  /** Who was chosen; undefined for the first who plays it. */
  readonly chosen: string | undefined;
  /** Which week was chosen of several; undefined for the first. */
  readonly week: number | undefined;
}

/**
 * What the preview shows of a place: the exercise it stands in or that its line asks for, the session, the day, the
 * week or the term. Undefined where it speaks of nothing of the kind.
 */
export function previewOf(
  checked: Checked,
  path: string,
  { position, player: chosen, week }: Pick<PreviewParams, "position" | "player" | "week">,
  places: Places,
): PreviewView | undefined {
  const file = fileOf(checked, path);
  if (file === undefined) return undefined;
  const offset = offsetOf(file, position);
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return undefined;
  const ground: Ground = { checked, file, places, chosen, week };
  const music = musicAt(checked, file, offset, true);
  if (music !== undefined) return exerciseView(ground, music);
  const { piece, start } = at;
  const { plan } = file;
  const unread = piece.declaration;
  if (unread?.kind === "exercise")
    return unreadView(ground, unread.name.text, { piece, span: unread.name.span });
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  if (term !== undefined)
    return termPartView(ground, term, termSubject(term, chainAt(piece, offset - start)));
  const routine = plan.own.routines.find((each) => each.place.piece === piece);
  return routine === undefined ? undefined : routineView(ground, routine);
}

function linked({ checked, places }: Ground, place: Place): PlaceView | undefined {
  return locationOf(checked.homes, place, places);
}

/** Names of those who can be chosen, the first of whom is unless another was. */
function choiceOf(players: readonly Player[], chosen: string | undefined): Player | undefined {
  return players.find((each) => each.name === chosen) ?? players[0];
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

/** The terms of those who play one, the chosen one's first. */
function chosenFirst<T extends { readonly player: Player }>(
  terms: readonly T[],
  chosen: string | undefined,
): readonly T[] {
  const first = terms.filter((each) => each.player.name === chosen);
  return [...first, ...terms.filter((each) => each.player.name !== chosen)];
}

function exerciseView(ground: Ground, music: AskedMusic): PreviewView {
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
function unreadView(ground: Ground, name: string, place: Place): PreviewView {
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

/** What an exercise says of itself. */
function ownWords({ tempo }: Exercise): readonly string[] {
  return tempo === undefined ? [] : [tempoWords(sheetTempo(tempo.beat, tempo.bpm))];
}

/** What a line asks on a day: key, tempo, amount, rest and how long it takes. */
function askedWords({ settings }: Pick<Plan, "settings">, item: DayItem): readonly string[] {
  const { exercise, assignment, bpm, fastest, passes, restAfter, clock } = item;
  const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
  return [
    whereWords(passes),
    beat === undefined || bpm === undefined ? "" : tempoWords(sheetTempo(beat, bpm, fastest)),
    exercise.content.kind === "activity" ? "" : amountWords(item),
    exercise.content.kind === "notes" ? restWords(restAfter, settings) : "",
    clockText(clock),
  ].filter((each) => each !== "");
}

function withoutNotes({ content }: Exercise): string {
  switch (content.kind) {
    case "notes":
      return "";
    case "printed": {
      const { title, page, bars } = content;
      const parts = [`from “${title}”`];
      if (page !== undefined) parts.push(`page ${page}`);
      if (bars !== undefined) parts.push(`bars ${bars.from} to ${bars.to}`);
      return parts.join(", ");
    }
    case "activity":
      return `${content.activity}, without notes`;
  }
}

function termPartView(ground: Ground, term: Term, subject: TermSubject | undefined): PreviewView | undefined {
  const { chosen, file } = ground;
  const all = playerTerms(file.plan, term);
  const [own] = chosenFirst(all, chosen);
  if (own === undefined) return undefined;
  const players = all.map((each) => each.player.name);
  const day = subject === undefined ? undefined : dayOf(own, subject);
  switch (subject?.kind) {
    case "session": {
      // Who never meets it may still look at it.
      const meeting = chosenFirst(all, chosen).find((each) => dayOf(each, subject) !== undefined);
      const first = meeting === undefined ? undefined : dayOf(meeting, subject);
      if (meeting !== undefined && first !== undefined)
        return sessionView(ground, meeting, first, subject.session, players);
      return overview(ground, own, players);
    }
    case "date":
    case "booking":
    case "closure":
      return day === undefined ? overview(ground, own, players) : dayView(ground, own, day, players);
    case "weeks":
      return weekView(ground, own, subject.weeks, players);
    case undefined:
      return overview(ground, own, players);
  }
}

/** The first day that a part of the term speaks of; the day of a date even where nothing happens on it. */
function dayOf({ days }: PlayerTerm, subject: TermSubject): Day | undefined {
  return days.find((day) => speaksOf(subject, day));
}

function speaksOf(subject: TermSubject, day: Day): boolean {
  switch (subject.kind) {
    case "date":
      return day.date === subject.date;
    case "session":
      return day.sessions.some((each) => each.session === subject.session);
    case "booking":
      return day.bookings.includes(subject.booking);
    case "closure":
      return day.date >= subject.closure.from;
    case "weeks":
      return day.sessions.some((each) => subject.weeks.sessions.includes(each.session));
  }
}

function itemsOf(ground: Ground, { player }: PlayerTerm, items: readonly DayItem[]): readonly PreviewItem[] {
  const { checked, file, places } = ground;
  const seen = new Map<string, number>();
  return items.map((item) => {
    const { assignment, exercise } = item;
    const ask = assignedAsk(file.plan, assignment, item, exercise, player.instrument);
    const before = seen.get(exercise.name) ?? 0;
    seen.set(exercise.name, before + 1);
    return {
      id: before === 0 ? exercise.name : `${exercise.name} ${before + 1}`,
      name: exercise.name,
      asked: askedWords(file.plan, item),
      aims: assignment.aims,
      place: linked(ground, assignment.place),
      music:
        exercise.content.kind === "notes"
          ? musicAskOf(file, ask, assignment, player, checked, places)
          : undefined,
      without: withoutNotes(exercise),
    };
  });
}

function sessionView(
  ground: Ground,
  own: PlayerTerm,
  day: Day,
  session: Session,
  players: readonly string[],
): PreviewView {
  const met = day.sessions.find((each) => each.session === session);
  const minutes = met?.content.minutes;
  const clock = met === undefined ? "" : clockText(met.clock);
  return {
    kind: "session",
    title: session.name,
    under: [spokenDate(day.date), minutes === undefined ? clock : `${clock} of ${clockText(minutes)}`],
    place: linked(ground, session.place),
    ...NO_WEEKS,
    players,
    player: own.player.name,
    items: itemsOf(ground, own, met?.items ?? []),
    figures: dayFigures(ground, own, day),
    missing: missingIn(own.term.place.piece, ground.file.plan, ground.checked.homes, ground.places),
  };
}

function dayView(ground: Ground, own: PlayerTerm, day: Day, players: readonly string[]): PreviewView {
  const remarks = day.bookings.map((booking) => (booking.kind === "lesson" ? "lesson" : booking.name));
  return {
    kind: "day",
    title: spokenDate(day.date),
    under: [own.term.name, ...remarks],
    place: linked(ground, day.sessions[0]?.session.place ?? own.term.place),
    ...NO_WEEKS,
    players,
    player: own.player.name,
    items: itemsOf(
      ground,
      own,
      day.sessions.flatMap((each) => each.items),
    ),
    figures: dayFigures(ground, own, day),
    missing: [],
  };
}

function weekView(
  ground: Ground,
  own: PlayerTerm,
  { weeks: said, place }: WeeksPlan,
  players: readonly string[],
): PreviewView {
  const weeks = said ?? Array.from({ length: own.weeks }, (_, index) => index + 1);
  const week = weeks.find((each) => each === ground.week) ?? weeks[0] ?? 1;
  const days = own.days.filter((day) => day.week === week);
  const [first, last] = [days[0], days.at(-1)];
  const dates =
    first === undefined || last === undefined ? [] : [`${dateText(first.date)} to ${dateText(last.date)}`];
  return {
    kind: "week",
    title: `Week ${week}`,
    under: [own.term.name, ...dates],
    place: linked(ground, place),
    weeks,
    week,
    players,
    player: own.player.name,
    items: [],
    figures: weekFigures(ground, own, week),
    missing: [],
  };
}

function overview(ground: Ground, own: PlayerTerm, players: readonly string[]): PreviewView {
  return {
    kind: "term",
    title: own.term.name,
    under: [`${own.weeks} taught weeks`],
    place: linked(ground, own.term.place),
    ...NO_WEEKS,
    players,
    player: own.player.name,
    items: [],
    figures: termFigures(ground, own),
    missing: missingIn(own.term.place.piece, ground.file.plan, ground.checked.homes, ground.places),
  };
}

function routineView(ground: Ground, routine: Routine): PreviewView {
  const { checked, file, places, chosen } = ground;
  const players = playersFor(checked, file, undefined);
  const player = choiceOf(players, chosen);
  const instrument = instrumentOf(player === undefined ? [] : [player]);
  const items = routine.content.items.flatMap((planned): PreviewItem[] => {
    if (!("exercise" in planned)) return [];
    const exercise = file.plan.exercises.get(planned.exercise);
    if (exercise === undefined) return [];
    const ask = assignedAsk(file.plan, planned, undefined, exercise, instrument);
    return [
      {
        id: `${exercise.name} ${planned.place.span.start - routine.place.span.start}`,
        name: exercise.name,
        asked: ownWords({ ...exercise, tempo: ask.tempo }),
        aims: planned.aims,
        place: linked(ground, planned.place),
        music:
          exercise.content.kind === "notes"
            ? musicAskOf(file, ask, planned, player, checked, places)
            : undefined,
        without: withoutNotes(exercise),
      },
    ];
  });
  const { minutes } = routine.content;
  return {
    kind: "session",
    title: routine.name,
    under: [minutes === undefined ? "routine" : `routine of ${clockText(minutes)}`],
    place: linked(ground, routine.place),
    ...NO_WEEKS,
    players: players.map((each) => each.name),
    player: player?.name,
    items,
    figures: undefined,
    missing: missingIn(routine.place.piece, file.plan, checked.homes, places),
  };
}
