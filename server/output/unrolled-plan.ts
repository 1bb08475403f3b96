import { readSource } from "../../grammar/pieces";
import { printStatement } from "../../grammar/print";
import { printClause, printValue } from "../../grammar/print-leaves";
import type { Clause, Declaration, ExerciseDeclaration, TermDeclaration } from "../../grammar/tree";
import { grown, grownSeconds } from "../days/amount";
import { type PlannedSession, type TermCalendar, termCalendar } from "../days/term-calendar";
import { WEEKDAYS, weekdayOf } from "../plan/date";
import { buildPlan } from "../plan/plan";
import type { Assignment, PlannedItem, SessionContent, Term } from "../plan/term";
import { shortTime } from "../rules/words";
import { plainNumber } from "./numbers";

/**
 * A plan file told so that two versions of it are easily held against each other: a bar of music to a line, and
 * each term week by week with the tempo and the amount of that very week. It asks no other file: git hands it one
 * version of one file, alone. Weeks have their numbers, so that moving a term's dates changes the lines that name
 * dates and no others. Comments are left out, and so is all that is only laid out otherwise.
 */
export function unrolledPlan(text: string): string {
  const { pieces } = readSource(text);
  const { terms } = buildPlan(pieces, []).own;
  const parts = pieces.flatMap((piece) => {
    const { declaration } = piece;
    if (declaration === undefined) {
      const left = withoutComments(piece.text);
      return isFilled(left) ? [unread(left).join("\n")] : [];
    }
    const term = terms.find((each) => each.declaration === declaration);
    const lines =
      term !== undefined
        ? termLines(term)
        : declaration.kind === "exercise"
          ? exerciseLines(declaration, piece.text)
          : wordsOf(declaration);
    return [lines.join("\n")];
  });
  return parts.map((part) => `${part}\n`).join("\n");
}

function unread(text: string): readonly string[] {
  return text
    .split(/\r\n?|\n/)
    .filter(isFilled)
    .map((line) => `cannot be read: ${line.trim()}`);
}

const NO_TRIVIA = { before: [], after: undefined, blank: false };

/** A declaration line by line, as it would be laid out. */
function wordsOf(declaration: Declaration): readonly string[] {
  return withoutComments(printStatement({ ...declaration, trivia: NO_TRIVIA }))
    .split("\n")
    .filter(isFilled);
}

