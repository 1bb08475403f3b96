/**
 * Plans that read well and are wrong, each with the one thing to be said of it: which finding, in which words,
 * and where. The place is marked «so» in the text. The words are for someone who is not a programmer.
 */
export interface Mistake {
  readonly name: string;
  readonly text: string;
  readonly code: string;
  readonly message: string;
  /** What stands at the place once the finding's own mend is applied. */
  readonly mend?: string;
  /** Other findings that the same slip brings about and that may be said. */
  readonly also?: readonly string[];
}

export const MISTAKES: readonly Mistake[] = [
  {
    name: "a bar too short",
    code: "bar-length",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/4 «C4 D4 E4» | 1/1 C4 | }
}
`,
    message: "Bar 1 holds 3/4 where 4/4 are needed: something is missing, or too short.",
  },
  {
    name: "a bar too long",
    code: "bar-length",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | 1/2 «C4 D4 1/4 E4» | 1/1 C4 | }
}
`,
    message:
      "Bar 2 holds 5/4 where 4/4 is all there is room for: something is too long, or a bar line is missing.",
  },
  {
    name: "a last bar that forgets its pick-up",
    code: "bar-length",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { pickup 1/4 G4 | 1/1 C5 | 1/1 «C5» | }
}
`,
    message:
      "Bar 2 holds 1/1 where 3/4 is all there is room for: something is too long, or a bar line is missing. With the pick-up it makes one whole bar.",
  },
  {
    name: "a repeat that forgets the pick-up it leads back to",
    code: "bar-length",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { repeat [ pickup 1/4 G4 | 1/1 C5 | «C5» | ] repeat [ pickup 1/4 G4 | 1/1 C5 | 1/2. C5 | ] }
}
`,
    message:
      "Bar 2 holds 1/1 where 3/4 is all there is room for: something is too long, or a bar line is missing. With the pick-up it makes one whole bar.",
  },
  {
    name: "a bar after a change of meter",
    code: "bar-length",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | meter 3/4 1/1 «C4» | }
}
`,
    message:
      "Bar 2 holds 1/1 where 3/4 is all there is room for: something is too long, or a bar line is missing.",
  },
  {
    name: "a tuplet that does not come out",
    code: "bar-length",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { triplet [ 1/4 «C4 D4 E4 ] 1/4 C4» | 1/1 C4 | }
}
`,
    message: "Bar 1 holds 3/4 where 4/4 are needed: something is missing, or too short.",
  },
  {
    name: "degrees from a note that is not the tonic",
    code: "degree-home",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key D major
  meter 4/4
  tempo 1/4 = 60
  degrees from «C4» { 1/4 1 2 3 1 | }
}
`,
    message: "Degree 1 is C4, but the tonic of D major is another note. Write “degrees from” and the tonic.",
  },
  {
    name: "two exercises of one name",
    code: "duplicate-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise «"A"» like "B" { }
`,
    message: "There already is an exercise “A”; the first one holds. Give this one another name.",
  },
  {
    name: "two areas of one name",
    code: "duplicate-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
area «"Tone"»
`,
    message: "There already is an area “Tone”; the first one holds. Give this one another name.",
  },
  {
    name: "a level and a student of one name",
    code: "duplicate-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
student «"L"» { stage senior }
`,
    message: "There already is a level or student “L”; the first one holds. Give this one another name.",
  },
  {
    name: "two terms of one name",
    code: "duplicate-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon to Fri "S" { "A"  "B" } }
}
term «"T"» for "L" { from 2027-01-11 to 2027-01-15  every week { Mon "S" { "A" } } }
`,
    message: "There already is a term “T”; the first one holds. Give this one another name.",
  },
  {
    name: "two studios",
    code: "duplicate-name",
    text: `studio "One" { }
