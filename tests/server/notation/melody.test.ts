import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { joinsOf } from "../../../server/notation/joins";
import type { Melody } from "../../../server/notation/melody";
import { melodyText } from "../../../server/notation/melody-text";
import { musicXmlOf } from "../../../server/notation/musicxml";
import { playedNotes, playedOut } from "../../../server/notation/played-out";
import { readMelody } from "../../../server/notation/read-melody";
import { ForeignFileError, readXml } from "../../../server/notation/read-xml";
import type { Sheet } from "../../../server/notation/sheet";
import { anyExercise, exerciseOf } from "./any-exercise";
import { EXERCISES, everyPlacement, sheetOf, sheetOfText } from "./samples";

const melodyOf = (xml: string): Melody => readMelody(readXml(xml));

/** The sheet of a file after it was read and its text read again. */
function again(sheet: Sheet): { readonly melody: Melody; readonly text: string; readonly sheet: Sheet } {
  const melody = melodyOf(musicXmlOf(sheet));
  const text = melodyText(melody, melody.title, "A");
  const problems = readSource(text).pieces.flatMap((piece) => piece.problems.map((each) => each.message));
  expect(problems).toEqual([]);
  return { melody, text, sheet: sheetOfText(`area "A"\n\n${text}`) };
}

/** What is heard: pitches, moments, marks. Ties joined, repeats played out. */
function heard(sheet: Sheet) {
  const moments = playedOut(sheet);
  const starts: number[] = [0];
  for (const moment of moments) starts.push((starts.at(-1) ?? 0) + moment.quarters);
  return playedNotes(moments).map(({ note, midi, first, last }) => ({
    midi,
    step: note.pitch.step,
    starts: round(starts[first]),
    ends: round(starts[last + 1]),
    marks: [...note.marks].sort(),
    dynamic: note.dynamic,
    hairpin: note.hairpin,
  }));
}

const round = (value = 0): number => Math.round(value * 1e5) / 1e5;

describe("an exercise written as MusicXML and read back is the same exercise", () => {
  const inNotes = EXERCISES.filter((each) => each.content.kind === "notes" && each.series === undefined);
  test.each(inNotes.map((each) => [each.name, each] as const))("%s", (_, exercise) => {
    const home = everyPlacement(exercise).find((placement) => placement.semitones === 0);
    const sheet = sheetOf(exercise, { cells: 1, placements: home === undefined ? undefined : [home] });
    const back = again(sheet);
    const bars = (of: Sheet) =>
      of.bars.map(({ meter, role, freeSeconds }) => ({ meter, role, free: freeSeconds }));
    expect(heard(back.sheet)).toEqual(heard(sheet));
    if (sheet.bars.every((bar) => bar.freeSeconds === undefined))
      expect(bars(back.sheet)).toEqual(bars(sheet));
    expect(back.sheet.tempo).toEqual(sheet.tempo);
    expect(back.melody.supplied).toEqual([]);
    const breaths = (of: Sheet) => of.bars.flatMap((bar) => bar.events.map((event) => event.breath));
    expect(breaths(back.sheet)).toEqual(breaths(sheet));
    expect(joinsOf(back.sheet.bars)).toEqual(joinsOf(sheet.bars));
  });
});

test("whatever is written as MusicXML can be read back, and sounds the same", () => {
  fc.assert(
    fc.property(anyExercise, (asked) => {
      const exercise = exerciseOf({ ...asked, more: "" });
      if (exercise?.content.kind !== "notes") return;
      const { bars } = exercise.content.score;
      if (!bars.some((bar) => bar.events.some((event) => event.kind === "note"))) return;
      // Seconds of free bars are words over the music, and endings cannot be told from what follows them.
      if (bars.some((bar) => bar.role.kind === "ending")) return;
      const sheet = sheetOf(exercise);
      const quarters = (of: Sheet) => heard(of).map(({ midi, starts, ends }) => [midi, starts, ends]);
      expect(quarters(again(sheet).sheet)).toEqual(quarters(sheet));
    }),
    { numRuns: 150, seed: 11 },
  );
});

/** A file of another program: one part with these measures. */
function file(measures: string, head = ""): string {
  return `<?xml version="1.0"?><score-partwise version="3.1">${head}<part-list><score-part id="P1"><part-name/></score-part></part-list><part id="P1">${measures}</part></score-partwise>`;
}
const ATTRIBUTES =
  "<attributes><divisions>2</divisions><key><fifths>-1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";
const note = (pitch: string, duration: number, more = "", inside = ""): string =>
  `<note>${inside}<pitch><step>${pitch.charAt(0)}</step><octave>${pitch.slice(-1)}</octave></pitch><duration>${duration}</duration>${more}</note>`;

