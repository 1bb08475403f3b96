import type { TokenType } from "chevrotain";
import { PracticeParser } from "./rules";
import { DateText, K, Mark, QuotedName, Weekday } from "./tokens";

/** The blocks a statement can stand in; `file` is the margin. */
export type BlockKind =
  | "file"
  | "area"
  | "studio"
  | "exercise"
  | "player"
  | "budget"
  | "term"
  | "asks"
  | "weeks"
  | "session"
  | "assignment"
  | "change"
  | "record";

/** One statement: the rule that reads it, and how to speak of it. */
export interface Statement {
  readonly rule: () => { readonly kind: string } | undefined;
  /** "A tempo" */
  readonly name: string;
  /** "tempo 1/4 = 72" */
  readonly example: string;
  /** What its braces hold. */
  readonly block: BlockKind | undefined;
}

/** How a block is called in a sentence. */
export const BLOCK_NAMES: Readonly<Record<BlockKind, string>> = {
  file: "the margin",
  area: "an area",
  studio: "the studio",
  exercise: "an exercise",
  player: "a level or a student",
  budget: "a budget (`each day`, `each week`)",
  term: "a term",
  asks: "a lesson or a booking",
  weeks: "a block of weeks",
  session: "a session",
  assignment: "the braces of an assignment",
  change: "a `change` for one student",
  record: "a record",
};

/** The one parser of the process. It keeps no state between two statements. */
export const parser = new PracticeParser();

type Entry = readonly [first: TokenType, statement: Statement];

function entry(
  first: TokenType,
  rule: Statement["rule"],
  name: string,
  example: string,
  block?: BlockKind,
): Entry {
  return [first, { rule: rule.bind(parser), name, example, block }];
}

const p = parser;
const aim = entry(K.aim, p.aim, "An aim", 'aim "an even sound"');
const goal = entry(K.goal, p.goal, "A goal", 'goal "from memory" by week 6');
const letStand = entry(
  K.let,
  p.letStand,
  "Letting a finding stand",
  'let day-upper stand because "the concert is near"',
);
const session = (first: TokenType): Entry =>
  entry(first, p.session, "A session", 'Mon to Fri "Morning" 15 min { … }', "session");
const weeks = (first: TokenType): Entry =>
  entry(first, p.weeksBlock, "A block of weeks", "weeks 1 to 4 { … }", "weeks");
const quantities = [K.clock, K.playing, K.upper, K.stretch];

