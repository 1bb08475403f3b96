import type {
  AreaChange,
  BarChange,
  BookChanges,
  Both,
  Comparison,
  Either,
  FindingChanges,
  Goal,
  KeyChange,
  PlayerChanges,
  PracticeChange,
  Practised,
  Rewriting,
  TermChange,
  WeekChange,
  WeekFigures,
} from "../compare/comparison";
import { isEmpty } from "../compare/comparison";
import { dateText } from "../plan/date";
import type { Finding } from "../rules/finding";
import { clockText, counted } from "./numbers";
import type { Paint } from "./paint";
import { safeText } from "./safe-text";
import { tableText } from "./table";

/** What is said where two plans mean the same. */
export const NOTHING_DIFFERS = "These plans mean the same.";

/**
 * A comparison as a teacher thinks of it: the book, the players, then each term from its dates to its weeks, and
 * last what there is to find now and was not before.
 */
export function compareText(comparison: Comparison, paint: Paint): string {
  if (isEmpty(comparison)) return NOTHING_DIFFERS;
  const { book, players, terms, findings } = comparison;
  const sections: Section[] = [
    { title: "The exercise book", lines: bookLines(book) },
    { title: "Players", lines: playerLines(players) },
    {
      title: "Terms",
      lines: [...several("new", terms.added.map(quoted)), ...several("gone", terms.dropped.map(quoted))],
    },
    ...terms.changed.map((term) => ({ title: termTitle(term.term), lines: termLines(term, paint) })),
    { title: "Findings", lines: findingLines(findings) },
  ];
  return sections
    .filter(({ lines }) => lines.length > 0)
    .map(({ title, lines }) => [paint.strong(title), ...lines.map(indented)].join("\n"))
    .join("\n\n");
}

interface Section {
  readonly title: string;
  readonly lines: readonly string[];
}

function indented(text: string): string {
  return text
    .split("\n")
    .map((line) => (line === "" ? "" : `  ${line}`))
    .join("\n");
}

function quoted(name: string): string {
  return `“${safeText(name)}”`;
}

/** `new: a, b`; nothing where there is none. */
function several(word: string, names: readonly string[]): readonly string[] {
  return names.length === 0 ? [] : [`${word}: ${names.join(", ")}`];
}

function bookLines(book: BookChanges): readonly string[] {
  return [
    ...several("new", book.added.map(quoted)),
    ...several("gone", book.dropped.map(quoted)),
    ...book.renamed.map(({ before, after }) => `${quoted(before)} is called ${quoted(after)} now`),
    ...book.rewritten.map(rewritingLine),
  ];
}

function rewritingLine({ exercise, bars, lines }: Rewriting): string {
  const said = [...bars.map(barWords), ...lines.map(changeWords)];
  return `${quoted(exercise.after)}: ${said.join("; ")}`;
}

/** `bars 3 to 4 rewritten (were bars 3 to 5)`. */
function barWords({ before, after }: BarChange): string {
  if (before.length === 0) return `${barNumbers(after)} put in`;
  if (after.length === 0) return `${barNumbers(before)} taken out`;
  const [was, is] = [barNumbers(before), barNumbers(after)];
  return was === is ? `${is} rewritten` : `${is} rewritten (before, ${was})`;
}

function barNumbers(bars: readonly number[]): string {
  const [first, last] = [bars[0] ?? 0, bars[bars.length - 1] ?? 0];
  if (first === last) return first === 0 ? "the pick-up" : `bar ${first}`;
  return first === 0 ? `the pick-up to bar ${last}` : `bars ${first} to ${last}`;
}

function changeWords({ what, before, after }: Either<string> & { readonly what: string }): string {
  if (before === undefined) return `${what} ${safeText(after ?? "")}, which was not said`;
  if (after === undefined) return `${what} not said any more, was ${safeText(before)}`;
  return `${what} ${safeText(after)}, was ${safeText(before)}`;
}

function playerLines(players: PlayerChanges): readonly string[] {
  return [
    ...several("new", players.added.map(quoted)),
    ...several("gone", players.dropped.map(quoted)),
    ...players.changed.map(
      ({ player, figures }) => `${quoted(player)}: ${figures.map(changeWords).join("; ")}`,
    ),
  ];
}

function termTitle({ before, after }: Both<string>): string {
  return before === after ? safeText(after) : `${safeText(after)}, beside ${safeText(before)}`;
}

function termLines(term: TermChange, paint: Paint): readonly string[] {
  const lines: string[] = [];
  const { dates, taughtWeeks } = term;
  if (dates !== undefined) {
    const span = ({ from, to }: { from: number; to: number }): string =>
      `${dateText(from)} to ${dateText(to)}`;
    lines.push(`from ${span(dates.after)}, was ${span(dates.before)}`);
  }
  if (taughtWeeks !== undefined) {
    lines.push(`${counted(taughtWeeks.after, "taught week")}, were ${taughtWeeks.before}`);
    if (taughtWeeks.after === 0 || taughtWeeks.before === 0) {
      lines.push("On one side no week is taught, so the weeks have nothing to stand beside.");
    }
  }
  lines.push(...goalLines(term.goals));
  lines.push(...several("players new to it", term.newPlayers.map(quoted)));
  lines.push(...several("players no more in it", term.formerPlayers.map(quoted)));
  for (const change of term.practice) {
    lines.push("", paint.strong(`For ${change.players.map(safeText).join(", ")}`));
    lines.push(...practiceLines(change).map(indented));
  }
  return lines;
}

