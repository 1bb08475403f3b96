/**
 * The exercises that a new studio starts from: one or two in each of six areas, all between low C and second-line
 * G, so that they lie within every stage's comfortable range, in phrases of one breath of a first-year player.
 * Written for this purpose.
 */

/** Declared in the studio's file, in the order of practice. */
export const STARTER_STUDIO = `# What holds for every plan in this folder and in the folders below it.

studio {
  aim "a good sound first"
}

# The areas of the daily basics, in the order of practice. Rename them, or add your own.

area "Settling in"
area "Long tones"
area "Lip slurs"
area "Flow"
area "Articulation"
area "Songs"
`;

export const STARTER_BOOK = `# The exercise book. All notes are written pitches: C4 is low C.

exercise "Quiet breaths" {
  in "Settling in"
  activity breathing
  spares lips
  lasts 30 s
  aim "in through the corners of the mouth, shoulders at rest"
}

exercise "Down the first steps" {
  in "Settling in"
  key C major
  meter 4/4
  tempo 1/2 = 60
  dynamic p
  aim "begin easily, as if you had been playing already"
  music { 1/2 (G4 F4) | 1/1 E4 ' | }
  rest 15 s
}

exercise "One tone at a time" {
  in "Long tones"
  key C major
  meter 4/4
  tempo 1/4 = 60
  aim "the end of each tone as good as its beginning"
  music { 1/1 G4 ' | F4 ' | E4 ' | C4 ' | }
  rest 16 s
}

exercise "Low bridge" {
  in "Lip slurs"
  meter 4/4
  tempo 1/2 = 60
  aim "the air makes the change"
  partials { 1/2 lip (2 3) | 1/1 2 ' | }
  rest 15 s
}

exercise "Up the hill and down" {
  in "Flow"
  key C major
  meter 4/4
  tempo 1/4 = 100
  aim "one long line"
  degrees from C4 { 1/4 (1 2 3 4 | 5 4 3 2) ' | 1/1 1 ' | }
  rest 15 s
}

exercise "Level road" {
  in "Articulation"
  key C major
  meter 4/4
  tempo 1/4 = 80
  aim "every note begins like the first"
  music { 1/4 G4 G4 G4 rest ' | F4 F4 F4 rest ' | E4 E4 E4 rest ' | }
  rest 15 s
}

exercise "Small evening song" {
  in "Songs"
  key C major
  meter 3/4
  tempo 1/4 = 84
  aim "tell it to somebody"
  music { 1/4 (E4 F4) G4 ' | 1/2 F4 1/4 D4 ' | 1/4 (E4 D4) C4 ' | 1/2. D4 ' | 1/4 (E4 F4) G4 ' | 1/2 E4 1/4 D4 ' | 1/2. C4 ' | }
  rest 16 s
}
`;
