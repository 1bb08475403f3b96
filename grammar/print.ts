import {
  printArticulation,
  printClause,
  printDates,
  printDayCount,
  printDays,
  printEvery,
  printKey,
  printName,
  printRange,
  printRest,
  printTime,
  printValue,
  printWeeks,
  printWhen,
} from "./print-leaves";
import { printMusic } from "./print-music";
import type {
  AimField,
  AreaField,
  AskEntry,
  Assignment,
  Block,
  BudgetEntry,
  ChangeItem,
  Declaration,
  ExerciseField,
  GoalField,
  LetField,
  PauseItem,
  PlayerField,
  RecordEntry,
  RecordLine,
  SessionBlock,
  ShortBlock,
  StudioField,
  TermField,
  Trivia,
  Unread,
  WeeksBlock,
} from "./tree";

/**
 * Text built from the tree: the formatter prints what was read, and a fix prints the statement it changed.
 * What has braces is printed with them, indented from the `indent` it is told.
 */

/** Anything that stands on a line of its own. */
export type AnyStatement =
  | Declaration
  | AreaField
  | StudioField
  | ExerciseField
  | PlayerField
  | BudgetEntry
  | TermField
  | AskEntry
  | WeeksBlock
  | SessionBlock
  | Assignment
  | PauseItem
  | ShortBlock
  | ChangeItem
  | RecordLine
  | AimField
  | GoalField
  | LetField
  | Unread;

/** A short block written on one line stays on it up to this width. */
const WIDEST = 100;
/** Where the values of a column of fields begin. */
const COLUMN = 10;

/** A statement as text, without its comments. The first line is not indented, the others are. */
export function printStatement(statement: AnyStatement, indent = 0): string {
  return withBlock(statement, indent, true);
}

