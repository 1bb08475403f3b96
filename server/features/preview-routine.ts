import { clockText } from "../output/numbers";
import type { Routine } from "../plan/term";
import type { PreviewItem, PreviewView } from "../protocol/requests";
import { assignedAsk, playersFor } from "./asked-music";
import { instrumentOf } from "./exercise-reach";
import { missingIn } from "./missing";
import { musicAskOf } from "./music-ask";
import { choiceOf, type Ground, linked, NO_WEEKS } from "./preview-ground";
import { ownWords, withoutNotes } from "./preview-item";

/** A routine by itself: what is in it, on no day in particular. */
export function routineView(ground: Ground, routine: Routine): PreviewView {
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