describe("files of other programs", () => {
  test("one staff, values from durations", () => {
    const melody = melodyOf(
      file(
        `<measure number="1">${ATTRIBUTES}${note("F4", 2)}${note("G4", 5)}${note("A4", 1)}</measure>`,
        "<movement-title>A  song</movement-title>",
      ),
    );
    expect(melodyText(melody, melody.title, "Songs")).toBe(
      `exercise "A song" {
  in        "Songs"
  key       F major
  meter     4/4
  tempo     1/4 = 60
  music     {
    1/4 F4 1/2 G4 tie 1/8 G4 A4 |
  }
}
`,
    );
    expect(melody.supplied).toEqual(["tempo 1/4 = 60"]);
  });

  test("what is left out is counted", () => {
    const melody = melodyOf(
      file(
        `<measure number="1">${ATTRIBUTES}
        <direction><direction-type><words>Freely</words></direction-type></direction>
        <note><grace/><pitch><step>E</step><octave>4</octave></pitch></note>
        ${note("F4", 4, "<lyric><text>La</text></lyric>")}${note("A4", 4, "", "<chord/>")}${note("C5", 4, "", "<chord/>")}
        ${note("G4", 4, "<notations><technical><fingering>0</fingering></technical><articulations><doit/></articulations></notations>")}
        <backup><duration>8</duration></backup>${note("C4", 8, "<voice>2</voice>")}</measure>`,
      ).replace("</part></score", '</part><part id="P2"><measure number="1"/></part></score'),
    );
    expect(melody.leftOut).toEqual([
      "1 other part",
      "1 word over the music",
      "1 grace note",
      "1 syllable of text",
      "2 other notes of chords",
      "1 fingering",
      "1 sign (doit)",
      "1 note of another voice",
    ]);
    expect(melody.bars[0]?.events.map((event) => event.pitch)).toEqual(["F4", "G4"]);
  });

  test("a pick-up, a repeat without a beginning, endings", () => {
    const bar = (pitch: string, before = "", after = ""): string =>
      `<measure number="1">${before}${note(pitch, 8)}${after}</measure>`;
    const ending = (number: number, type: string, more = ""): string =>
      `<barline><ending number="${number}" type="${type}"/>${more}</barline>`;
    const back = '<repeat direction="backward"/>';
    const melody = melodyOf(
      file(
        `<measure number="0" implicit="yes">${ATTRIBUTES}${note("C4", 2)}</measure>` +
          bar("F4") +
          bar("G4", ending(1, "start"), ending(1, "stop", back)) +
          bar("A4", ending(2, "start"), ending(2, "discontinue")) +
          bar("B4") +
          bar("C5", "", `<barline>${back}</barline>`),
      ),
    );
    const text = melodyText(melody, "x", "A");
    expect(text.slice(text.indexOf("music")).replace(/\s+/g, " ")).toBe(
      "music { pickup repeat [ 1/4 C4 | 1/1 F4 | ] ending 1 [ 1/1 G4 | ] ending 2 [ 1/1 A4 | ] repeat [ 1/1 B4 | C5 | ] } } ",
    );
    expect(readSource(text).pieces.flatMap((piece) => piece.problems)).toEqual([]);
  });

  test("names are made fit", () => {
    const melody = melodyOf(file(`<measure number="1">${ATTRIBUTES}${note("C4", 8)}</measure>`));
    const text = melodyText(melody, ' "Quoted" {braces}\n# and more ', "");
    expect(text).toMatch(/^exercise "Quoted braces and more" \{\n {2}in {8}"Melody"\n/);
    expect(readSource(text).pieces.flatMap((piece) => piece.problems)).toEqual([]);
  });
});

describe("files that are not read", () => {
  const refused = (text: string, why: string | RegExp) => {
    expect(() => melodyOf(text)).toThrow(ForeignFileError);
    expect(() => melodyOf(text)).toThrow(why);
  };

  test.each([
    ["nothing", "", /empty|no sound XML/],
    ["no XML", "a melody", "no sound XML"],
    ["half a file", "<score-partwise><part>", "no sound XML"],
    ["something else", "<html/>", "no MusicXML"],
    ["timewise", "<score-timewise/>", "partwise"],
    ["no part", "<score-partwise/>", "no part"],
    ["no note", file(`<measure number="1">${ATTRIBUTES}</measure>`), "no note"],
    [
      "a 128th",
      file(`<measure number="1">${ATTRIBUTES.replace(">2<", ">32<")}${note("C4", 1)}</measure>`),
      "128th",
    ],
  ])("%s", (_, text, why) => {
    refused(text, why);
  });

  test("an entity bomb", () => {
    const bomb = `<!DOCTYPE a [<!ENTITY a "lol">${"bcdefghij"
      .split("")
      .map((name, index) => `<!ENTITY ${name} "${`&${"abcdefghi".charAt(index)};`.repeat(10)}">`)
      .join("")}]><score-partwise>&j;</score-partwise>`;
    refused(bomb, "entities of its own");
    refused("<score-partwise>&lol;</score-partwise>", "no sound XML");
  });

  test("an outside document type is not fetched and not minded", () => {
    const text = file(`<measure number="1">${ATTRIBUTES}${note("C4", 8)}</measure>`).replace(
      "?>",
      '?><!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 3.1 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">',
    );
    expect(melodyOf(text).bars.length).toBe(1);
  });

  test("a huge, a deep and an endless file", () => {
    refused(" ".repeat(16_000_001), "longer than");
    refused("<a>".repeat(100_000), "deeper than any music");
    refused(
      file(`<measure number="1">${ATTRIBUTES}${note("C4", 2).repeat(20_001)}</measure>`),
      "more than 20000 notes",
    );
  });

  test("no text at all makes it fail otherwise", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.constantFrom(
            ...[
              "<note>",
              "</note>",
              "<measure>",
              "</measure>",
              "<pitch/>",
              "<duration>x</duration>",
              "<type>half</type>",
            ],
            ...[
              "<rest/>",
              "<duration>-1</duration>",
              "<divisions>0</divisions>",
              "<attributes>",
              "</attributes>",
              "&amp;",
            ],
            "<pitch><step>C</step><octave>4</octave></pitch>",
            "<time-modification><actual-notes>1e9</actual-notes></time-modification>",
          ),
          { maxLength: 30 },
        ),
        (tags) => {
          try {
            const melody = melodyOf(file(tags.join("")));
            expect(
              readSource(melodyText(melody, "x", "A")).pieces.flatMap((piece) => piece.problems),
            ).toEqual([]);
          } catch (error) {
            expect(error).toBeInstanceOf(ForeignFileError);
          }
        },
      ),
      { numRuns: 300, seed: 3 },
    );
  });
});