«studio "Two" { }»
`,
    message: "There is a second studio here. One place keeps the figures; the first one holds.",
  },
  {
    name: "31 February",
    code: "impossible-date",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  closed «2026-02-31»
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message: "There is no day 2026-02-31. A date is year-month-day, like 2026-09-07, between 1900 and 2199.",
  },
  {
    name: "a year 0",
    code: "impossible-date",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" { from «0000-09-07» to 2026-09-18 }
`,
    message: "There is no day 0000-09-07. A date is year-month-day, like 2026-09-07, between 1900 and 2199.",
  },
  {
    name: "a date far in the past",
    code: "impossible-date",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  concert «1826-09-10» "C"
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message: "There is no day 1826-09-10. A date is year-month-day, like 2026-09-07, between 1900 and 2199.",
  },
  {
    name: "a note beyond the staff",
    code: "impossible-pitch",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 C4 «C99» | }
}
`,
    message: "“C99” is not a note that can be written. A note is like F#4 or Bb5, a key like F# or Bb.",
  },
  {
    name: "a note value of a third",
    code: "impossible-value",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 C4 «1/3» C4 | }
}
`,
    message:
      "“1/3” is not a note value. Values are 1/1, 1/2, 1/4, 1/8, 1/16, 1/32 and 1/64, with up to three dots; a meter is like 4/4 or 6/8.",
  },
  {
    name: "a meter of sevenths",
    code: "impossible-value",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter «4/7»
  tempo 1/4 = 60
  music { 1/1 C4 | }
}
`,
    message:
      "“4/7” is not a note value. Values are 1/1, 1/2, 1/4, 1/8, 1/16, 1/32 and 1/64, with up to three dots; a meter is like 4/4 or 6/8.",
  },
  {
    name: "exercises like each other",
    code: "like-circle",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise «"P"» like "P" { }
`,
    message: "“P” is like itself in the end. Let one of the circle stand without “like”.",
  },
  {
    name: "a student like himself",
    code: "like-circle",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
student «"K. M."» like "K. M." { stage senior }
`,
    message: "“K. M.” is like itself in the end. Let one of the circle stand without “like”.",
  },
  {
    name: "an exercise without an area",
    code: "line-missing",
    text: `exercise «"X"» {
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | }
}
`,
    message: 'For the exercise “X”, please say an area, for example: in "Long tones"',
  },
  {
    name: "an exercise without a tempo",
    code: "line-missing",
    text: `area "Tone"
exercise «"X"» {
  in "Tone"
  key C major
  meter 4/4
  music { 1/1 C4 | }
}
`,
    message: "For the exercise “X”, please say a tempo, for example: tempo 1/4 = 72",
  },
  {
    name: "an exercise without a key",
    code: "line-missing",
    text: `area "Tone"
exercise «"X"» {
  in "Tone"
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | }
}
`,
    message: "For the exercise “X”, please say a key, for example: key C major",
  },
  {
    name: "an exercise without a meter",
    code: "line-missing",
    text: `area "Tone"
exercise «"X"» {
  in "Tone"
  key C major
  tempo 1/4 = 60
  music { 1/1 C4 | }
}
`,
    message: "For the exercise “X”, please say a meter, for example: meter 4/4",
  },
  {
    name: "an exercise without music",
    code: "line-missing",
    text: `area "Tone"
exercise «"X"» {
  in "Tone"
  key C major
}
`,
    message: "For the exercise “X”, please say something to play, for example: music { 1/4 C4 D4 E4 F4 | }",
  },
  {
    name: "a printed page without a range",
    code: "line-missing",
    text: `area "Tone"
exercise «"X"» {
  in "Tone"
  printed "Book" page 3
  lasts 2 min
}
`,
    message: "For the exercise “X”, please say its lowest and highest note, for example: range G3 to G5",
  },
  {
    name: "an activity that does not say whether it uses the lips",
    code: "line-missing",
    text: `area "Tone"
