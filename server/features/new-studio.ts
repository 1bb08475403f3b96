import { format } from "../../grammar/format";
import type { StageWord } from "../../grammar/tree";
import { findInstrument, INSTRUMENTS } from "../music/instrument";
import { dateText, mondayOf, parseDate, weekdayOf } from "../plan/date";
import { STAGES } from "../plan/stage";
import type { NewStudioParams, NewStudioResult, StudioChoicesResult } from "../protocol/requests";
import { list } from "../rules/words";
import { STARTER_BOOK, STARTER_STUDIO } from "./starter-book";

/** Under ten minutes not every area is reached; over two hours nobody should plan a lip's day from a template. */
const MINUTES = { least: 10, most: 120 } as const;
/** A school year has about forty weeks. */
const WEEKS = { least: 1, most: 40 } as const;
/** Nobody practises on all seven: a day off is when lips grow stronger. */
const DAYS = { least: 1, most: 6 } as const;
/** Years in which a term may start; the last of its days must still be one that a plan may name. */
const YEARS = { least: 1901, most: 2197 } as const;

/** Which weekdays, from Monday 0, a number of days a week means, and how they are written. */
const DAYS_OF: readonly { readonly text: string; readonly days: readonly number[] }[] = [
  { text: "Wed", days: [2] },
  { text: "Mon, Thu", days: [0, 3] },
  { text: "Mon, Wed, Fri", days: [0, 2, 4] },
  { text: "Mon, Tue, Thu, Fri", days: [0, 1, 3, 4] },
  { text: "Mon to Fri", days: [0, 1, 2, 3, 4] },
  { text: "Mon to Sat", days: [0, 1, 2, 3, 4, 5] },
];

/** From this many minutes on, a day's practice is split into a morning and an evening. */
const TWO_SESSIONS = 40;

/** Of a day's minutes at most so much is playing, the rest is rest: about as the stages have it. */
const PLAYING = 0.6;

/** The starter book is fingered and read as on the trumpet. */
const FITTING = INSTRUMENTS.filter(
  ({ clef, home }) => clef === "treble" && home.step === 4 && home.octave === 4,
);

const STAGE_WORDS = [
  "first year",
  "years 2 to 3",
  "senior",
  "college",
] as const satisfies readonly StageWord[];

/** What may be answered to the questions of a new studio, and what is proposed. */
export function studioChoices(): StudioChoicesResult {
  return {
    instruments: FITTING.map((instrument) => instrument.text),
    stages: STAGE_WORDS.map((stage) => ({
      stage,
      minutes: STAGES[stage].clock,
      daysPerWeek: STAGES[stage].days,
    })),
    days: DAYS,
    minutes: MINUTES,
    weeks: WEEKS,
  };
}

/**
 * The files of a new studio: studio, book, players and a first term. Whatever the answers, the files check without
 * a finding; an answer that cannot be meant is told in the teacher's words. Nothing is written here.
 */
export function newStudio(answers: NewStudioParams): NewStudioResult {
  const trouble = troubleWith(answers);
  if (trouble !== undefined) return { trouble };
  const files = [
    { path: "studio.practice", text: STARTER_STUDIO },
    { path: "book.practice", text: STARTER_BOOK },
    { path: "players.practice", text: playersText(answers) },
    { path: "first-term.practice", text: termText(answers) },
  ];
  return { files: files.map(({ path, text }) => ({ path, text: format(text) })) };
}

