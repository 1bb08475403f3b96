import type { DayItem, PlayerTerm } from "../days/day";
import type { Place } from "../plan/place";
import type { Plan } from "../plan/plan";
import type { Trouble } from "../plan/trouble";
import type { WeekTotals } from "../totals/week";
import type { Surroundings } from "./surroundings";

/** What the catalogue says of a finding. */
export interface RuleInfo {
  readonly code: string;
  readonly severity: "error" | "warning" | "note";
  /** In a few words, what it is about. */
  readonly title: string;
  /** Why it matters to a player. */
  readonly reason: string;
  /** What is usually done about it. */
  readonly mend: string;
}

/** One occurrence, before those of one place are gathered. */
export interface Raw {
  readonly place: Place;
  readonly message: string;
  readonly details?: readonly string[];
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
  readonly date?: number;
  /** What else must be the same for two occurrences at one place to be told as one. */
  readonly apart?: string;
  /** Set where the date stands for its whole week. */
  readonly wholeWeek?: boolean;
  readonly mend?: { readonly title: string; readonly text: string } | undefined;
}

/**
 * One of many occurrences, as a rule about days finds them: of those that are told as one, only the first is put
 * into words. `say` is called later, and may be called more than once: it reads nothing that changes.
 */
export interface Recurring extends Omit<Raw, "message" | "details"> {
  readonly date: number;
  readonly say: () => Pick<Raw, "message" | "details">;
}

export type Report = (raw: Raw | Recurring) => void;

/** A term as one player meets it, with its weeks summed. */
export interface TermView {
  /** No more of the plan than this: what is said of a term is kept while this, its days and its player are the same. */
  readonly plan: Pick<Plan, "settings" | "areas">;
  readonly days: PlayerTerm;
  readonly weeks: readonly WeekTotals[];
  /** The days that share an item, ascending. */
  readonly datesOf: (item: DayItem) => readonly number[];
}

export type Rule = RuleInfo &
  (
    | { readonly kind: "plan"; readonly check: (plan: Plan, around: Surroundings, report: Report) => void }
    | TermRule
    /** Says in words what reading the plan noted. */
    | TroubleRule
  );

export type TermRule = RuleInfo & {
  readonly kind: "term";
  readonly check: (view: TermView, report: Report) => void;
};

export type TroubleRule = RuleInfo & {
  readonly kind: "trouble";
  readonly code: Trouble["kind"];
  readonly say: (trouble: Trouble) => Omit<Raw, "place"> | undefined;
};

/** A rule for one kind of trouble; the kind is the code. */
export function troubleRule<K extends Trouble["kind"]>(
  kind: K,
  info: Omit<RuleInfo, "code">,
  say: (trouble: Extract<Trouble, { kind: K }>) => Omit<Raw, "place">,
): TroubleRule {
  return {
    ...info,
    kind: "trouble",
    code: kind,
    say: (trouble) => (trouble.kind === kind ? say(trouble as Extract<Trouble, { kind: K }>) : undefined),
  };
}