exercise «"X"» {
  in "Tone"
  activity singing
  lasts 2 min
}
`,
    message: "For the exercise “X”, please say whether it uses the lips, for example: spares lips",
  },
  {
    name: "a term without dates",
    code: "line-missing",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term «"T"» for "L" { practice Mon to Fri }
`,
    message:
      "For the term “T”, please say its first and last day, for example: from 2026-09-07 to 2026-12-11",
  },
  {
    name: "notes before any value",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { «C4» D4 E4 F4 | }
}
`,
    message: "Say how long the first note is, for example 1/4, before it.",
  },
  {
    name: "a slur left open",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 «(»C4 D4 | }
}
`,
    message: "This slur is opened and never closed. Put a ) after its last note.",
  },
  {
    name: "a slur closed twice",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 (C4 D4) «)» | }
}
`,
    message: "A slur ends here that never began. Put a ( before its first note, or take the ) away.",
  },
  {
    name: "a slur inside a slur",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/4 (C4 «(»D4 E4) F4 | }
}
`,
    message: "A slur begins inside another one. Close the first one before it.",
  },
  {
    name: "an accent before the first note",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { «accent» 1/1 C4 | }
}
`,
    message: "This belongs after a note, and there is none before it.",
  },
  {
    name: "a tie between two pitches",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 «C4 tie D4» | }
}
`,
    message: "A tie joins two notes of the same pitch; these differ. For a slur, write ( … ).",
  },
  {
    name: "a tie into nothing",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 «C4» tie | }
}
`,
    message: "This note is tied to the next one, and no note follows.",
  },
  {
    name: "a pick-up in the middle",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | «pickup» 1/1 G4 | }
}
`,
    message: "A pick-up stands first of all, or first in a `repeat`, before any note.",
  },
  {
    name: "an ending without a repeat",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | «ending 1 [ 1/1 C4 ]» }
}
`,
    message: "An ending belongs after a repeat [ … ].",
  },
  {
    name: "no notes",
    code: "music-slip",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music «{ }»
}
`,
    message: "There are no notes here yet.",
  },
  {
    name: "a key asked of partials",
    code: "no-key",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  meter 4/4  tempo 1/4 = 80  partials { 1/4 lip (2 3 4 3) ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "P" «in G» } }
}
`,
    message: "“P” goes by partials and has no key. Ask for valves, for example: valves open to 123",
  },
  {
    name: "keys asked of a printed page",
    code: "no-key",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  printed "Book" page 3  range C4 to G4  lasts 1 min }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "P" «keys C, F» } }
}
`,
    message: "“P” is printed music and cannot be put in another key. Take the key away.",
  },
  {
    name: "a key asked of breathing",
    code: "no-key",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  activity breathing  spares lips  lasts 1 min }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "P" «in C»  "A" } }
}
`,
    message: "“P” is work without notes and cannot be put in another key. Take the key away.",
  },
  {
    name: "valves asked of a scale",
    code: "no-valves",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" «valves open to 123» } }
}
`,
    message: "“A” is not written by partials. Ask for keys, for example: keys C up by half step to G",
  },
  {
    name: "written notes asked for in minor",
    code: "other-mode",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" in «A minor» } }
}
`,
    message:
      "“A” is written out in C major and cannot become A minor. Ask for a key of the same mode, or write it by degrees.",
  },
  {
    name: "a tempo of 0",
    code: "out-of-bounds",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = «0»
  music { 1/1 C4 | }
}
`,
    message: "0 cannot be meant for the tempo: write a figure from 10 to 400.",
  },
  {
    name: "a tempo of 1000",
    code: "out-of-bounds",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" tempo «1000» } }
}
`,
    message: "1000 cannot be meant for the tempo: write a figure from 10 to 400.",
  },
  {
    name: "no times through",
    code: "out-of-bounds",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" «0» times } }
}
`,
    message: "0 cannot be meant for times through: write a figure from 1 to 100.",
  },
  {
    name: "a breath of no time",
    code: "out-of-bounds",
    text: `level "L" {
  stage senior
  breath «0 s»
}
`,
    message: "0 s cannot be meant for the breath: write more than nothing and at most a day.",
  },
  {
    name: "nine days a week",
    code: "out-of-bounds",
    text: `level "L" {
  stage senior
  each week { days at most «9» }
}
`,
    message: "9 cannot be meant for the days in a week: write a figure from 1 to 7.",
  },
  {
    name: "an easing to more than all",
    code: "out-of-bounds",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  ease 3 days before concerts to «150 %»
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message: "150 % cannot be meant for the easing: write a figure from 1 to 100 %.",
  },
  {
    name: "a tuning nobody plays at",
    code: "out-of-bounds",
    text: `studio { tuning «1000» Hz }
`,
    message: "1000 cannot be meant for the tuning: write a figure from 380 to 480.",
  },
  {
    name: "a rhythm that fits nowhere",
    code: "rhythm-does-not-fit",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/4 C4 D4 E4 F4 | }
  «rhythm 1/8. 1/16»
}
`,
    message: "This rhythm fits nowhere in “X”: its values must add up to as many equal notes.",
  },
  {
    name: "a line said twice in an exercise",
    code: "said-twice",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  «tempo 1/4 = 72»
  music { 1/1 C4 | }
}
`,
    message: "This was already said: tempo. The first one holds; take one of them away.",
  },
  {
    name: "a budget said twice",
    code: "said-twice",
    text: `level "L" {
  stage senior
  each day { clock at most 45 min  «clock at most 50 min» }
}
`,
    message: "This was already said: each day: clock. The first one holds; take one of them away.",
  },
  {
    name: "a tempo asked of a page without one",
    code: "no-tempo",
    text: `area "Tone"
exercise "P" { in "Tone"  printed "Quayside studies" page 3  range C4 to G4  lasts 2 min }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "P"  «tempo 80»  once } }
}
`,
    message:
      "“P” has no tempo of its own, so this one changes nothing. Write in the exercise the tempo that its minutes were measured at (tempo 1/4 = 72).",
  },
  {
    name: "a tempo asked of breathing",
    code: "no-tempo",
    text: `area "Tone"
exercise "P" { in "Tone"  activity breathing  lasts 2 min  spares lips }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "P"  «tempo 1/4 = 80»  once } }
}
`,
    message: "“P” is measured in minutes and has no tempo. Take it away here.",
  },
  {
    name: "a series without an end",
    code: "series-endless",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 G4 ' | }  series down by half step  rest 8 s }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"P" twice» } }
}
`,
    message:
      "“P” is a series without a last cell. Give it minutes here (for 3 min), or a number of cells in the exercise.",
  },
  {
    name: "a code that does not exist, in the studio",
    code: "unknown-code",
    text: `studio { finding «week-climb» note }