const ENTRIES: Readonly<Record<BlockKind, readonly Entry[]>> = {
  file: [
    entry(K.use, p.use, "Another file", 'use "book.practice"'),
    entry(K.studio, p.studio, "The studio", 'studio "Saltmarsh brass" { … }', "studio"),
    entry(K.area, p.area, "An area", 'area "Long tones"', "area"),
    entry(K.exercise, p.exercise, "An exercise", 'exercise "Slow fifths" { … }', "exercise"),
    entry(K.routine, p.routine, "A routine", 'routine "Morning basics" 15 min { … }', "session"),
    entry(K.level, p.level, "A level", 'level "Seniors" { … }', "player"),
    entry(K.student, p.student, "A student", 'student "K. M." like "Seniors" { … }', "player"),
    entry(K.term, p.term, "A term", 'term "Autumn" for "Seniors" { … }', "term"),
    entry(K.record, p.record, "A record", 'record of "Autumn" { … }', "record"),
  ],
  area: [
    aim,
    letStand,
    entry(K.at, p.atLeastEvery, "How long an area may be left alone", "at least every 4 days"),
  ],
  studio: [
    entry(K.tuning, p.tuning, "The tuning", "tuning 440 Hz"),
    entry(K.horn, p.hornDown, "The shortest rest that counts", "horn down 15 s"),
    entry(K.breath, p.breathBetween, "The breath between two times through", "breath between 2 s"),
    entry(Mark, p.fermataTimes, "The length of a fermata", "fermata 2 times"),
    entry(K.load, p.loadExponent, "The load's exponent", "load exponent 1"),
    entry(K.dynamic, p.dynamicStep, "The step between dynamics", "dynamic step 5 dB"),
    entry(K.soft, p.softBreath, "A soft breath", "soft breath 130 %"),
    entry(K.loud, p.loudBreath, "A loud breath", "loud breath 70 %"),
    entry(K.untouched, p.untouched, "How long an area may be left alone", "untouched at most 3 days"),
    entry(K.tempo, p.tempoJump, "The growth of a tempo", "tempo jump at most 12 %"),
    entry(K.rest, p.restShare, "The share of rest", "rest at least 25 %"),
    entry(K.finding, p.finding, "The weight of a finding", "finding week-climbs warning"),
    aim,
    letStand,
  ],
  exercise: [
    entry(K.in, p.inArea, "The area of an exercise", 'in "Long tones"'),
    entry(K.key, p.homeKey, "A key", "key C major"),
    entry(K.meter, p.meter, "A meter", "meter 4/4"),
    entry(K.tempo, p.tempo, "A tempo", "tempo 1/4 = 72"),
    entry(K.music, p.music, "Music", "music { 1/4 C4 D4 | }"),
    entry(K.degrees, p.degrees, "Music in scale degrees", "degrees from C4 { 1/4 1 2 3 | }"),
    entry(K.partials, p.partials, "Music in partials", "partials { 1/4 lip (2 3 4 3) | }"),
    entry(K.rest, p.rest, "A rest", "rest 20 s"),
    entry(K.dynamic, p.startDynamic, "A dynamic", "dynamic p"),
    entry(K.articulation, p.articulationField, "An articulation", "articulation slur 2 tongue 2"),
    entry(K.rhythm, p.rhythm, "A rhythm", "rhythm 1/8. 1/16"),
    entry(K.ornament, p.ornament, "An ornament", "ornament turn on 1/2"),
    entry(K.moved, p.moved, "A moved exercise", "moved down by fourth"),
    entry(K.series, p.series, "A series", "series 7 cells down by half step"),
    entry(K.printed, p.printed, "Printed music", 'printed "Quayside studies" page 12 bars 1 to 24'),
    entry(K.range, p.pitchRange, "A range", "range G3 to G5"),
    entry(K.lasts, p.lasts, "How long it lasts", "lasts 2 min"),
    entry(K.upper, p.upperTime, "The time in the upper register", "upper 10 s"),
    entry(K.activity, p.activity, "Work without notes", "activity breathing"),
    entry(K.loads, p.lips, "What it asks of the lips", "loads lips"),
    entry(K.spares, p.lips, "What it asks of the lips", "spares lips"),
    aim,
    letStand,
  ],
  player: [
    entry(K.instrument, p.instrument, "An instrument", "instrument trumpet in Bb"),
    entry(K.stage, p.stage, "A stage", "stage senior"),
    entry(K.range, p.pitchRange, "A range", "range G3 to A5"),
    entry(K.limit, p.limit, "A limit", "limit F#3 to C6"),
    entry(K.upper, p.upperFrom, "The upper register", "upper from F5"),
    entry(K.breath, p.breath, "A breath", "breath 10 s"),
    entry(K.tongue, p.tongue, "The fastest tonguing", "tongue sixteenths at 105"),
    entry(K.keys, p.keyList, "A list of keys", "keys C, G, F"),
    entry(K.each, p.budget, "A budget", "each day { clock at most 45 min }", "budget"),
    aim,
    letStand,
  ],
  budget: [
    ...quantities.map((first) => entry(first, p.timeAtMost, "A limit of time", "playing at most 28 min")),
    entry(K.load, p.loadAtMost, "A limit of load", "load at most 40 points"),
    entry(K.increase, p.increaseAtMost, "A limit of increase", "increase at most 15 %"),
    entry(K.days, p.daysAtMost, "A limit of days", "days at most 6"),
  ],
  term: [
    entry(K.from, p.fromTo, "The length of a term", "from 2026-09-07 to 2026-12-11"),
    entry(K.practice, p.practiceDays, "The days of practice", "practice Mon to Sat"),
    entry(K.closed, p.closure, "A closure", 'closed 2026-10-26 to 2026-10-31 "half-term"'),
    entry(K.light, p.closure, "Light practice", "light 2026-11-02 to 2026-11-03"),
    entry(K.no, p.closure, "A lesson that falls away", "no lesson 2026-11-10"),
    entry(K.lesson, p.lesson, "A lesson", "lesson every Tue", "asks"),
    entry(K.booked, p.booking, "A booking", 'booked every Thu "Wind band" { playing half }', "asks"),
    entry(
      K.concert,
      p.booking,
      "A concert",
      'concert 2026-11-20 "Harbour concert" { playing 15 min }',
      "asks",
    ),
    entry(K.ease, p.ease, "Easing before concerts", "ease 3 days before concerts to half"),
    entry(K.short, p.shortDays, "Short days", "short every Wed"),
    weeks(K.weeks),
    weeks(K.week),
    weeks(K.every),
    entry(K.change, p.change, "A change for one student", 'change "K. M." { … }', "change"),
    aim,
    goal,
    letStand,
  ],
  asks: [...quantities, K.load].map((first) =>
    entry(first, p.ask, "What it asks of the lips", "clock 40 min  playing half  upper 4 min"),
  ),
  weeks: [session(Weekday), session(K.every), session(K.on), aim, letStand],
  session: [
    entry(
      QuotedName,
      p.assignment,
      "An assignment",
      '"Slow fifths"  keys C up by half step to G  tempo 50 to 58  twice',
      "assignment",
    ),
    entry(K.rest, p.pause, "A pause", "rest 1 min"),
    entry(K.short, p.shortBlock, "The short version of a session", "short 5 min { … }", "session"),
    aim,
    goal,
    letStand,
  ],
  assignment: [aim, goal, letStand],
  change: [
    entry(K.replace, p.replace, "A replacement", 'replace "Slow fifths" with "Low slow fifths"'),
    entry(K.leave, p.leaveOut, "Leaving out", 'leave out "Slow fifths"'),
    entry(K.ill, p.ill, "Days of illness", "ill 2026-10-05 to 2026-10-07"),
    entry(K.back, p.backAtHalf, "Coming back", "back at half 2026-10-08 to 2026-10-10"),
  ],
  record: [
    entry(K.week, p.recordLine, "A line of the record", 'week 1 "K. M." Mon Tue Thu felt 5'),
    entry(DateText, p.recordLine, "A line of the record", '2026-09-15 "K. M." passed "Slow fifths" in C'),
  ],
};

/** The statements that may stand in each block, by the index of the token they begin with. */
export const STATEMENTS: Readonly<Record<BlockKind, ReadonlyMap<number, Statement>>> = Object.fromEntries(
  Object.entries(ENTRIES).map(([kind, entries]) => [
    kind,
    new Map(entries.flatMap(([first, statement]) => indices(first).map((index) => [index, statement]))),
  ]),
) as Record<BlockKind, Map<number, Statement>>;

/** The words that begin a statement of each block, for messages and completion. */
export const FIRST_WORDS: Readonly<Record<BlockKind, readonly string[]>> = Object.fromEntries(
  Object.entries(ENTRIES).map(([kind, entries]) => [
    kind,
    entries.flatMap(([, statement]) => /^[A-Za-z]+/.exec(statement.example)?.[0] ?? []),
  ]),
) as Record<BlockKind, string[]>;

/** A token type and the types that belong to it: a name that is never closed still begins an assignment. */
function indices(type: TokenType): number[] {
  return [type.tokenTypeIdx ?? 0, ...(type.categoryMatches ?? [])];
}
