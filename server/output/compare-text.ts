import {
  barWords,
  dueWords,
  goalsMoved,
  goalWords,
  isAnotherBalance,
  keysByExercise,
  keyWords,
  lineWords,
  practisedWords,
  shareWords,
  tempoWords,
} from "../compare/change-words";
import type {
  BookChanges,
  Both,
  Comparison,
  FindingChanges,
  PlayerChanges,
  PracticeChange,
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
    ...book.rewritten.map(
      ({ exercise, bars, lines }) =>
        `${quoted(exercise.after)}: ${safeText([...bars.map(barWords), ...lines.map(lineWords)].join("; "))}`,
    ),
  ];
}

function playerLines(players: PlayerChanges): readonly string[] {
  return [
    ...several("new", players.added.map(quoted)),
    ...several("gone", players.dropped.map(quoted)),
    ...players.changed.map(
      ({ player, figures }) => `${quoted(player)}: ${safeText(figures.map(lineWords).join("; "))}`,
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
    if (taughtWeeks.after === 0 || taughtWeeks.before === 0) lines.push(NO_TAUGHT_WEEK);
  }
  const { fresh, gone, moved } = goalsMoved(term.goals);
  lines.push(...several("new goals", fresh.map(goalWords).map(safeText)));
  lines.push(...several("goals gone", gone.map(goalWords).map(safeText)));
  for (const { goal, was } of moved) lines.push(`goal ${safeText(goalWords(goal))}, was ${dueWords(was)}`);
  lines.push(...several("players new to it", term.newPlayers.map(quoted)));
  lines.push(...several("players no more in it", term.formerPlayers.map(quoted)));
  for (const change of term.practice) {
    lines.push("", paint.strong(`For ${change.players.map(safeText).join(", ")}`));
    lines.push(...practiceLines(change).map(indented));
  }
  return lines;
}

const NO_TAUGHT_WEEK = "On one side no week is taught, so the weeks have nothing to stand beside.";

function practiceLines(change: PracticeChange): readonly string[] {
  return [
    ...list(
      "taken up",
      change.takenUp.map((each) => `${quoted(each.exercise)}: ${practisedWords(each)}`),
    ),
    ...list(
      "given up",
      change.givenUp.map((each) => `${quoted(each.exercise)}: ${practisedWords(each)}`),
    ),
    ...list(
      "share of the clock time",
      change.areas
        .filter(({ before, after }) => isAnotherBalance(before.share, after.share))
        .map(
          ({ area, before, after }) =>
            `${safeText(area)}: ${shareWords(after.share)} (${clockText(after.clock)}), was ${shareWords(before.share)} (${clockText(before.clock)})`,
        ),
    ),
    ...list(
      "keys",
      [...keysByExercise(change.keys)].map(
        ([name, here]) => `${quoted(name)}: ${here.map(keyWords).join("; ")}`,
      ),
    ),
    ...list(
      "tempi",
      change.tempi.map((each) => `${quoted(each.exercise.after)}: ${tempoWords(each)}`),
    ),
    ...(change.weeks.length === 0
      ? []
      : ["week by week, before and after", indented(weekTable(change.weeks))]),
  ];
}

function list(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [title, ...lines.map(indented)];
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