`,
    message: "There is no finding “week-climb”. Did you mean week-climbs?",
    mend: "week-climbs",
  },
  {
    name: "a code that does not exist, in an exercise",
    code: "unknown-code",
    text: `area "Tone"
exercise "X" {
  in "Tone"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | }
  let «unused-excercise» stand because "spring"
}
`,
    message: "There is no finding “unused-excercise”. Did you mean unused-exercise?",
    mend: "unused-exercise",
  },
  {
    name: "a code that does not exist, in a routine",
    code: "unknown-code",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
routine "R" { "A"  let «sesion-minutes» stand because "as it is" }
`,
    message: "There is no finding “sesion-minutes”. Did you mean session-minutes?",
    mend: "session-minutes",
  },
  {
    name: "an instrument that is not known",
    code: "unknown-instrument",
    text: `level "L" {
  instrument «tuba in C»
  stage senior
}
`,
    message:
      "“tuba in C” is not an instrument known here. Known are: trumpet in Bb, trumpet in C, trumpet in D, trumpet in Eb, piccolo trumpet in Bb, piccolo trumpet in A, cornet in Bb, cornet in Eb, flugelhorn in Bb.",
  },
  {
    name: "an exercise misspelt",
    code: "unknown-name",
    text: `area "Tone"
area "Songs"
exercise "Long tone" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "Song" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"Long tones"» } }
}
`,
    message: "There is no exercise “Long tones”. Did you mean “Long tone”?",
    mend: '"Long tone"',
  },
  {
    name: "an area nobody declared",
    code: "unknown-name",
    text: `exercise "X" {
  in «"Tone"»
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 C4 | }
}
`,
    message:
      'There is no area “Tone” here. Declare it, or bring its file in with a line like use "book.practice".',
  },
  {
    name: "a level misspelt",
    code: "unknown-name",
    text: `level "Seniors" { stage senior }
student "K. M." like «"Senior"» { }
`,
    message: "There is no level or student “Senior”. Did you mean “Seniors”?",
    mend: '"Seniors"',
    also: ["player-incomplete"],
  },
  {
    name: "a routine that does not exist",
    code: "unknown-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" routine «"Morning"»
 Tue "S" { "A" } }
}
`,
    message:
      'There is no routine “Morning” here. Declare it, or bring its file in with a line like use "book.practice".',
  },
  {
    name: "a student of a change who does not exist",
    code: "unknown-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  change «"K. M."» { ill 2026-09-08 }
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message:
      'There is no level or student “K. M.” here. Declare it, or bring its file in with a line like use "book.practice".',
  },
  {
    name: "a term of a record that does not exist",
    code: "unknown-name",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
record of «"Autumn"» { week 1 "L" done }
`,
    message:
      'There is no term “Autumn” here. Declare it, or bring its file in with a line like use "book.practice".',
  },
  {
    name: "a range upside down",
    code: "upside-down",
    text: `level "L" {
  stage senior
  range «A5 to G3»
}
`,
    message: "A5 to G3 runs backwards. Change the two over: G3 to A5.",
    mend: "G3 to A5",
  },
  {
    name: "dates upside down",
    code: "upside-down",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  closed «2026-09-10 to 2026-09-08»
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message: "2026-09-10 to 2026-09-08 runs backwards. Change the two over: 2026-09-08 to 2026-09-10.",
    mend: "2026-09-08 to 2026-09-10",
  },
  {
    name: "weeks upside down",
    code: "upside-down",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" { from 2026-09-07 to 2026-09-18
 weeks «2 to 1» { Mon "S" { "A" } }
}
`,
    message: "2 to 1 runs backwards. Change the two over: 1 to 2.",
    mend: "1 to 2",
    also: ["weeks-unplanned"],
  },
  {
    name: "a walk that never arrives",
    code: "walk-unreachable",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" keys «C up by whole step to F» } }
}
`,
    message:
      "From C major by whole step the walk never comes to F major. Name an end on the way, or take a smaller step.",
  },
  {
    name: "keys that wait for a lesson that never comes",
    code: "when-passed-no-lesson",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"A" keys C, F when passed» } }
}
`,
    message:
      "“A” moves on when a lesson passes it, but the term has no lesson. Add a line like: lesson every Tue",
  },
  {
    name: "a day too long",
    code: "day-clock",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"A" for 50 min rest 20 s»  "B" } }
}
`,
    message:
      "Mon 2026-09-07: 50:04 of practice for L, of 45:00 at most. Most of it: “A” in C major, 50:00. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a day with too much playing",
    code: "day-playing",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each day { playing at most 6 min } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"A" 100 times rest 15 s»  "B" } }
}
`,
    message:
      "Mon 2026-09-07: 6:44 of playing for L, of 6:00 at most. Most of it: “A” in C major, 6:40. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a day too much in the upper register",
    code: "day-upper",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each day { clock at most 1 h } }
exercise "H" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 F5 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A"  «"H" 100 times rest 15 s»  "B" } }
}
`,
    message:
      "Mon 2026-09-07: 6:40 in the upper register for L, of 5:00 at most. Most of it: “H” in C major, 6:40. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a day of too much load, where a limit is set",
    code: "day-load",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each day { load at most 2 points } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"A" 60 times rest 15 s»  "B" } }
}
`,
    message:
      "Mon 2026-09-07: 3 points of load for L, of 2 points at most. Most of it: “A” in C major, 3 points. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a week of too much practice",
    code: "week-clock",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each week { clock at most 40 s } }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message:
      "Week 1: 0:50 of practice for L, of 0:40 at most. The same in 1 more week, the last from 2026-09-14.",
  },
  {
    name: "a week with too much playing",
    code: "week-playing",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each week { playing at most 30 s } }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message:
      "Week 1: 0:40 of playing for L, of 0:30 at most. The same in 1 more week, the last from 2026-09-14.",
  },
  {
    name: "a week too much in the upper register",
    code: "week-upper",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 G4 C4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  upper from G4
  each week { upper at most 5 s } }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message:
      "Week 1: 0:10 in the upper register for L, of 0:05 at most. The same in 1 more week, the last from 2026-09-14.",
    also: ["no-easing-in"],
  },
  {
    name: "a week of too much load",
    code: "week-load",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each week { load at most 2 points } }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon to Fri "S" { "A" 10 times  "B" } }
}
`,
    message:
      "Week 1: 3 points of load for L, of 2 points at most. The same in 1 more week, the last from 2026-09-14.",
  },
  {
    name: "an area left alone",
    code: "area-untouched",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "Song" { in "Songs"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "Song" }
 Tue to Fri "S" { "A" } }
}
`,
    message:
      "From 2026-09-08 on, L does not touch “Songs” for more than 3 practice days. The same on 1 more day, the last on 2026-09-15.",
  },
  {
    name: "a closure outside the term",
    code: "date-outside",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  «closed 2027-10-26 to 2027-10-31 "half-term"»
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message: "2027-10-26 lies outside the term.",
  },
  {
    name: "a rehearsal on a closed day",
    code: "date-outside",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  closed 2026-09-10
  booked «2026-09-10» "Band" { clock 1 h }
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message: "2026-09-10 is closed, and “Band” is booked for it.",
  },
  {
    name: "a session on a Sunday",
    code: "date-outside",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { on «2026-09-13» "S" { "A" }
 Mon "S" { "A" } }
}
`,
    message: "2026-09-13 is no day of practice in this term: this session never comes.",
  },
  {
    name: "weekdays that are never practised",
    code: "date-outside",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" }
 «Sat, Sun "Weekend"» { "B" } }
}
`,
    message: "“Weekend” never comes: the term has no practice on its weekdays.",
  },
  {
    name: "too long without the horn coming down",
    code: "day-stretch",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"A" 60 times»  "B" } }
}
`,
    message:
      "Mon 2026-09-07: 6:04 at a stretch for L, of 4:00 at most. Most of it: “A” in C major. A rest of 15 s or more lets the horn come down. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "the highest work last",
    code: "highest-last",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  upper from C5 }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A"  "B"  «"A" keys F above» } }
}
`,
    message:
      "Mon 2026-09-07: the highest note of the session, C5, comes in its last exercise, “A” in F major. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "keys never reached",
    code: "keys-unreached",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  keys C, F, G, D }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" in C  "B" in F } }
}
`,
    message: "L never reaches G major and D major this term.",
  },
  {
    name: "a lip slur across a valve",
    code: "lip-slur-valves",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key G major  meter 4/4  tempo 1/4 = 60  music { 1/2 lip (G4 A4) ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"P"» } }
}
`,
    message:
      "“P” in G major: no valve combination holds G4 and A4 together, so this is no lip slur. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "no easing before a concert",
    code: "no-concert-easing",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  «concert 2026-09-17 "Harbour" { clock 1 h  playing 10 min }»
  every week { Mon to Fri "S" { "A"  "B" } }
}
`,
    message:
      "Thu 2026-09-17: in the 2 days before “Harbour”, L practises up to 0:08 of playing a day; a usual day has 0:08. Ease the last days.",
  },
  {
    name: "no day off",
    code: "no-day-off",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Sun
  every week { every day "S" { "A"  "B" } }
}
`,
    message: "Week 1: L plays on 7 days, of 6 at most.",
  },
  {
    name: "a day that begins high",
    code: "no-easing-in",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  upper from C5 }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"A" keys F above»  "B" } }
}
`,
    message:
      "Mon 2026-09-07: the day begins with “A” in F major, up to C5, already in the upper register of L. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a note the trumpet does not have",
    code: "outside-instrument",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 C3 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "B"  «"P"» } }
}
`,
    message:
      "“P” in C major goes down to C3, below what the trumpet in B♭ plays, F♯3. It fits in F♯. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a note outside the limit",
    code: "outside-limit",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E5 B5 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "B"  «"P" in D» } }
}
`,
    message:
      "“P” in D major goes up to C♯6 (high C♯), above the limit of L, C6. It fits in G, A♭, A, B♭, B, C and D♭. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "combinations below a beginner",
    code: "outside-limit",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage first year }
