/** Which sheets and packets there are to print: from plans to what is wanted of the press. */
import type { PlayerTerm } from "../days/day";
import type { Instrument } from "../music/instrument";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import { hasSheet, type TermDay } from "./sheet-day";
import { bookPlacements, type PacketAsk, type PacketEntry, travelledEntries } from "./sheet-packet";
import { type WeekSheet, weekSheet } from "./sheet-week";

/** A term as a player meets it, with the plan it stands in. */
export interface AskedTerm {
  readonly plan: Plan;
  readonly term: PlayerTerm;
}

/** A sheet that is wanted; what a day shows is settled when it is known how much fits. */
export type Wanted =
  | { readonly kind: "week"; readonly sheet: WeekSheet }
  | { readonly kind: "day"; readonly of: TermDay; readonly fingerings: boolean };

/** First-years always see fingerings, others where they are asked for. */
export function seesFingerings({ figures }: Player, asked: boolean): boolean {
  return asked || figures.stage?.value === "first year";
}

/** The sheets of one day in a player's terms. */
export function dayChoice(terms: readonly AskedTerm[], date: number, fingerings: boolean): readonly Wanted[] {
  return terms.flatMap(({ plan, term }) =>
    term.days
      .filter((day) => day.date === date && hasSheet(day))
      .map((day) => ({
        kind: "day" as const,
        of: { term, day, settings: plan.settings },
        fingerings: seesFingerings(term.player, fingerings),
      })),
  );
}

/** The sheet of a taught week of one term, and, where they are wanted too, those of its days. */
export function weekChoice(
  { plan, term }: AskedTerm,
  week: number,
  wanted: { readonly days: boolean; readonly fingerings: boolean },
): readonly Wanted[] {
  const sheet = weekSheet(term, week);
  if (sheet === undefined) return [];
  const days = term.days.filter((day) => wanted.days && day.week === week);
  return [
    { kind: "week", sheet },
    ...days.flatMap((day) => dayChoice([{ plan, term }], day.date, wanted.fingerings)),
  ];
}

/** What a packet holds when it is asked for by a player, a term, or as the whole book. */
export interface PacketChoice {
  readonly title: string;
  readonly lines: readonly string[];
  readonly plan: Plan;
  readonly instrument: Instrument;
  /** Undefined for a packet of the book alone. */
  readonly player: Player | undefined;
  /** What is travelled in these terms; for a packet of the book none. */
  readonly terms: readonly PlayerTerm[];
  readonly keys: "travelled" | "all" | "home";
}

/** The entries of a packet, in the order of the book. */
export function packetChoice(choice: PacketChoice, book: Plan["exercises"]): PacketAsk {
  const { plan, instrument, player, terms, keys } = choice;
  const travelled = new Map(travelledEntries(terms).map((each) => [each.exercise.name, each]));
  const limit = player?.figures.limit?.value;
  const entries: PacketEntry[] = [];
  for (const exercise of book.values()) {
    const asked = travelled.get(exercise.name);
    if (terms.length > 0 && asked === undefined) continue;
    const placements =
      keys === "travelled" && asked !== undefined
        ? asked.placements
        : bookPlacements(
            exercise,
            { instrument, settings: plan.settings },
            keys === "all" ? "all" : "home",
            limit,
          );
    entries.push({ exercise, placements, tempi: asked?.tempi });
  }
  return {
    title: choice.title,
    lines: choice.lines,
    entries,
    areas: [...plan.areas.values()],
    instrument,
    settings: plan.settings,
  };
}