/** What stands before the braces, in columns where `wide`. */
function head(statement: AnyStatement, wide: boolean): string {
  const field: Field = (word, value) =>
    wide && word.length < COLUMN ? `${word.padEnd(COLUMN)}${value}` : `${word} ${value}`;
  switch (statement.kind) {
    case "unread":
      return statement.text;
    case "aim":
      return field("aim", printName(statement.text));
    case "goal": {
      const by = "week" in statement.by ? `week ${statement.by.week.text}` : statement.by.date.text;
      return field("goal", `${printName(statement.text)} by ${by}`);
    }
    case "let": {
      const on = statement.on === undefined ? "" : ` on ${statement.on.text}`;
      return `let ${statement.code.text} stand${on} because ${printName(statement.because)}`;
    }
    // declarations
    case "use":
      return `use ${printName(statement.path)}`;
    case "studio":
      return statement.name === undefined ? "studio" : `studio ${printName(statement.name)}`;
    case "area":
      return `area ${printName(statement.name)}`;
    case "exercise":
    case "level":
    case "student": {
      const like = statement.like === undefined ? "" : ` like ${printName(statement.like)}`;
      return `${statement.kind} ${printName(statement.name)}${like}`;
    }
    case "routine": {
      const minutes = statement.minutes === undefined ? "" : ` ${printTime(statement.minutes)}`;
      return `routine ${printName(statement.name)}${minutes}`;
    }
    case "term":
      return `term ${printName(statement.name)} for ${statement.players.map(printName).join(", ")}`;
    case "record":
      return `record of ${printName(statement.term)}`;
    // area and studio
    case "at least every":
      return `at least every ${printDayCount(statement.days)}`;
    case "time setting":
      return `${statement.setting} ${printTime(statement.time)}`;
    case "percent setting":
      return `${statement.setting}${PERCENT_WORDS[statement.setting]} ${statement.share.text}`;
    case "plain setting":
      return settingHead(statement, field);
    case "finding":
      return field("finding", `${statement.code.text} ${statement.severity}`);
    // exercise
    case "in":
      return field("in", printName(statement.area));
    case "key":
      return field("key", printKey(statement.key));
    case "meter":
      return field("meter", statement.value === undefined ? "free" : printValue(statement.value));
    case "tempo":
      return field("tempo", `${printValue(statement.beat)} = ${statement.bpm.text}`);
    case "music":
      if (statement.by === "degrees") return `degrees from ${statement.from?.text ?? ""}`;
      return field(statement.by === "pitches" ? "music" : "partials", "").trimEnd();
    case "rest":
      return field("rest", printRest(statement.rest));
    case "dynamic":
      return field("dynamic", statement.dynamic);
    case "articulation":
      return field("articulation", printArticulation(statement.articulation));
    case "rhythm":
      return field("rhythm", statement.values.map(printValue).join(" "));
    case "ornament":
      return field("ornament", `${statement.ornament} on ${printValue(statement.on)}`);
    case "moved":
      return field("moved", `${statement.direction} by ${statement.step}`);
    case "series": {
      const cells = statement.cells === undefined ? "" : `${statement.cells.text} cells `;
      return field("series", `${cells}${statement.direction} by ${statement.step}`);
    }
    case "printed": {
      const page = statement.page === undefined ? "" : ` page ${statement.page.text}`;
      const { bars } = statement;
      const part = bars === undefined ? "" : ` bars ${bars.from.text} to ${bars.to.text}`;
      return field("printed", `${printName(statement.title)}${page}${part}`);
    }
    case "range":
    case "limit":
      return field(statement.kind, `${statement.low.text} to ${statement.high.text}`);
    case "lasts":
    case "upper":
    case "breath":
      return field(statement.kind, printTime(statement.time));
    case "activity":
      return field("activity", statement.quoted ? printName(statement.activity) : statement.activity.text);
    case "lips":
      return `${statement.how} lips`;
    // players
    case "instrument":
      return field("instrument", statement.words.text);
    case "stage":
      return field("stage", statement.stage);
    case "upper from":
      return `upper from ${statement.pitch.text}`;
    case "tongue": {
      const how = statement.how === "single" ? "" : `${statement.how} `;
      return field("tongue", `${how}${printValue(statement.value)} at ${statement.bpm.text}`);
    }
    case "keys":
      return field("keys", statement.keys.map(printKey).join(", "));
    case "each":
      return `each ${statement.period}`;
    case "time at most":
      return `${statement.what} at most ${printTime(statement.time)}`;
    case "load at most":
      return `load at most ${statement.points.text} points`;
    case "increase at most":
      return `increase at most ${statement.share.text}`;
    case "days at most":
      return `days at most ${statement.days.text}`;
    // term
    case "from":
      return field("from", `${statement.from.text} to ${statement.to.text}`);
    case "practice":
      return field("practice", printDays(statement.days));
    case "closure": {
      const reason = statement.reason === undefined ? "" : ` ${printName(statement.reason)}`;
      return field(statement.how, `${printDates(statement.dates)}${reason}`);
    }
    case "lesson": {
      const name = statement.name === undefined ? "" : ` ${printName(statement.name)}`;
      const days = printEvery(statement.days);
      return `${statement.days.kind === "dates" ? field("lesson", days) : `lesson ${days}`}${name}`;
    }
    case "booked": {
      const word = statement.concert ? "concert" : "booked";
      const within = statement.within === undefined ? "" : ` from ${printDates(statement.within)}`;
      const days = printEvery(statement.days);
      const line = statement.days.kind === "dates" ? field(word, days) : `${word} ${days}`;
      return `${line}${within} ${printName(statement.name)}`;
    }
    case "ease":
      return `ease ${printDayCount(statement.days)} before concerts to ${statement.to.text}`;
    case "short days": {
      const days = printEvery(statement.days);
      return statement.days.kind === "dates" ? field("short", days) : `short ${days}`;
    }
    case "weeks":
      return printWeeks(statement.weeks);
    case "change":
      return `change ${printName(statement.player)}`;
    case "asks time":
      return `${statement.what} ${printTime(statement.time)}`;
    case "asks share":
      return `${statement.what} ${statement.share.text}`;
    case "asks load":
      return `load ${statement.points.text} points`;
    // sessions
    case "session": {
      const words = [printDays(statement.days)];
      if (statement.name !== undefined) words.push(printName(statement.name));
      if (statement.minutes !== undefined) words.push(printTime(statement.minutes));
      if (statement.routine !== undefined) words.push(`routine ${printName(statement.routine)}`);
      return words.join(" ");
    }
    case "pause":
      return field("rest", printTime(statement.time));
    case "short":
      return statement.minutes === undefined ? "short" : `short ${printTime(statement.minutes)}`;
    case "assignment":
      return printAssignmentHead(statement);
    // changes and the record
    case "replace":
      return `replace ${printName(statement.exercise)} with ${printName(statement.by)}${printWhen(statement.when)}`;
    case "leave out":
      return `leave out ${printName(statement.exercise)}${printWhen(statement.when)}`;
    case "ill":
      return field("ill", printDates(statement.dates));
    case "back at half":
      return `back at half ${printDates(statement.dates)}`;
    case "record line": {
      const when = "week" in statement.when ? `week ${statement.when.week.text}` : statement.when.date.text;
      return [when, printName(statement.player), ...statement.entries.map(printRecordEntry)].join(" ");
    }
  }
}