exercise "P" { in "Tone"  meter 4/4  tempo 1/4 = 60  partials { 1/2 lip (2 3) ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"P" valves 123» } }
}
`,
    message:
      "“P” on valves 123 goes down to G♭3 (low G♭), below the limit of L, B♭3. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a note outside the comfortable range",
    code: "outside-range",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key G major  meter 4/4  tempo 1/4 = 60  music { 1/1 F#3 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A"  «"P"»  "B" } }
}
`,
    message:
      "“P” in G major goes down to F♯3 (low F♯), below the comfortable range of L, G3. It fits in A♭, A, B♭, B, C and D♭. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a phrase longer than the breath",
    code: "phrase-breath",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 C4 | D4 | E4 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"P"» } }
}
`,
    message:
      "“P” asks for 12 s in one breath at 60; L has 10 s. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a loud phrase longer than the breath",
    code: "phrase-breath",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  dynamic f  music { 1/1 C4 | D4 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"P"» } }
}
`,
    message:
      "“P” asks for 8 s in one breath at 60, as hard on the breath as 11.4 s at mf; L has 10 s. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a session longer than its minutes",
    code: "session-minutes",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { «Mon "S" 1 min» { "A" 20 times  "B" } }
}
`,
    message:
      "Mon 2026-09-07: “S” takes 2:04 of its 1:00. Longest: “A” in C major, 2:00. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a tempo that jumps",
    code: "tempo-jumps",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  week 1 { Mon "S" { "A" tempo 60 } }
  week 2 { Mon "S" { «"A" tempo 80» } }
}
`,
    message: "“A” jumps to 80 in week 2, 33 % faster than in week 1; at most 12 % is the studio's rule.",
  },
  {
    name: "a tempo beyond the tongue",
    code: "tongue-speed",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
exercise "P" { in "Tone"  key C major  meter 2/4  tempo 1/4 = 96  music { 1/16 C4 C4 C4 C4 1/4 C4 ' | } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { «"P" tempo 120» } }
}
`,
    message:
      "“P” at 120 asks the tongue for 8.0 notes a second (sixteenths at 120); L has 7.0 (sixteenths at 105), single tongue. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "too little rest",
    code: "too-little-rest",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 C4 | 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each day { stretch at most 30 min } }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { «Mon "S"» { "A" 80 times  "B" } }
}
`,
    message:
      "Mon 2026-09-07: “S” has 2:40 of rest in 13:24; at least 25 % is the studio's rule. The same on 1 more day, the last on 2026-09-14.",
  },
  {
    name: "a walk that starts over",
    code: "walk-restarts",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { every day "S" { "A" keys C, F, G } }
}
`,
    message:
      "Some walks are through all their keys and start over, the first on Thu 2026-09-10: “A” after 3.",
  },
  {
    name: "weeks the term does not have",
    code: "week-beyond",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  «weeks 1 to 4» { Mon "S" { "A" } }
}
`,
    message: "The term has 2 taught weeks; week 4 never comes.",
  },
  {
    name: "a week that climbs too fast",
    code: "week-climbs",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior
  each week { increase at most 15 % }
  each day { clock at most 2 h  playing at most 1 h  stretch at most 2 h } }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  week 1 { Mon to Fri "S" { "A" for 24 min rest equal } }
  week 2 { Mon to Fri "S" { "A" for 30 min rest equal } }
}
`,
    message: "Week 2: 75:00 of playing for L after 60:00 in week 1, 25 % more; at most 15 % is allowed.",
  },
  {
    name: "two sessions of one name",
    code: "weeks-overlap",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  weeks 1 to 2 { Mon "S" { "A" } }
  week 2 { «Mon "S"» { "B" } }
}
`,
    message:
      "Mon 2026-09-14 already has a session of this name. Change the weeks or the days of one, or give it another name.",
  },
  {
    name: "weeks without a session",
    code: "weeks-unplanned",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-25
  week 1 { Mon "S" { "A"  "B" } }
}
`,
    message: "Nothing is planned in weeks 2 and 3.",
  },
  {
    name: "a level of which little is known",
    code: "player-incomplete",
    text: `level «"L"» {
  range C4 to G5
  breath 8 s
}
`,
    message:
      "Not known of L, and so not checked: limit, upper register, tongue, clock a day, playing a day, upper a day and stretch. State them, or name a stage, for example: stage senior",
  },
  {
    name: "an exercise nobody plays",
    code: "unused-exercise",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise «"B"» { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A" } }
}
`,
    message: "No term asks for “B”.",
  },
  {
    name: "a routine nobody calls up",
    code: "unused-routine",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon "S" { "A"  "B" } }
}
routine «"R"» { "A" }
`,
    message: "No session calls up “R”.",
  },
  {
    name: "a let that stands for nothing",
    code: "let-idle",
    text: `area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-09-18
  practice Mon to Fri
  every week { Mon to Fri "S" { "A"  "B" }
 let «day-upper» stand because "as planned" }
}
`,
    message: "Nothing of the kind day-upper is left here. This line can go.",
  },
  {
    name: "a walk with more keys than days",
    code: "walk-unfinished",
    text: `area "Tone"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | } }
level "L" { stage senior }
term «"T"» for "L" {
  from 2026-09-07 to 2026-09-11
  practice Mon to Fri
  every week { every day "S" { "A" keys C up by half step to G } }
}
`,
    message: "Some walks run out of days before their last keys: “A” (F major, F♯ major and G major).",
  },
];
