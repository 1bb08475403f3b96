import type { DayItem, PlayerTerm } from "../days/day";
import { clockText } from "../output/numbers";
import { amountWords, restWords, sheetTempo, tempoWords, whereWords } from "../pages/sheet-words";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { PreviewItem } from "../protocol/requests";
import { assignedAsk } from "./asked-music";
import { musicAskOf } from "./music-ask";
import { type Ground, linked } from "./preview-ground";

/** What an exercise says of itself. */
export function ownWords({ tempo }: Exercise): readonly string[] {
  return tempo === undefined ? [] : [tempoWords(sheetTempo(tempo.beat, tempo.bpm))];
}

/** What a line asks on a day: key, tempo, amount, rest and how long it takes. */
export function askedWords({ settings }: Pick<Plan, "settings">, item: DayItem): readonly string[] {
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

/** What is done where there are no notes, in words; empty for notes. */
export function withoutNotes({ content }: Exercise): string {
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

/** What is practised on a day, item by item, as the page shows it. */
export function itemsOf(
  ground: Ground,
  { player }: PlayerTerm,
  items: readonly DayItem[],
): readonly PreviewItem[] {
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