function troubleWith(answers: NewStudioParams): string | undefined {
  const { level, stage, instrument, daysPerWeek, minutes, weeks } = answers;
  // Names are kept as they are shown, and these letters would end one or hide in it.
  if (level.trim() === "" || /["“”„{}\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(level)) {
    return "A level's name is a few words on one line, without quotes or braces.";
  }
  if (!STAGE_WORDS.some((each) => each === stage)) return `A stage is one of ${list(STAGE_WORDS)}.`;
  const found = findInstrument(instrument);
  if (found === undefined || !FITTING.includes(found)) {
    return `The starter book is written for ${list(
      FITTING.map((each) => each.text),
      20,
    )}.`;
  }
  if (!isBetween(daysPerWeek, DAYS)) {
    return `Days of practice a week are a whole number from ${DAYS.least} to ${DAYS.most}: a day off is when lips grow stronger.`;
  }
  if (!isBetween(minutes, MINUTES))
    return `Minutes a day are a whole number from ${MINUTES.least} to ${MINUTES.most}.`;
  if (!isBetween(weeks, WEEKS)) return `Weeks are a whole number from ${WEEKS.least} to ${WEEKS.most}.`;
  const from = parseDate(answers.from);
  const year = Number(answers.from.slice(0, 4));
  if (from === undefined || !isBetween(year, YEARS)) {
    return "The first day is a date such as 2026-09-07: year, month, day.";
  }
  return undefined;
}

function isBetween(
  value: number,
  { least, most }: { readonly least: number; readonly most: number },
): boolean {
  return Number.isInteger(value) && value >= least && value <= most;
}

function playersText({ level, stage, instrument, daysPerWeek, minutes }: NewStudioParams): string {
  return `# Levels and students. A stage brings starting figures for range, breath, tongue and budgets: common practice,
# a place to start from. Whatever you state here takes their place.

level "${level.trim()}" {
  instrument ${findInstrument(instrument)?.text ?? instrument}
  stage ${stage}
  each day { clock at most ${minutes} min  playing at most ${Math.ceil(minutes * PLAYING)} min }
  each week { days at most ${daysPerWeek} }
}

# A student is like a level and says only what differs. Initials suffice. Take the # away to begin:
# student "A. B." like "${level.trim()}" { breath 8 s }
`;
}

function termText({ level, daysPerWeek, minutes, from, weeks }: NewStudioParams): string {
  const { text, days } = DAYS_OF[daysPerWeek - 1]!;
  const first = parseDate(from) ?? 0;
  return `# The first term. What you know of it goes below its dates, for instance
#   closed 2026-10-26 to 2026-10-31 "half-term"
#   lesson every Tue
#   booked every Thu "Wind band" { clock 40 min  playing half }

use "book.practice"
use "players.practice"

term "First term" for "${level.trim()}" {
  from ${dateText(first)} to ${dateText(lastDay(first, days, weeks))}
  practice ${text}
  every week {
${sessionsText(text, minutes)}
  }
}
`;
}

/** The last day of practice of the term's last taught week. A week that has none left is not taught. */
function lastDay(first: number, days: readonly number[], weeks: number): number {
  const last = days.at(-1) ?? 0;
  const monday = mondayOf(first);
  const startsLate = weekdayOf(first) > last;
  return monday + last + 7 * (weeks - 1 + (startsLate ? 1 : 0));
}

interface Line {
  readonly exercise: string;
  /** The part of the session's minutes that goes to it; those of one session sum up to 1. */
  readonly part: number;
}

const MORNING: readonly Line[] = [
  { exercise: '"One tone at a time"', part: 0.4 },
  { exercise: '"Low bridge"  valves open', part: 0.3 },
  { exercise: '"Up the hill and down"  tempo 100 to 104', part: 0.3 },
];
const EVENING: readonly Line[] = [
  { exercise: '"Up the hill and down"  in C', part: 0.3 },
  { exercise: '"Level road"', part: 0.3 },
  { exercise: '"Small evening song"', part: 0.4 },
];
const WHOLE_DAY: readonly Line[] = [
  { exercise: '"One tone at a time"', part: 0.25 },
  { exercise: '"Low bridge"  valves open', part: 0.2 },
  { exercise: '"Up the hill and down"  tempo 100 to 104', part: 0.2 },
  { exercise: '"Level road"', part: 0.15 },
  { exercise: '"Small evening song"', part: 0.2 },
];

function sessionsText(days: string, minutes: number): string {
  if (minutes < TWO_SESSIONS) return sessionText(days, "Daily", minutes, WHOLE_DAY);
  const morning = Math.ceil(minutes / 2);
  return [
    sessionText(days, "Morning", morning, MORNING),
    sessionText(days, "Evening", minutes - morning, EVENING),
  ].join("\n");
}

/** Minutes that settling in takes at the start of every session: breathing, and one time down the first steps. */
const SETTLING = 1;

function sessionText(days: string, name: string, minutes: number, lines: readonly Line[]): string {
  const shares = sharedOut(
    minutes - SETTLING,
    lines.map((line) => line.part),
  );
  const asked = lines.map(({ exercise }, index) => `      ${exercise}  for ${shares[index]} min`);
  return `    ${days} "${name}" ${minutes} min {
      "Quiet breaths"  once
      "Down the first steps"  once
${asked.join("\n")}
    }`;
}

/** Whole minutes shared out by parts that sum up to 1; what is left over goes to the largest remainders. */
function sharedOut(minutes: number, parts: readonly number[]): readonly number[] {
  const shares = parts.map((part) => Math.floor(minutes * part));
  const left = minutes - shares.reduce((sum, share) => sum + share, 0);
  const byRemainder = parts
    .map((part, index) => ({ index, remainder: minutes * part - (shares[index] ?? 0) }))
    .sort((a, b) => b.remainder - a.remainder || a.index - b.index);
  const favoured = new Set(byRemainder.slice(0, left).map((each) => each.index));
  return shares.map((share, index) => share + (favoured.has(index) ? 1 : 0));
}