/** A goal that is only due in another week is told once. */
function goalLines({ added, dropped }: TermChange["goals"]): readonly string[] {
  const moved = (goal: Goal, others: readonly Goal[]): Goal | undefined =>
    others.find((other) => other.text === goal.text);
  return [
    ...several("new goals", added.filter((goal) => moved(goal, dropped) === undefined).map(goalWords)),
    ...several("goals gone", dropped.filter((goal) => moved(goal, added) === undefined).map(goalWords)),
    ...added.flatMap((goal) => {
      const was = moved(goal, dropped);
      return was === undefined ? [] : [`goal ${goalWords(goal)}, was ${dueWords(was)}`];
    }),
  ];
}

function dueWords({ week }: Goal): string {
  return week === undefined ? "outside the taught weeks" : `week ${week}`;
}

function goalWords({ text, week }: Goal): string {
  return week === undefined ? quoted(text) : `${quoted(text)} by week ${week}`;
}

function practiceLines(change: PracticeChange): readonly string[] {
  return [
    ...list("taken up", change.takenUp.map(practisedWords)),
    ...list("given up", change.givenUp.map(practisedWords)),
    ...list(
      "share of the clock time",
      change.areas
        .filter(isWorthSaying)
        .map(
          ({ area, before, after }) =>
            `${safeText(area)}: ${percent(after.share)} (${clockText(after.clock)}), was ${percent(before.share)} (${clockText(before.clock)})`,
        ),
    ),
    ...list("keys", keyLines(change.keys)),
    ...list(
      "tempi",
      change.tempi.map(
        ({ exercise, beat, before, after }) =>
          `${quoted(exercise.after)}: ${beat} = ${tempi(after)}, was ${tempi(before)}`,
      ),
    ),
    ...(change.weeks.length === 0
      ? []
      : ["week by week, before and after", indented(weekTable(change.weeks))]),
  ];
}

/** Shares that read alike, or nearly, are not another balance to a teacher: half a point is, in a hundred. */
function isWorthSaying({ before, after }: AreaChange): boolean {
  return Math.abs(after.share - before.share) >= 0.005;
}

function list(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [title, ...lines.map(indented)];
}

function practisedWords({ exercise, from, to, times, clock }: Practised): string {
  const weeks = from === to ? `week ${from}` : `weeks ${from} to ${to}`;
  return `${quoted(exercise)}: ${weeks}, ${counted(times, "time", "times")} through, ${clockText(clock)}`;
}

function percent(share: number): string {
  return `${Math.round(share * 1000) / 10} %`;
}

function tempi({ first, last }: { readonly first: number; readonly last: number }): string {
  const [from, to] = [Math.round(first * 10) / 10, Math.round(last * 10) / 10];
  return from === to ? String(from) : `${from} to ${to}`;
}

function keyLines(keys: readonly KeyChange[]): readonly string[] {
  const byExercise = new Map<string, KeyChange[]>();
  for (const each of keys) {
    const name = each.exercise.after;
    const known = byExercise.get(name);
    if (known === undefined) byExercise.set(name, [each]);
    else known.push(each);
  }
  return [...byExercise].map(([name, here]) => `${quoted(name)}: ${here.map(keyWords).join("; ")}`);
}

function keyWords({ key, before, after }: KeyChange): string {
  if (after === undefined) return `${key} no more (was week ${before})`;
  if (before === undefined) return `${key} new, in week ${after}`;
  const weeks = counted(Math.abs(after - before), "week");
  return `${key} in week ${after}, ${weeks} ${after < before ? "earlier" : "later"}`;
}

function weekTable(weeks: readonly WeekChange[]): string {
  const measures = ["clock", "playing", "upper"] as const;
  const columns = [
    { title: "Week", figures: true },
    ...["Clock", "Playing", "Upper"].flatMap((title) => [
      { title, figures: true },
      { title: "now", figures: true },
    ]),
  ];
  const cell = (figures: WeekFigures | undefined, measure: (typeof measures)[number]): string =>
    figures === undefined ? "–" : clockText(figures[measure]);
  return tableText(
    columns,
    weeks.map(({ week, before, after }) => [
      String(week),
      ...measures.flatMap((measure) => [cell(before, measure), cell(after, measure)]),
    ]),
  );
}

function findingLines(findings: FindingChanges): readonly string[] {
  const say = (word: string, list: readonly Finding[]): readonly string[] =>
    list.map(({ severity, code, message, standing }) => {
      const stands = standing === undefined ? "" : ` (stands: ${safeText(standing)})`;
      return `${word}: ${severity} ${code}: ${safeText(message)}${stands}`;
    });
  return [
    ...say("new", findings.gained),
    ...say("gone", findings.lost),
    ...say("stands now", findings.standsNow),
    ...say("stands no more", findings.standsNoMore),
  ];
}