type Field = (word: string, value: string) => string;

function settingHead(statement: Extract<StudioField, { kind: "plain setting" }>, field: Field): string {
  const { setting, value } = statement;
  switch (setting) {
    case "tuning":
      return field(setting, `${value.text} Hz`);
    case "fermata":
      return field(setting, `${value.text} times`);
    case "load exponent":
      return `${setting} ${value.text}`;
    case "dynamic step":
      return `${setting} ${value.text} dB`;
    case "untouched":
      return field(setting, `at most ${printDayCount(value)}`);
  }
}

/** An assignment without its braces. */
export function printAssignmentHead({ exercise, clauses }: Pick<Assignment, "exercise" | "clauses">): string {
  return [printName(exercise), ...clauses.map(printClause)].join("  ");
}

const PERCENT_WORDS = {
  "soft breath": "",
  "loud breath": "",
  "tempo jump": " at most",
  rest: " at least",
} as const;

/** One entry of a line of the record. */
export function printRecordEntry(entry: RecordEntry): string {
  switch (entry.kind) {
    case "days":
      return entry.days.join(" ");
    case "done":
    case "missed":
      return entry.kind;
    case "except":
      return `except ${printName(entry.exercise)}`;
    case "felt":
      return `felt ${entry.effort.text}`;
    case "passed": {
      const key = entry.key === undefined ? "" : ` in ${printKey(entry.key)}`;
      return `${entry.passed ? "" : "not "}passed ${printName(entry.exercise)}${key}`;
    }
    case "played": {
      const key = entry.key === undefined ? "" : ` in ${printKey(entry.key)}`;
      const at = entry.bpm === undefined ? "" : ` at ${entry.bpm.text}`;
      return `${printName(entry.exercise)}${key}${at}${printPlayedTimes(entry.times)}`;
    }
    case "note":
      return `note ${printName(entry.text)}`;
  }
}

function printPlayedTimes(times: Extract<RecordEntry, { kind: "played" }>["times"]): string {
  if (times === undefined) return "";
  const text = printRange(times);
  return text === "once" || text === "twice" ? ` ${text}` : ` ${text} times`;
}

/** The block of a statement, where it has one. */
function blockOf(statement: AnyStatement): Block<AnyStatement> | undefined {
  if ("block" in statement) return statement.block;
  return "asks" in statement ? statement.asks : undefined;
}

function withBlock(statement: AnyStatement, indent: number, wide: boolean, after?: string): string {
  const text = head(statement, wide);
  const end = after === undefined ? "" : `  ${after}`;
  if (statement.kind === "music") {
    // In a column of fields the notes begin where the other values do.
    const padded = wide && statement.by !== "degrees" ? text.padEnd(COLUMN) : `${text} `;
    return `${padded}${printMusic(statement.music, indent)}${end}`;
  }
  const block = blockOf(statement);
  if (block === undefined) return `${text}${end}`;
  if (block.inline) {
    const inner = inlineItems(block);
    const line = inner === "" ? `${text} { }` : `${text} { ${inner} }`;
    if (indent + line.length <= WIDEST) return `${line}${end}`;
  }
  const items = printItems(block, indent + 2);
  return `${text} {${end}\n${items}${" ".repeat(indent)}}`;
}

/** The statements of a block on one line. A line end inside one of them (unread text) is kept as it is. */
function inlineItems(block: Block<AnyStatement>): string {
  return block.items.map((item) => withBlock(item, 0, false)).join("  ");
}

/** The statements of a block, one a line, each line with its end. */
function printItems(block: Block<AnyStatement>, indent: number): string {
  const margin = " ".repeat(indent);
  let text = "";
  for (const item of block.items) {
    text += `${printAbove(item.trivia, margin)}${margin}${withBlock(item, indent, true, item.trivia.after)}\n`;
  }
  for (const comment of block.closing) text += comment === "" ? "\n" : `${margin}${comment}\n`;
  return text;
}

/** What stands above a statement: a blank line and comments. */
function printAbove(trivia: Trivia, margin: string): string {
  let text = trivia.blank ? "\n" : "";
  for (const comment of trivia.before) text += comment === "" ? "\n" : `${margin}${comment}\n`;
  return text;
}

/** A declaration with its comments, each line with its end. */
export function printDeclaration(declaration: Declaration): string {
  const { trivia } = declaration;
  return `${printAbove(trivia, "")}${withBlock(declaration, 0, true, trivia.after)}\n`;
}
