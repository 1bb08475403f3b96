/** A small studio in several files, two of whose terms bear the same name. */
export const SMALL_STUDIO = `--- studio.practice
studio "Saltmarsh brass"
area "Long tones"
area "Flow"
--- book.practice
exercise "Slow fifths" {
  in "Long tones"
  key C major
  meter 4/4
  tempo 1/2 = 50
  music { 1/2 C4 (G4 | C5 G4) | 1/1 C4 ' | }
}
exercise "Slow fifths, tongued" like "Slow fifths" {
  articulation all tongued
}
routine "Morning basics" 15 min {
  "Slow fifths" twice
  short 5 min { "Slow fifths" once }
}
--- players.practice
level "Seniors" {
  range G3 to A5
}
student "K. M." like "Seniors"
--- 2025/autumn.practice
use "../book.practice"
use "../players.practice"
term "Autumn" for "Seniors" {
  from 2025-09-08 to 2025-12-12
  weeks 1 to 4 {
    Mon to Fri "Morning" routine "Morning basics"
  }
}
--- 2026/autumn.practice
use "../book.practice"
use "../players.practice"
term "Autumn" for "Seniors", "K. M." {
  from 2026-09-07 to 2026-12-11
  weeks 1 to 4 {
    Mon to Fri "Slow fifths" 15 min {
      aim "Slow fifths"
      "Slow fifths" in C twice
    }
  }
  change "K. M." {
    replace "Slow fifths" with "Slow fifths, tongued" weeks 1 to 3
    leave out "Slow fifths" week 4
  }
}
--- 2026/record.practice
use "autumn.practice"
record of "Autumn" {
  week 1 "K. M." done except "Slow fifths"
  2026-09-15 "K. M." passed "Slow fifths" in C
  2026-09-17 "K. M." "Slow fifths" in D at 56 twice
}
`;

/** The studio with the cursor put behind the nth occurrence of some text in one of its files. */
export function cursorIn(path: string, text: string, nth = 1): string {
  const heading = SMALL_STUDIO.indexOf(`--- ${path}\n`);
  if (heading < 0) throw new Error(`no file ${path}`);
  let at = heading;
  for (let i = 0; i < nth; i++) {
    at = SMALL_STUDIO.indexOf(text, at + 1);
    if (at < 0) throw new Error(`no ${text} in ${path}`);
  }
  return `${SMALL_STUDIO.slice(0, at + text.length)}‸${SMALL_STUDIO.slice(at + text.length)}`;
}