function withoutComments(text: string): string {
  return text.replace(/(^|\s)#(?=[\s#]|$).*$/gm, "");
}

function isFilled(line: string): boolean {
  return line.trim() !== "";
}

function exerciseLines(declaration: ExerciseDeclaration, text: string): readonly string[] {
  const { block, ...rest } = declaration;
  const lines = [printStatement({ ...rest, block: undefined })];
  for (const item of block?.items ?? []) {
    if (item.kind === "music") {
      const from = item.from === undefined ? "" : ` from ${item.from.text}`;
      lines.push(`  ${item.by === "pitches" ? "music" : `${item.by}${from}`}`);
      lines.push(...barLines(text.slice(item.music.span.start, item.music.span.end)));
    } else lines.push(...told(item));
  }
  return lines;
}

/** A statement of a declaration, each of its lines set in. */
function told(item: Parameters<typeof printStatement>[0]): readonly string[] {
  if (item.kind === "unread") return unread(item.text).map((line) => `  ${line}`);
  return withoutComments(printStatement(item, 2))
    .split("\n")
    .filter(isFilled)
    .map((line, i) => (i === 0 ? `  ${line}` : line));
}

/** Each bar as it is typed; a pick-up is bar 0. */
function barLines(music: string): readonly string[] {
  const bars = withoutComments(music)
    .replace(/^\s*\{|\}\s*$/g, "")
    .split("|")
    .map((bar) => bar.trim().replace(/\s+/g, " "));
  if (bars[bars.length - 1] === "") bars.pop();
  const first = bars[0]?.startsWith("pickup") === true ? 0 : 1;
  return bars.map((bar, i) => `    bar ${i + first}: ${bar}`);
}

function termLines(term: Term): readonly string[] {
  const declaration: TermDeclaration = term.declaration;
  const { block, ...rest } = declaration;
  const lines = [printStatement({ ...rest, block: undefined })];
  for (const item of block?.items ?? []) if (item.kind !== "weeks") lines.push(...told(item));
  // What a block of weeks says of itself, and what in it could not be read, belongs to no single week.
  for (const item of block?.items ?? []) {
    if (item.kind !== "weeks") continue;
    for (const each of item.block?.items ?? []) {
      if (each.kind !== "session") lines.push(...told(each));
      else for (const part of each.block?.items ?? []) if (part.kind === "unread") lines.push(...told(part));
    }
  }
  const calendar = termCalendar(term);
  for (let week = 1; week <= calendar.weeks.count; week++) lines.push(...weekLines(calendar, week));
  return lines;
}

function weekLines(calendar: TermCalendar, week: number): readonly string[] {
  const days = new Map<PlannedSession["session"], { planned: PlannedSession; on: Set<number> }>();
  for (const day of calendar.days) {
    if (day.week !== week) continue;
    for (const planned of day.sessions) {
      const known = days.get(planned.session) ?? { planned, on: new Set() };
      days.set(planned.session, known);
      known.on.add(weekdayOf(day.date));
    }
  }
  const lines = [`  week ${week}`];
  for (const { planned, on } of days.values()) {
    const { session, index, weeks } = planned;
    const { minutes } = session.content;
    const head = [
      `${[...on]
        .sort()
        .map((day) => WEEKDAYS[day])
        .join(", ")} “${session.name}”`,
      ...(minutes === undefined ? [] : [shortMinutes(minutes)]),
      ...(session.routine === undefined ? [] : [`routine “${session.routine.text}”`]),
    ];
    lines.push(`    ${head.join(", ")}`, ...contentLines(session.content, index, weeks, "      "));
  }
  return lines;
}

function contentLines(
  content: SessionContent,
  index: number,
  weeks: number,
  margin: string,
): readonly string[] {
  const lines = content.aims.map((aim) => `${margin}aim “${aim}”`);
  for (const item of content.items) lines.push(`${margin}${itemWords(item, index, weeks)}`);
  const { short } = content;
  if (short !== undefined) {
    lines.push(`${margin}short${short.minutes === undefined ? "" : `, ${shortMinutes(short.minutes)}`}`);
    lines.push(...contentLines(short, index, weeks, `${margin}  `));
  }
  return lines;
}

function itemWords(item: PlannedItem, index: number, weeks: number): string {
  if (!("exercise" in item)) return `rest ${shortTime(item.pause)}`;
  const words = item.tree.clauses.map((clause) => clauseWords(clause, item, index, weeks));
  const more = [
    ...item.aims.map((aim) => `aim “${aim}”`),
    ...item.goals.map((goal) => `goal “${goal.text}”`),
  ];
  const said = [...words, ...more];
  return said.length === 0 ? `“${item.exercise}”` : `“${item.exercise}”: ${said.join("; ")}`;
}

/** A clause with the figure of this week, where it grows. */
function clauseWords(clause: Clause, { tempo, amount }: Assignment, index: number, weeks: number): string {
  if (clause.kind === "tempo" && tempo?.bpm.way === "growth") {
    const beat = clause.beat === undefined ? "" : `${printValue(clause.beat)} = `;
    return `tempo ${beat}${grown(tempo.bpm, index, weeks)}`;
  }
  if (clause.kind === "times" && amount.kind === "times" && amount.times.way === "growth") {
    const times = grown(amount.times, index, weeks);
    return times === 1 ? "once" : times === 2 ? "twice" : `${times} times`;
  }
  if (clause.kind === "minutes" && amount.kind === "time" && amount.seconds.way === "growth") {
    return `for ${shortMinutes(grownSeconds(amount.seconds, index, weeks))}`;
  }
  return printClause(clause).replace(/ {2,}/g, " ");
}

function shortMinutes(seconds: number): string {
  return `${plainNumber(seconds / 60)} min`;
}
