import type {
  ArticulationText,
  Clause,
  Count,
  DateRange,
  Days,
  KeysClause,
  KeyText,
  Name,
  PlacedKey,
  Range,
  RestText,
  TimeText,
  ValueText,
  ValvesClause,
  WeekdayRange,
  Weeks,
  When,
} from "./tree";

/** The parts of statements as text, in their one canonical spelling. */

/** A name in its quotes. Straight quotes and line ends, which no name can hold, are left out. */
export function printName(name: Pick<Name, "text">): string {
  return `"${name.text.replace(/["\r\n]/g, "")}"`;
}

/** `Bb`, `A harmonic minor` */
export function printKey({ tonic, mode }: Pick<KeyText, "tonic" | "mode">): string {
  return mode === undefined ? tonic : `${tonic} ${mode}`;
}

/** `1/8.`, `dotted quaver` */
export function printValue({ text }: Pick<ValueText, "text">): string {
  return text;
}

/** `1 min 30 s` */
export function printTime({ parts }: Pick<TimeText, "parts">): string {
  return parts.map(({ value, unit }) => `${value} ${unit}`).join(" ");
}

/** `2026-10-26 to 2026-10-31` */
export function printDates({ from, to }: Pick<DateRange, "from" | "to">): string {
  return to === undefined ? from.text : `${from.text} to ${to.text}`;
}

function printWeekdays(ranges: readonly WeekdayRange[]): string {
  return ranges.map(({ from, to }) => (to === undefined ? from : `${from} to ${to}`)).join(", ");
}

/** The days of a session: `Mon to Fri`, `every day`, `on 2026-10-01`. */
export function printDays(days: Days): string {
  if (days.kind === "weekdays") return printWeekdays(days.ranges);
  if (days.kind === "every day") return "every day";
  return `on ${days.dates.map(({ text }) => text).join(", ")}`;
}

/** The days of a lesson or a booking: `every Tue`, or dates. */
export function printEvery(days: Days): string {
  if (days.kind === "weekdays") return `every ${printWeekdays(days.ranges)}`;
  if (days.kind === "every day") return "every day";
  return days.dates.map(({ text }) => text).join(", ");
}

/** `weeks 1 to 4, 6`, `week 5`, `every week` */
export function printWeeks({ ranges }: Pick<Weeks, "ranges">): string {
  if (ranges === undefined) return "every week";
  const list = ranges.map(({ from, to }) => (to === undefined ? from.text : `${from.text} to ${to.text}`));
  return `${ranges.length === 1 && ranges[0]?.to === undefined ? "week" : "weeks"} ${list.join(", ")}`;
}

/** ` weeks 1 to 3`, ` from … to …`, or nothing for the whole term. */
export function printWhen(when: When): string {
  if (when === undefined) return "";
  return "weeks" in when ? ` ${printWeeks(when.weeks)}` : ` from ${printDates(when.dates)}`;
}

/** `50`, `50 to 58`, `between 50 and 58` */
export function printRange({ way, from, to }: Pick<Range, "way" | "from" | "to">): string {
  if (to === undefined) return from.text;
  return way === "choice" ? `between ${from.text} and ${to.text}` : `${from.text} to ${to.text}`;
}

/** `slur 2 tongue 2`, `all slurred` */
export function printArticulation(articulation: ArticulationText): string {
  return articulation.kind === "pattern"
    ? articulation.groups.map(({ how, notes }) => `${how} ${notes.text}`).join(" ")
    : articulation.kind;
}

/** `equal`, `none`, `20 s` */
export function printRest(rest: RestText): string {
  return rest.kind === "time" ? printTime(rest.time) : rest.kind;
}

/** `4 days`, `1 day` */
export function printDayCount({ text, value }: Pick<Count, "text" | "value">): string {
  return `${text} ${value === 1 ? "day" : "days"}`;
}

function printPlacedKey({ key, place }: PlacedKey): string {
  return place === undefined ? printKey(key) : `${printKey(key)} ${place}`;
}

function printKeysClause(clause: KeysClause): string {
  const { travel } = clause;
  const keys =
    travel.kind === "list"
      ? travel.keys.map(printPlacedKey).join(", ")
      : `${printKey(travel.from)} ${travel.direction} by ${travel.step} to ${printKey(travel.to)}`;
  // What says how the keys travel is parted like a clause of its own, which it is to the reader.
  const words = [`${clause.all ? "all keys" : "keys"} ${keys}`];
  if (clause.folded) words.push("folded");
  if (clause.nextRound !== undefined) {
    words.push(`next round ${clause.nextRound.direction} by ${clause.nextRound.step}`);
  }
  if (clause.pacing !== undefined) words.push(clause.pacing);
  return words.join("  ");
}

function printValvesClause(clause: ValvesClause): string {
  const { travel } = clause;
  const list =
    travel.kind === "list"
      ? travel.combinations.map(({ text }) => text).join(", ")
      : `${travel.from.text} to ${travel.to.text}`;
  const words = [`${clause.all ? "all valves" : "valves"} ${list}`];
  if (clause.pacing !== undefined) words.push(clause.pacing);
  return words.join("  ");
}

/** One clause of an assignment. */
export function printClause(clause: Clause): string {
  switch (clause.kind) {
    case "in":
      return `in ${printKey(clause.key)}`;
    case "keys":
      return printKeysClause(clause);
    case "valves":
      return printValvesClause(clause);
    case "tempo":
      return clause.beat === undefined
        ? `tempo ${printRange(clause.bpm)}`
        : `tempo ${printValue(clause.beat)} = ${printRange(clause.bpm)}`;
    case "times":
      return clause.word === "times" ? `${printRange(clause.times)} times` : clause.word;
    case "minutes":
      return `for ${printRange(clause.minutes)} min`;
    case "articulation":
      return printArticulation(clause.articulation);
    case "dynamic":
      return `dynamic ${clause.dynamic}`;
    case "rest":
      return `rest ${printRest(clause.rest)}`;
    case "drop when tired":
      return "drop when tired";
  }
}
