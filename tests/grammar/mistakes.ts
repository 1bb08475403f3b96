/** Texts with a mistake in them, as teachers make them. */

/** One mistake: where it is seen, what is said, and the text after the mend that is offered. */
export interface Mistake {
  /** The text with the findings' ranges drawn in. */
  readonly picture: string;
  readonly says: readonly string[];
  /** Absent where no mend is offered. */
  readonly mended?: string;
  /** How many mistakes the mended text still has, where one mend cannot mend all. */
  readonly left?: number;
}

export const MISTAKES: readonly Mistake[] = [
  {
    picture: `exercise "A" {
  tempo 1/4 ⟦72⟧
}
`,
    says: [`A tempo is written like \`tempo 1/4 = 72\`: here the \`=\` is missing.`],
    mended: `exercise "A" {
  tempo 1/4 = 72
}
`,
  },
  {
    picture: `exercise "A" {
  tempo ⟦72⟧
}
`,
    says: [`A tempo says which note value is counted: \`tempo 1/4 = 72\`.`],
    mended: `exercise "A" {
  tempo 1/4 = 72
}
`,
  },
  {
    picture: `exercise "A" {
  tempo ⟦=⟧ 72
}
`,
    says: [
      `A tempo is written like \`tempo 1/4 = 72\`: instead of \`=\`, a note value, such as \`1/4\` should stand here.`,
    ],
  },
  {
    picture: `exercise "A" {
  ⟦temop⟧ 1/4 = 72
}
`,
    says: [`\`temop\` is not a word of an exercise. Did you mean \`tempo\`?`],
    mended: `exercise "A" {
  tempo 1/4 = 72
}
`,
  },
  {
    picture: `exercise "A" {
  ⟦TEMPO⟧ 1/4 = 72
}
`,
    says: [`\`TEMPO\` is not a word of an exercise. Did you mean \`tempo\`?`],
    mended: `exercise "A" {
  tempo 1/4 = 72
}
`,
  },
  {
    picture: `exercise "A" {
  tempo⟦:⟧ 1/4 = 72
}
`,
    says: [`No \`:\` is needed here. Take it away.`],
    mended: `exercise "A" {
  tempo 1/4 = 72
}
`,
  },
  {
    picture: `exercise "A" {
  tempo ⟦4⟧ = 72
}
`,
    says: [`A note value is written as a fraction of a whole note: \`1/4\`.`],
    mended: `exercise "A" {
  tempo 1/4 = 72
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦c⟧ major
}
`,
    says: [`A key is written with a capital letter: \`C\`.`],
    mended: `exercise "A" {
  key C major
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦H⟧
}
`,
    says: [`The key a half step below C is written \`B\`.`],
    mended: `exercise "A" {
  key B
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦bb⟧ major
}
`,
    says: [`A key is written with a capital letter: \`Bb\`.`],
    mended: `exercise "A" {
  key Bb major
}
`,
  },
  {
    picture: `exercise "A" {
  key C ⟦majr⟧
}
`,
    says: [`\`majr\` does not belong here. Did you mean \`major\`?`],
    mended: `exercise "A" {
  key C major
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦Cmaj⟧
}
`,
    says: [`\`Cmaj\` is written \`C major\`.`],
    mended: `exercise "A" {
  key C major
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦G4⟧
}
`,
    says: [`A key has no octave: \`G\`.`],
    mended: `exercise "A" {
  key G
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦fis⟧ minor
}
`,
    says: [`\`fis\` is written \`F#\`.`],
    mended: `exercise "A" {
  key F# minor
}
`,
  },
  {
    picture: `exercise "A" {
  key C ⟦harmonic⟧
}
`,
    says: [`A key is written like \`key C major\`: here \`minor\` is missing.`],
    mended: `exercise "A" {
  key C harmonic minor
}
`,
  },
  {
    picture: `exercise "A" {
  meter ⟦4⟧
}
`,
    says: [`A meter is written like \`4/4\`.`],
    mended: `exercise "A" {
  meter 4/4
}
`,
  },
  {
    picture: `exercise "A" {
  meter 4/4 ⟦4/4⟧
}
`,
    says: [`A meter is written like \`meter 4/4\`: \`4/4\` does not belong here.`],
    mended: `exercise "A" {
  meter 4/4 
}
`,
  },
  {
    picture: `exercise "A" {
  in ⟦Long tones⟧
}
`,
    says: [`A name stands in double quotes: \`"Long tones"\`.`],
    mended: `exercise "A" {
  in "Long tones"
}
`,
  },
  {
    picture: `exercise "A" {
  in ⟦'Long tones'⟧
}
`,
    says: ["A name stands in double quotes."],
    mended: `exercise "A" {
  in "Long tones"
}
`,
  },
  {
    picture: `exercise "A" {
  in ⟦"Long tones⟧
}
`,
    says: [`This name is never closed: a \`"\` is missing at its end, on the same line.`],
    mended: `exercise "A" {
  in "Long tones"
}
`,
  },
  {
    picture: `exercise "A" {
  dynamic ⟦forte⟧
}
`,
    says: [`A dynamic is written with its sign: \`f\`.`],
    mended: `exercise "A" {
  dynamic f
}
`,
  },
  {
    picture: `exercise "A" {
  rest ⟦20⟧
}
`,
    says: [`A length of time needs its unit, \`s\`, \`min\` or \`h\`: \`20 s\`.`],
    mended: `exercise "A" {
  rest 20 s
}
`,
  },
  {
    picture: `exercise "A" {
  rest 20 ⟦sec⟧
}
`,
    says: [`\`sec\` is written \`s\`.`],
    mended: `exercise "A" {
  rest 20 s
}
`,
  },
  {
    picture: `exercise "A" {
  rest ⟦2,5⟧ min
}
`,
    says: [`A decimal is written with a point: \`2.5\`.`],
    mended: `exercise "A" {
  rest 2.5 min
}
`,
  },
  {
    picture: `exercise "A" {
  ⟦rest⟧
}
`,
    says: [`A rest is written like \`rest 20 s\`: after this, \`equal\`, \`none\` or a number is missing.`],
  },
  {
    picture: `exercise "A" {
  moved down ⟦fourth⟧
}
`,
    says: [`A moved exercise is written like \`moved down by fourth\`: here \`by\` is missing.`],
    mended: `exercise "A" {
  moved down by fourth
}
`,
  },
  {
    picture: `exercise "A" {
  moved ⟦donw⟧ by fourth
}
`,
    says: [`\`donw\` does not belong here. Did you mean \`down\`?`],
    mended: `exercise "A" {
  moved down by fourth
}
`,
  },
  {
    picture: `exercise "A" {
  series 7 ⟦down⟧ by half step
}
`,
    says: [`A series is written like \`series 7 cells down by half step\`: here \`cells\` is missing.`],
    mended: `exercise "A" {
  series 7 cells down by half step
}
`,
  },
  {
    picture: `exercise "A" {
  series 7 ⟦cell⟧ down by half step
}
`,
    says: [`\`cell\` does not belong here. Did you mean \`cells\`?`],
    mended: `exercise "A" {
  series 7 cells down by half step
}
`,
  },
  {
    picture: `exercise "A" {
  range ⟦G3-A5⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`G3 to A5\`.`],
    mended: `exercise "A" {
  range G3 to A5
}
`,
  },
  {
    picture: `exercise "A" {
  range ⟦F#3–C6⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`F#3 to C6\`.`],
    mended: `exercise "A" {
  range F#3 to C6
}
`,
  },
  {
    picture: `exercise "A" {
  range ⟦g3⟧ to a5
}
`,
    says: [`Notes are written with a capital letter: \`G3\`.`],
    mended: `exercise "A" {
  range G3 to a5
}
`,
    left: 1,
  },
  {
    picture: `exercise "A" {
  range ⟦G⟧ to A
}
`,
    says: [`A note needs its octave: \`G4\`, \`G5\`. \`C4\` is low C, \`C5\` third-space C.`],
  },
  {
    picture: `exercise "A" {
  range ⟦F #3⟧ to C6
}
`,
    says: [`A note is written without a space: \`F#3\`.`],
    mended: `exercise "A" {
  range F#3 to C6
}
`,
  },
  {
    picture: `exercise "A" {
  loads ⟦lip⟧
}
`,
    says: [`\`lip\` does not belong here. Did you mean \`lips\`?`],
    mended: `exercise "A" {
  loads lips
}
`,
  },
  {
    picture: `exercise "A" {
  articulation ⟦slurred⟧
}
`,
    says: [`An articulation is written like \`articulation slur 2 tongue 2\`: here \`all\` is missing.`],
    mended: `exercise "A" {
  articulation all slurred
}
`,
  },
  {
    picture: `exercise "A" {
  articulation all ⟦slured⟧
}
`,
    says: [`\`slured\` does not belong here. Did you mean \`slurred\`?`],
    mended: `exercise "A" {
  articulation all slurred
}
`,
  },
  {
    picture: `exercise "A" {
  articulation slur two ⟦tonge⟧ 2
}
`,
    says: [`\`tonge\` does not belong here. Did you mean \`tongue\`?`],
    mended: `exercise "A" {
  articulation slur two tongue 2
}
`,
  },
  {
    picture: `exercise "A" {
  rhythm ⟦8⟧ 16
}
`,
    says: [`A note value is written as a fraction of a whole note: \`1/8\`.`],
    mended: `exercise "A" {
  rhythm 1/8 16
}
`,
    left: 1,
  },
  {
    picture: `exercise "A" {
  aim ⟦sing⟧
}
`,
    says: [`A name stands in double quotes: \`"sing"\`.`],
    mended: `exercise "A" {
  aim "sing"
}
`,
  },
  {
    picture: `exercise "A" {
  ⟦clock⟧ at most 5 min
}
`,
    says: [`\`clock\` belongs in a budget (\`each day\`, \`each week\`), not in an exercise.`],
  },
  {
    picture: `exercise "A" {
  ⟦C4⟧ D4 E4
}
`,
    says: [`Notes stand between the braces of \`music { … }\`.`],
  },
  {
    picture: `exercise "A" {
  ⟦exercise⟧ "B" {
  }
}
`,
    says: [
      `\`exercise\` begins a declaration, and those stand at the margin, outside of all braces. Is a \`}\` missing above?`,
    ],
  },
  {
    picture: `exercise "A" {
  ⟦"Slow fifths"⟧ twice
}
`,
    says: [`\`"Slow fifths"\` belongs in a session, not in an exercise.`],
  },
  {
    picture: `exercise "A" {
  ⟦xyzzy⟧ 3
}
`,
    says: [
      `\`xyzzy\` means nothing in an exercise. Here can stand \`in\`, \`key\`, \`meter\`, \`tempo\`, \`music\` and others.`,
    ],
  },
  {
    picture: `exercise "A" {
  ⟦{⟧ }
}
`,
    says: [`Something must stand before a \`{\` to say what the braces are about.`],
  },
  {
    picture: `exercise "A" {
  music ⟦C4⟧ D4
}
`,
    says: [
      `Music is written like \`music { 1/4 C4 D4 | }\`: instead of \`C4\`, what is meant, in braces \`{ … }\` should stand here.`,
    ],
  },
  {
    picture: `exercise "A" {
  music {
    C4 ⟦D4⟧
  rest equal
}
`,
    says: [`A \`}\` is missing after this: \`music {\` is never closed.`],
    mended: `exercise "A" {
  music {
    C4 D4
  }
  rest equal
}
`,
  },
  {
    picture: `exercise "A" {
  tempo 1/4 = 72 ⟦fast⟧
}
`,
    says: [`A tempo is written like \`tempo 1/4 = 72\`: \`fast\` does not belong here.`],
    mended: `exercise "A" {
  tempo 1/4 = 72 
}
`,
  },
  {
    picture: `exercise "A" {
  let unused ⟦stand⟧
}
`,
    says: [
      `Letting a finding stand is written like \`let day-upper stand because "the concert is near"\`: after this, \`because\` is missing.`,
    ],
  },
  {
    picture: `exercise "A" {
  ornament ⟦accent⟧ on 1/1
}
`,
    says: [`An ornament is a \`trill\`, a \`turn\` or a \`mordent\`.`],
  },
  {
    picture: `exercise "A" {
  printed "A" page twelve bars ⟦1-24⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`1 to 24\`.`],
    mended: `exercise "A" {
  printed "A" page twelve bars 1 to 24
}
`,
  },
  {
    picture: `exercise "A" {
  music { 1/4 ⟦H4⟧ C4 }
}
`,
    says: [`The note a half step below C is written B: \`B4\`.`],
    mended: `exercise "A" {
  music { 1/4 B4 C4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { 1/4 ⟦c4 d4 e4⟧ F4 }
}
`,
    says: [`Notes are written with a capital letter: \`C4\`.`],
    mended: `exercise "A" {
  music { 1/4 C4 D4 E4 F4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { 1/4 ⟦C D⟧ }
}
`,
    says: [`A note needs its octave: \`C4\`, \`C5\`. \`C4\` is low C, \`C5\` third-space C.`],
  },
  {
    picture: `exercise "A" {
  music { C4 ⟦D⟧ E4 }
}
`,
    says: [`A note needs its octave: \`D4\`, \`D5\`. \`C4\` is low C, \`C5\` third-space C.`],
    mended: `exercise "A" {
  music { C4 D4 E4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { 1/4 ⟦do re mi⟧ }
}
`,
    says: [`Notes are written as letters with their octave: \`C4\` is low C, \`C5\` third-space C.`],
  },
  {
    picture: `exercise "A" {
  music { 1/4 C4⟦,⟧ D4 }
}
`,
    says: [`A breath is written \`'\`. Commas mean nothing between notes.`],
    mended: `exercise "A" {
  music { 1/4 C4' D4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { 1/4 ⟦F #4⟧ }
}
`,
    says: [`A note is written without a space: \`F#4\`.`],
    mended: `exercise "A" {
  music { 1/4 F#4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { 1/4 C4 ⟦staccatto⟧ }
}
`,
    says: [`\`staccatto\` means nothing between notes. Did you mean \`staccato\`?`],
    mended: `exercise "A" {
  music { 1/4 C4 staccato }
}
`,
  },
  {
    picture: `exercise "A" {
  music { ⟦forte⟧ C4 }
}
`,
    says: [`A dynamic is written with its sign: \`f\`.`],
    mended: `exercise "A" {
  music { f C4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { C4 ⟦R⟧ }
}
`,
    says: [`A rest is written \`rest\`.`],
    mended: `exercise "A" {
  music { C4 rest }
}
`,
  },
  {
    picture: `exercise "A" {
  music { C4 ⟦#x⟧ D4 }
}
`,
    says: [`A comment has a space before and after its \`#\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦C 4⟧ }
}
`,
    says: [`A note is written without a space: \`C4\`.`],
    mended: `exercise "A" {
  music { C4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { ⟦lip⟧ C4 G4 }
}
`,
    says: [`A lip slur is written like \`lip (C4 G4 C5)\`: here the \`(\` is missing.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦triplet⟧ C4 D4 E4 }
}
`,
    says: [`Its notes stand in brackets: \`triplet [ … ]\`.`],
  },
  {
    picture: `exercise "A" {
  music { triplet ⟦[⟧ C4 D4 E4 }
}
`,
    says: [`This \`[\` is never closed: a \`]\` is missing.`],
  },
  {
    picture: `exercise "A" {
  music { C4 ⟦]⟧ D4 }
}
`,
    says: [`This \`]\` closes nothing: there is no \`[\` that belongs to it.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦[⟧ C4 D4 ] }
}
`,
    says: [`Before a \`[\` stands \`triplet\`, \`5:4\`, \`repeat\` or \`ending 1\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦attack hard⟧ C4 }
}
`,
    says: [`After \`attack\` stands \`air\`, \`lip\` or \`tongue\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦bend⟧ C4 }
}
`,
    says: [`A bend is written like \`bend half step\`, \`bend whole step\` or \`bend minor third\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦free⟧ C4 }
}
`,
    says: [`A free bar says how long it lasts: \`free 12 s\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦meter⟧ C4 }
}
`,
    says: [`A change of meter is written like \`meter 3/4\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦key⟧ G4 C4 }
}
`,
    says: [`A change of key is written like \`key G major\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦ending⟧ 3 [ C4 ] }
}
`,
    says: [`An ending is written like \`ending 1 [ … ]\` or \`ending 2 [ … ]\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦dotted⟧ C4 }
}
`,
    says: [`After \`dotted\` stands a note value: \`dotted quarter\`, \`dotted quaver\`.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦1 2 3⟧ }
}
`,
    says: [
      `Figures stand for degrees or partials: those belong in \`degrees from C4 { … }\` or \`partials { … }\`.`,
    ],
  },
  {
    picture: `exercise "A" {
  music { ⟦es4 fis4⟧ }
}
`,
    says: [`\`es4\` is written \`Eb4\`.`],
    mended: `exercise "A" {
  music { Eb4 F#4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { ⟦c#4⟧ }
}
`,
    says: [`Notes are written with a capital letter: \`C#4\`.`],
    mended: `exercise "A" {
  music { C#4 }
}
`,
  },
  {
    picture: `exercise "A" {
  music { ⟦{⟧ C4 } }
}
`,
    says: [`Braces cannot stand between notes: what belongs together stands in \`[ ]\`.`],
  },
  {
    picture: `exercise "A" {
  music { C4 ⟦-⟧ D4 }
}
`,
    says: [`A \`-\` means nothing between notes: write \`rest\` for a rest, \`tie\` for a tie.`],
  },
  {
    picture: `exercise "A" {
  music { ⟦tempo 60⟧ }
}
`,
    says: ["The tempo stands outside of the notes, on a line of its own."],
  },
  {
    picture: `exercise "A" {
  music { ⟦"sing"⟧ C4 }
}
`,
    says: ["Words in quotes cannot stand between notes."],
  },
  {
    picture: `exercise "A" {
  degrees from C4 { 1/4 ⟦C4⟧ 1 }
}
`,
    says: [
      `\`C4\` is a written note, and here stand scale degrees. Written notes belong in \`music { … }\`.`,
    ],
  },
  {
    picture: `exercise "A" {
  degrees from C4 { 1/4 ⟦25⟧ }
}
`,
    says: [
      `A degree is a number from 1 to 22, or from -1 to -14 below the tonic, with \`b\` or \`#\` before it.`,
    ],
  },
  {
    picture: `exercise "A" {
  partials { 1/4 ⟦0⟧ ⟦C4⟧ }
}
`,
    says: [
      "A partial is a whole number: 2 is low C with no valve down.",
      `\`C4\` is a written note, and here stand partials. Written notes belong in \`music { … }\`.`,
    ],
  },
  {
    picture: `exercise "A" {
  degrees from ⟦C⟧ { 1 }
}
`,
    says: [`A note needs its octave: \`C4\`, \`C5\`. \`C4\` is low C, \`C5\` third-space C.`],
  },
  {
    picture: `level "A" {
  breath ⟦10⟧
}
`,
    says: [`A length of time needs its unit, \`s\`, \`min\` or \`h\`: \`10 s\`.`],
    mended: `level "A" {
  breath 10 s
}
`,
  },
  {
    picture: `level "A" {
  breath 10⟦sec⟧
}
`,
    says: [`\`sec\` is written \`s\`.`],
    mended: `level "A" {
  breath 10s
}
`,
  },
  {
    picture: `level "A" {
  instrument ⟦in⟧ Bb
}
`,
    says: [
      `An instrument is written like \`instrument trumpet in Bb\`: instead of \`in\`, an instrument, such as \`trumpet\` should stand here.`,
    ],
  },
  {
    picture: `level "A" {
  stage ⟦first⟧
}
`,
    says: [`A stage is written like \`stage senior\`: here \`year\` is missing.`],
    mended: `level "A" {
  stage first year
}
`,
  },
  {
    picture: `level "A" {
  stage years ⟦1⟧ to 2
}
`,
    says: [`The stages are \`first year\`, \`years 2 to 3\`, \`senior\` and \`college\`.`],
  },
  {
    picture: `level "A" {
  upper ⟦form⟧ F5
}
`,
    says: [`\`form\` does not belong here. Did you mean \`from\`?`],
    mended: `level "A" {
  upper from F5
}
`,
  },
  {
    picture: `level "A" {
  upper ⟦F5⟧
}
`,
    says: [`The upper register is written like \`upper from F5\`: here \`from\` is missing.`],
    mended: `level "A" {
  upper from F5
}
`,
  },
  {
    picture: `level "A" {
  tongue ⟦105⟧
}
`,
    says: [
      `The fastest tonguing is written like \`tongue sixteenths at 105\`: instead of \`105\`, a note value, such as \`1/4\` should stand here.`,
    ],
  },
  {
    picture: `level "A" {
  tongue sixteenths ⟦105⟧
}
`,
    says: [`The fastest tonguing is written like \`tongue sixteenths at 105\`: here \`at\` is missing.`],
    mended: `level "A" {
  tongue sixteenths at 105
}
`,
  },
  {
    picture: `level "A" {
  keys ⟦C⟧ G F
}
`,
    says: [`A list of keys is written like \`keys C, G, F\`: here the \`,\` is missing.`],
    mended: `level "A" {
  keys C, G F
}
`,
    left: 1,
  },
  {
    picture: `level "A" {
  keys ⟦c⟧, g
}
`,
    says: [`A key is written with a capital letter: \`C\`.`],
    mended: `level "A" {
  keys C, g
}
`,
    left: 1,
  },
  {
    picture: `level "A" {
  each day { clock ⟦45⟧ min  upper at most 5 min }
}
`,
    says: [`A limit of time is written like \`playing at most 28 min\`: here \`at most\` is missing.`],
    mended: `level "A" {
  each day { clock at most 45 min  upper at most 5 min }
}
`,
  },
  {
    picture: `level "A" {
  each day { clock at most ⟦45⟧  upper at most 5 min }
}
`,
    says: [`A length of time needs its unit, \`s\`, \`min\` or \`h\`: \`45 min\`.`],
    mended: `level "A" {
  each day { clock at most 45 min  upper at most 5 min }
}
`,
  },
  {
    picture: `level "A" {
  each ⟦month⟧ { clock at most 45 min }
}
`,
    says: [
      `A budget is written like \`each day { clock at most 45 min }\`: instead of \`month\`, \`day\` or \`week\` should stand here.`,
    ],
  },
  {
    picture: `level "A" {
  ⟦clock⟧ at most 45 min
}
`,
    says: [`In a level or a student this is written like \`each day { clock at most 45 min }\`.`],
  },
  {
    picture: `level "A" {
  ⟦increase⟧ at most 15
}
`,
    says: [`\`increase\` belongs in a budget (\`each day\`, \`each week\`), not in a level or a student.`],
  },
  {
    picture: `term "A" for "B" {
  from ⟦7.9.2026⟧ to 11.12.2026
}
`,
    says: [`A date is written year-month-day: \`2026-09-07\`.`],
    mended: `term "A" for "B" {
  from 2026-09-07 to 11.12.2026
}
`,
    left: 1,
  },
  {
    picture: `term "A" for "B" {
  from 2026-09-07 ⟦2026-12-11⟧
}
`,
    says: [`The length of a term is written like \`from 2026-09-07 to 2026-12-11\`: here \`to\` is missing.`],
    mended: `term "A" for "B" {
  from 2026-09-07 to 2026-12-11
}
`,
  },
  {
    picture: `term "A" for "B" {
  from ⟦2026-09-07 – 2026-12-11⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`2026-09-07 to 2026-12-11\`.`],
    mended: `term "A" for "B" {
  from 2026-09-07 to 2026-12-11
}
`,
  },
  {
    picture: `term "A" for "B" {
  from ⟦9/7/2026⟧ to 12/11/2026
}
`,
    says: [`A date is written year-month-day: \`2026-09-07\`.`],
  },
  {
    picture: `term "A" for "B" {
  practice ⟦Mon-Fri⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`Mon to Fri\`.`],
    mended: `term "A" for "B" {
  practice Mon to Fri
}
`,
  },
  {
    picture: `term "A" for "B" {
  practice ⟦Mon–Fri⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`Mon to Fri\`.`],
    mended: `term "A" for "B" {
  practice Mon to Fri
}
`,
  },
  {
    picture: `term "A" for "B" {
  practice ⟦Mondays⟧ to Fri
}
`,
    says: [`\`Mondays\` is written \`Mon\`.`],
    mended: `term "A" for "B" {
  practice Mon to Fri
}
`,
  },
  {
    picture: `term "A" for "B" {
  practice ⟦mon⟧ to fri
}
`,
    says: [`\`mon\` is written \`Mon\`.`],
    mended: `term "A" for "B" {
  practice Mon to fri
}
`,
    left: 1,
  },
  {
    picture: `term "A" for "B" {
  lesson ⟦Tue⟧
}
`,
    says: [`A lesson is written like \`lesson every Tue\`: here \`every\` is missing.`],
    mended: `term "A" for "B" {
  lesson every Tue
}
`,
  },
  {
    picture: `term "A" for "B" {
  lesson every ⟦Tues⟧
}
`,
    says: [`\`Tues\` is written \`Tue\`.`],
    mended: `term "A" for "B" {
  lesson every Tue
}
`,
  },
  {
    picture: `term "A" for "B" {
  booked ⟦Thu⟧ "Band"
}
`,
    says: [
      `A booking is written like \`booked every Thu "Wind band" { playing half }\`: here \`every\` is missing.`,
    ],
    mended: `term "A" for "B" {
  booked every Thu "Band"
}
`,
  },
  {
    picture: `term "A" for "B" {
  concert ⟦2026-11-20⟧
}
`,
    says: [
      `A concert is written like \`concert 2026-11-20 "Harbour concert" { playing 15 min }\`: after this, a name in double quotes is missing.`,
    ],
  },
  {
    picture: `term "A" for "B" {
  weeks ⟦1-4⟧ {
  }
}
`,
    says: [`From one to the other is written with \`to\`: \`1 to 4\`.`],
    mended: `term "A" for "B" {
  weeks 1 to 4 {
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  weeks ⟦1–4⟧ {
  }
}
`,
    says: [`From one to the other is written with \`to\`: \`1 to 4\`.`],
    mended: `term "A" for "B" {
  weeks 1 to 4 {
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  week ⟦1⟧ 4 {
  }
}
`,
    says: [`A block of weeks is written like \`weeks 1 to 4 { … }\`: here the \`,\` is missing.`],
    mended: `term "A" for "B" {
  week 1, 4 {
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  ⟦Mon⟧ to Fri "Morning" 15 min {
  }
}
`,
    says: [`A session stands in a block of weeks: \`weeks 1 to 4 { … }\`.`],
  },
  {
    picture: `term "A" for "B" {
  ease 3 days before concert ⟦half⟧
}
`,
    says: [
      `Easing before concerts is written like \`ease 3 days before concerts to half\`: here \`to\` is missing.`,
    ],
    mended: `term "A" for "B" {
  ease 3 days before concert to half
}
`,
  },
  {
    picture: `term "A" for "B" {
  goal "x" ⟦week⟧ 6
}
`,
    says: [`A goal is written like \`goal "from memory" by week 6\`: here \`by\` is missing.`],
    mended: `term "A" for "B" {
  goal "x" by week 6
}
`,
  },
  {
    picture: `term "A" for "B" {
  goal ⟦"x"⟧
}
`,
    says: [`A goal is written like \`goal "from memory" by week 6\`: after this, \`by\` is missing.`],
  },
  {
    picture: `term "A" for "B" {
  ⟦tempo⟧ 1/4 = 60
}
`,
    says: [`\`tempo\` belongs in the studio or an exercise, not in a term.`],
  },
  {
    picture: `term "A" for "B" {
  closed 2026-10-26 ⟦half-term⟧
}
`,
    says: [`A name stands in double quotes: \`"half-term"\`.`],
    mended: `term "A" for "B" {
  closed 2026-10-26 "half-term"
}
`,
  },
  {
    picture: `term "A" for "B" {
  change ⟦K. M.⟧ {
  }
}
`,
    says: [`A name stands in double quotes: \`"K. M."\`.`],
    mended: `term "A" for "B" {
  change "K. M." {
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  change "K" {
    replace "A" ⟦by⟧ "B"
  }
}
`,
    says: [
      `A replacement is written like \`replace "Slow fifths" with "Low slow fifths"\`: here \`with\` should stand.`,
    ],
    mended: `term "A" for "B" {
  change "K" {
    replace "A" with "B"
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  change "K" {
    ⟦il⟧ 2026-10-05
  }
}
`,
    says: [`\`il\` is not a word of a \`change\` for one student. Did you mean \`ill\`?`],
    mended: `term "A" for "B" {
  change "K" {
    ill 2026-10-05
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  weeks 1 to 4 {
    ⟦"Slow fifths"⟧ twice
  }
}
`,
    says: [`An exercise is practised in a session: \`Mon to Fri "Morning" 15 min { … }\` stands around it.`],
  },
  {
    picture: `term "A" for "B" {
  weeks 1 to 4 {
    Mon to Fri "Morning" ⟦15⟧ {
      "A" twice
    }
  }
}
`,
    says: [`A length of time needs its unit, \`s\`, \`min\` or \`h\`: \`15 min\`.`],
    mended: `term "A" for "B" {
  weeks 1 to 4 {
    Mon to Fri "Morning" 15 min {
      "A" twice
    }
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  weeks 1 to 4 {
    ⟦tues⟧ "Morning" 15 min {
      "A" twice
    }
  }
}
`,
    says: [`\`tues\` is written \`Tue\`.`],
    mended: `term "A" for "B" {
  weeks 1 to 4 {
    Tue "Morning" 15 min {
      "A" twice
    }
  }
}
`,
  },
  {
    picture: `term "A" for "B" {
  weeks 1 to 4 {
    Mon to Fri ⟦Morning⟧ 15 min {
      "A" twice
    }
  }
}
`,
    says: [`A name stands in double quotes: \`"Morning"\`.`],
    mended: `term "A" for "B" {
  weeks 1 to 4 {
    Mon to Fri "Morning" 15 min {
      "A" twice
    }
  }
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦x2⟧
}
`,
    says: [`How often is written like \`once\`, \`twice\` or \`3 times\`: \`twice\`.`],
    mended: `routine "A" {
  "A" twice
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦2x⟧
}
`,
    says: [`How often is written like \`once\`, \`twice\` or \`3 times\`: \`twice\`.`],
    mended: `routine "A" {
  "A" twice
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦3 x⟧
}
`,
    says: [`How often is written like \`once\`, \`twice\` or \`3 times\`: \`3 times\`.`],
    mended: `routine "A" {
  "A" 3 times
}
`,
  },
  {
    picture: `routine "A" {
  "A" tempo 60 ⟦tempo⟧ 70
}
`,
    says: ["This says a second time how fast. Keep one of the two."],
  },
  {
    picture: `routine "A" {
  "A" in C ⟦keys⟧ F
}
`,
    says: ["This says a second time in which keys. Keep one of the two."],
  },
  {
    picture: `routine "A" {
  "A" for ⟦30 s⟧
}
`,
    says: [`\`for\` counts minutes: \`for 0.5 min\`.`],
    mended: `routine "A" {
  "A" for 0.5 min
}
`,
  },
  {
    picture: `routine "A" {
  "A" for ⟦8⟧
}
`,
    says: [`Minutes need their unit: \`8 min\`.`],
    mended: `routine "A" {
  "A" for 8 min
}
`,
  },
  {
    picture: `routine "A" {
  "A" for 8 ⟦minutes⟧
}
`,
    says: [`\`minutes\` is written \`min\`.`],
    mended: `routine "A" {
  "A" for 8 min
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦key⟧ C
}
`,
    says: [`The key of an assignment is written with \`in\`: \`in C\`, \`in A minor\`.`],
    mended: `routine "A" {
  "A" in C
}
`,
  },
  {
    picture: `routine "A" {
  "A" keys C up ⟦half⟧ step to G
}
`,
    says: [
      `Keys that travel are written like \`keys C up by half step to G\` or \`keys F, G\`: here \`by\` is missing.`,
    ],
    mended: `routine "A" {
  "A" keys C up by half step to G
}
`,
  },
  {
    picture: `routine "A" {
  "A" keys C up by ⟦halfstep⟧ to G
}
`,
    says: [`\`halfstep\` is written \`half step\`.`],
    mended: `routine "A" {
  "A" keys C up by half step to G
}
`,
  },
  {
    picture: `routine "A" {
  "A" keys C ⟦to⟧ G
}
`,
    says: [`Keys that walk say in which steps: \`keys C up by half step to …\`.`],
    mended: `routine "A" {
  "A" keys C up by half step to G
}
`,
  },
  {
    picture: `routine "A" {
  "A" tempo ⟦50-58⟧
}
`,
    says: [`From one to the other is written with \`to\`: \`50 to 58\`.`],
    mended: `routine "A" {
  "A" tempo 50 to 58
}
`,
  },
  {
    picture: `routine "A" {
  "A" tempo 1/4 ⟦60⟧
}
`,
    says: [
      `A tempo is written like \`tempo 60\`, \`tempo 1/8 = 100\` or \`tempo 50 to 58\`: here the \`=\` is missing.`,
    ],
    mended: `routine "A" {
  "A" tempo 1/4 = 60
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦afresh⟧
}
`,
    says: [`\`afresh\` says how keys travel: it stands after \`keys …\`.`],
  },
  {
    picture: `routine "A" {
  "A" drop ⟦if⟧ tired
}
`,
    says: [`What goes first is marked with \`drop when tired\`: here \`when\` should stand.`],
    mended: `routine "A" {
  "A" drop when tired
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦twcie⟧
}
`,
    says: [`\`twcie\` does not belong here. Did you mean \`twice\`?`],
    mended: `routine "A" {
  "A" twice
}
`,
  },
  {
    picture: `routine "A" {
  "A" valves ⟦4⟧
}
`,
    says: [`The valve combinations are \`open\`, \`2\`, \`1\`, \`12\`, \`23\`, \`13\` and \`123\`.`],
  },
  {
    picture: `routine "A" {
  ⟦keys⟧ C
}
`,
    says: [
      `In a session, \`keys\` stands behind an exercise's name, on the same line: \`"Slow fifths"  keys …\`.`,
    ],
  },
  {
    picture: `routine "A" {
  ⟦Slow⟧ fifths twice
}
`,
    says: [
      `\`Slow\` means nothing in a session. Here can stand an exercise's name in quotes, \`rest\`, \`short\` or \`aim\`.`,
    ],
  },
  {
    picture: `routine "A" {
  short 5 ⟦min⟧
}
`,
    says: [
      `The short version of a session is written like \`short 5 min { … }\`: after this, what is meant, in braces \`{ … }\` is missing.`,
    ],
  },
  {
    picture: `routine "A" {
  rest ⟦equal⟧
}
`,
    says: [`A pause is written like \`rest 1 min\`: instead of \`equal\`, a number should stand here.`],
  },
  {
    picture: `routine "A" {
  "A" rest ⟦1⟧
}
`,
    says: [`A length of time needs its unit, \`s\`, \`min\` or \`h\`: \`1 min\`.`],
    mended: `routine "A" {
  "A" rest 1 min
}
`,
  },
  {
    picture: `routine "A" {
  "A" slur 2 ⟦tounge⟧ 2
}
`,
    says: [`\`tounge\` does not belong here. Did you mean \`tongue\`?`],
    mended: `routine "A" {
  "A" slur 2 tongue 2
}
`,
  },
  {
    picture: `routine "A" {
  "A" in ⟦c⟧
}
`,
    says: [`A key is written with a capital letter: \`C\`.`],
    mended: `routine "A" {
  "A" in C
}
`,
  },
  {
    picture: `routine "A" {
  "A" {
    aim ⟦x⟧
  }
}
`,
    says: [`A name stands in double quotes: \`"x"\`.`],
    mended: `routine "A" {
  "A" {
    aim "x"
  }
}
`,
  },
  {
    picture: `routine "A" {
  "A" once⟦;⟧
}
`,
    says: [`No \`;\` is needed here. Take it away.`],
    mended: `routine "A" {
  "A" once
}
`,
  },
  {
    picture: `routine "A" {
  "A" ⟦#⟧loud
}
`,
    says: [`A comment has a space before and after its \`#\`.`],
    mended: `routine "A" {
  "A" # loud
}
`,
  },
  {
    picture: `studio {
  tuning ⟦440⟧
}
`,
    says: [`The tuning is written like \`tuning 440 Hz\`: here \`Hz\` is missing.`],
    mended: `studio {
  tuning 440 Hz
}
`,
  },
  {
    picture: `studio {
  tuning 440 ⟦hz⟧
}
`,
    says: [`\`hz\` does not belong here. Did you mean \`Hz\`?`],
    mended: `studio {
  tuning 440 Hz
}
`,
  },
  {
    picture: `studio {
  horn down ⟦15⟧
}
`,
    says: [`A length of time needs its unit, \`s\`, \`min\` or \`h\`: \`15 s\`.`],
    mended: `studio {
  horn down 15 s
}
`,
  },
  {
    picture: `studio {
  fermata ⟦2⟧
}
`,
    says: [`The length of a fermata is written like \`fermata 2 times\`: here \`times\` is missing.`],
    mended: `studio {
  fermata 2 times
}
`,
  },
  {
    picture: `studio {
  soft breath ⟦130⟧
}
`,
    says: [`A soft breath is written like \`soft breath 130 %\`: here the \`%\` is missing.`],
    mended: `studio {
  soft breath 130 %
}
`,
  },
  {
    picture: `studio {
  finding week-climbs ⟦warn⟧
}
`,
    says: [`\`warn\` does not belong here. Did you mean \`warning\`?`],
    mended: `studio {
  finding week-climbs warning
}
`,
  },
  {
    picture: `studio {
  rest ⟦25⟧ %
}
`,
    says: [`The share of rest is written like \`rest at least 25 %\`: here \`at least\` is missing.`],
    mended: `studio {
  rest at least 25 %
}
`,
  },
  {
    picture: `studio {
  tempo jump ⟦12⟧ %
}
`,
    says: [`The growth of a tempo is written like \`tempo jump at most 12 %\`: here \`at most\` is missing.`],
    mended: `studio {
  tempo jump at most 12 %
}
`,
  },
  {
    picture: `⟦exercse⟧ "A" {
  in "B"
}
`,
    says: [`\`exercse\` begins no declaration. Did you mean \`exercise\`?`],
    mended: `exercise "A" {
  in "B"
}
`,
  },
  {
    picture: `⟦Exercise⟧ "A" {
}
`,
    says: [`\`Exercise\` begins no declaration. Did you mean \`exercise\`?`],
    mended: `exercise "A" {
}
`,
  },
  {
    picture: `exercise ⟦Slow fifths⟧ {
  in "B"
}
`,
    says: [`A name stands in double quotes: \`"Slow fifths"\`.`],
    mended: `exercise "Slow fifths" {
  in "B"
}
`,
  },
  {
    picture: `exercise "A" ⟦lik⟧ "B" {
  in "C"
}
`,
    says: [`\`lik\` does not belong here. Did you mean \`like\`?`],
    mended: `exercise "A" like "B" {
  in "C"
}
`,
  },
  {
    picture: `exercise ⟦"A⟧ {
  in "B"
}
`,
    says: [`This name is never closed: a \`"\` is missing at its end, on the same line.`],
    mended: `exercise "A" {
  in "B"
}
`,
  },
  {
    picture: `exercise ⟦"A {x}"⟧ {
  in "B"
}
`,
    says: [`A name holds no braces: \`{\` and \`}\` stand only around blocks.`],
    mended: `exercise "A (x)" {
  in "B"
}
`,
  },
  {
    picture: `exercise "A" {
  in ⟦"B"⟧
`,
    says: [`A \`}\` is missing after this: \`exercise "A" {\` is never closed.`],
    mended: `exercise "A" {
  in "B"
}
`,
  },
  {
    picture: `exercise "A" {
  in "B"
}
⟦}⟧
`,
    says: [`This \`}\` closes nothing: there is no \`{\` that belongs to it. Take it away.`],
    mended: `exercise "A" {
  in "B"
}

`,
  },
  {
    picture: `⟦in⟧ "B"
`,
    says: [`\`in\` stands outside of all braces. It belongs in an exercise: is the line above it missing?`],
  },
  {
    picture: `term "A" ⟦{⟧
}
`,
    says: [
      `A term is written like \`term "Autumn" for "Seniors" { … }\`: before the \`{\`, \`for\` is missing.`,
    ],
  },
  {
    picture: `record ⟦"A"⟧ {
}
`,
    says: [`A record is written like \`record of "Autumn" { … }\`: here \`of\` is missing.`],
    mended: `record of "A" {
}
`,
  },
  {
    picture: `use ⟦book.practice⟧
`,
    says: [`A name stands in double quotes: \`"book.practice"\`.`],
    mended: `use "book.practice"
`,
  },
  {
    picture: `level "A" {
  each day {
    clock at most 5 ⟦min⟧
  breath 10 s
}
`,
    says: [`A \`}\` is missing after this: \`each day {\` is never closed.`],
    mended: `level "A" {
  each day {
    clock at most 5 min
  }
  breath 10 s
}
`,
  },
  {
    picture: `exercise "A⟦\u0007⟧B" {
}
`,
    says: ["A letter that cannot be seen stands here (U+0007). Take it away."],
    mended: `exercise "AB" {
}
`,
  },
  {
    picture: `exercise "A" {
  key ⟦\u0000⟧ C
}
`,
    says: ["A letter that cannot be seen stands here (U+0000). Take it away."],
    mended: `exercise "A" {
  key  C
}
`,
  },
  {
    picture: `exercise "A" {
  key C ⟦€⟧
}
`,
    says: [`\`€\` means nothing here. Take it away.`],
    mended: `exercise "A" {
  key C 
}
`,
  },
  {
    picture: `record of "A" {
  week 1 ⟦K. M.⟧ done
}
`,
    says: [`A name stands in double quotes: \`"K. M."\`.`],
    mended: `record of "A" {
  week 1 "K. M." done
}
`,
  },
  {
    picture: `record of "A" {
  week 1 "K" ⟦felt⟧
}
`,
    says: [
      `A line of the record is written like \`week 1 "K. M." Mon Tue Thu felt 5\`: after this, a number is missing.`,
    ],
  },
  {
    picture: `record of "A" {
  ⟦7.9.2026⟧ "K" done
}
`,
    says: [`A date is written year-month-day: \`2026-09-07\`.`],
    mended: `record of "A" {
  2026-09-07 "K" done
}
`,
  },
  {
    picture: `record of "A" {
  ⟦"K"⟧ done
}
`,
    says: [
      `A line of the record begins with the week or the day: \`week 1 "K. M." …\` or \`2026-09-15 "K. M." …\`.`,
    ],
  },
  {
    picture: `area "A" {
  ⟦every⟧ 4 days
}
`,
    says: [`In an area this is written like \`at least every 4 days\`.`],
  },
  {
    picture: `⟦#⟧comment
exercise "A"
`,
    says: [`A comment has a space after its \`#\`.`],
    mended: `# comment
exercise "A"
`,
  },
  {
    picture: `⟦foo⟧
`,
    says: [
      `\`foo\` begins no declaration. At the margin can stand \`use\`, \`studio\`, \`area\`, \`exercise\`, \`routine\`, \`level\`, \`student\`, \`term\` or \`record\`.`,
    ],
  },
  {
    picture: `exercise "A" {
} ⟦x⟧
`,
    says: [`An exercise is written like \`exercise "Slow fifths" { … }\`: \`x\` does not belong here.`],
  },
  {
    picture: `⟦12⟧
`,
    says: [
      `\`12\` begins no declaration. At the margin can stand \`use\`, \`studio\`, \`area\`, \`exercise\`, \`routine\`, \`level\`, \`student\`, \`term\` or \`record\`.`,
    ],
  },
];
