/** A small studio in three files for the tests of what helps while writing. */
export const BOOK = `--- book.practice
area "Long tones"
area "Flow" {
  aim       "never still"
}

exercise "Slow fifths" {
  in        "Long tones"
  key       C major
  meter     4/4
  tempo     1/2 = 60
  aim       "the same ring on both"
  music     { 1/2 C4 G4 | 1/1 C5 ' | }
  rest      equal
}

exercise "Étude in thirds" {
  in        "Flow"
  key       G major
  meter     4/4
  tempo     1/4 = 80
  degrees from G4 { 1/16 1 3 2 4 3 5 4 6 5 7 6 8 7 9 8 7 | 1/1 8 ' | }
}

exercise "Gates" {
  in        "Flow"
  meter     4/4
  tempo     1/4 = 60
  partials  { 1/4 lip (2 3 4 3) | 1/1 2 ' | }
}
`;

export const PLAYERS = `--- players.practice
level "Seniors" {
  instrument trumpet in Bb
  stage     senior
  range     G3 to A5
  limit     F#3 to C6
  upper from F5
  keys      C, G, F
  each day {
    playing at most 28 min
    upper at most 1 min
  }
}

student "K. M." like "Seniors" {
  limit     F#3 to Bb5
}
`;

/** The head of a term of three weeks, the second Wednesday of which is closed. */
export const TERM_HEAD = `--- term.practice
use "book.practice"
use "players.practice"

term "Autumn" for "Seniors" {
  from      2026-09-07 to 2026-09-26
  practice  Mon to Fri
  closed    2026-09-16 "fair"`;

/** The studio with a term whose only session holds these lines. */
export function studio(...lines: readonly string[]): string {
  return studioWith(`  weeks 1 to 3 {
    Mon to Fri "Morning" 30 min {
${lines.map((line) => `      ${line}`).join("\n")}
    }
  }`);
}

/** The studio with these lines in its term. */
export function studioWith(term: string): string {
  return `${BOOK}${PLAYERS}${TERM_HEAD}\n\n${term}\n}\n`;
}
