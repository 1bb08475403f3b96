import { describe, expect, test } from "vitest";
import { fifthsOf } from "../../../server/music/key";
import { pitchName } from "../../../server/music/pitch";
import { toNumber } from "../../../server/music/rhythm";
import { type MusicXmlStyle, musicXmlOf } from "../../../server/notation/musicxml";
import type { Sheet } from "../../../server/notation/sheet";
import { type ReadBack, readBack } from "./read-back";
import { EXERCISES, everyPlacement, instrumentOf, sheetOf, sheetOfMusic } from "./samples";
import { musicXmlSchema } from "./schema";

const schema = musicXmlSchema();
const FULL: MusicXmlStyle = { fingerings: "marks", ids: true, breaks: new Set([2]) };
const ENGRAVED: MusicXmlStyle = { fingerings: "line", ids: true, breaks: new Set() };
const withNotes = EXERCISES.filter((each) => each.content.kind === "notes");

/** The part of a file that must agree with the sheet, said in the sheet's own terms. */
function asRead(sheet: Sheet) {
  let before: { tied: boolean } | undefined;
  const starts = new Set<object>();
  for (const event of sheet.bars.flatMap((bar) => bar.events)) {
    if (event.kind === "rest") continue;
    if (event.tied && before !== undefined) starts.add(before);
    before = event;
  }
  return sheet.bars.map((bar) => {
    let at = 0;
    return bar.events.map((event) => {
      const onset = at;
      const duration = 4 * toNumber(event.value);
      at += duration;
      const common = { onset: rounded(onset), duration: rounded(duration) };
      if (event.kind === "rest") return { pitch: "rest", ...common };
      return {
        pitch: pitchName(event.pitch),
        ...common,
        tieStop: event.tied,
        tieStart: starts.has(event),
        marks: [
          ...event.marks,
          ...(event.breath ? ["breath-mark"] : []),
          ...(event.bend > 0 ? ["brass-bend"] : []),
        ].sort(),
        tuplet: event.tuplet === undefined ? undefined : `${event.tuplet.notes}:${event.tuplet.inTimeOf}`,
      };
    });
  });
}

const NAMES: Readonly<Record<string, string>> = { "trill-mark": "trill", "strong-accent": "marcato" };

function asWritten(read: ReadBack) {
  return read.bars.map((bar) =>
    bar.events.map((event) => {
      const common = {
        pitch: event.pitch,
        onset: rounded(event.onset),
        duration: rounded(event.duration),
      };
      if (event.pitch === "rest") return common;
      return {
        ...common,
        tieStop: event.tieStop,
        tieStart: event.tieStart,
        marks: event.marks.map((mark) => NAMES[mark] ?? mark).sort(),
        tuplet: event.tuplet,
      };
    }),
  );
}

function rounded(quarters: number): number {
  return Math.round(quarters * 1e6) / 1e6;
}

describe("every exercise of the sample book", () => {
  test("is one worth trying", () => {
    expect(withNotes.length).toBeGreaterThan(50);
  });

  test.each(withNotes.map((each) => [each.name, each] as const))(
    `is valid MusicXML ${schema.version} in all its keys, and reads back equal: %s`,
    (_, exercise) => {
      for (const placement of everyPlacement(exercise)) {
        const sheet = sheetOf(exercise, { placements: [placement] });
        for (const style of [FULL, ENGRAVED]) expect(schema.faultsOf(musicXmlOf(sheet, style))).toEqual([]);
        const read = readBack(musicXmlOf(sheet, FULL));
        expect(asWritten(read)).toEqual(asRead(sheet));
        expect(read.title).toBe(exercise.name);
        const key = sheet.bars[0]?.key;
        expect(read.bars[0]?.fifths).toBe(key === undefined ? 0 : fifthsOf(key));
        expect(Math.abs(read.bars[0]?.fifths ?? 0)).toBeLessThanOrEqual(7);
        // Every bar of a meter is full, but for a pick-up and the bar that makes up for it.
        for (const [index, bar] of sheet.bars.entries()) {
          expect(rounded(read.bars[index]?.quarters ?? 0)).toBe(rounded(4 * toNumber(bar.length)));
        }
      }
    },
  );

  test(`is valid MusicXML ${schema.version} written out whole: combinations, cells`, () => {
    for (const exercise of withNotes) {
      expect(schema.faultsOf(musicXmlOf(sheetOf(exercise), FULL))).toEqual([]);
    }
  });
});

test("the schema finds fault", () => {
  const sound = musicXmlOf(sheetOfMusic("1/1 C4 |"));
  expect(schema.faultsOf(sound)).toEqual([]);
  const unsound = sound.replace("<voice>1</voice>", "").replace("<duration>", "<voice>1</voice><duration>");
  expect(schema.faultsOf(unsound)).toEqual([expect.stringContaining("voice")]);
});

describe("what is written", () => {
  const bars = (music: string, fields = "") => readBack(musicXmlOf(sheetOfMusic(music, fields))).bars;

  test("slurs run from the first note to the last, ties from note to note", () => {
    const [bar] = bars("1/4 (C4 D4 E4) F4 tie | F4 G4 1/2 A4 |");
    expect(bar?.events.map((event) => event.slurs)).toEqual([["start"], [], ["stop"], []]);
    expect(bar?.events.at(-1)?.tieStart).toBe(true);
    expect(bars("1/4 C4 D4 E4 F4 tie | F4 G4 1/2 A4 |")[1]?.events[0]?.tieStop).toBe(true);
  });

  test("a slur of one note is none", () => {
    expect(bars("1/2 (C4) D4 |")[0]?.events.flatMap((event) => event.slurs)).toEqual([]);
  });

  test("a lip slur is named once, and again after other slurs", () => {
    const said = bars("1/4 lip (C4 G4) lip (G4 C4) | (C4 D4) lip (C4 G4) |");
    expect(said.map((bar) => bar.words)).toEqual([["lip slur"], ["lip slur"]]);
  });

  test("tempo is in quarters whatever is counted", () => {
    // W3C MusicXML 4.0, sound@tempo: quarter notes to the minute; a dotted quarter at 60 is 90.
    expect(readBack(musicXmlOf(sheetOfMusic("1/4. C4 D4 |", "meter 6/8\n  tempo 1/4. = 60"))).tempo).toBe(90);
    expect(readBack(musicXmlOf(sheetOfMusic("1/2 C4 D4 |", "tempo 1/2 = 50"))).tempo).toBe(100);
  });

  test("the transposition is the instrument's", () => {
    // W3C MusicXML 4.0: what is added to written pitch to get sounding pitch.
    expect(readBack(musicXmlOf(sheetOfMusic("1/1 C4 |"))).transpose).toEqual({ diatonic: -1, chromatic: -2 });
    const inC = sheetOfMusic("1/1 C4 |", "", { instrument: instrumentOf("trumpet in C") });
    expect(readBack(musicXmlOf(inC)).transpose).toBeUndefined();
    const eFlat = sheetOfMusic("1/1 C4 |", "", { instrument: instrumentOf("trumpet in Eb") });
    expect(readBack(musicXmlOf(eFlat)).transpose).toEqual({ diatonic: 2, chromatic: 3 });
  });

  test("repeats and endings", () => {
    const read = bars("1/1 C4 | repeat [ D4 | E4 | ] ending 1 [ F4 | G4 | ] ending 2 [ A4 | ] B4 |");
    expect(read.map(({ forward, backward, endings }) => ({ forward, backward, endings }))).toEqual([
      { forward: false, backward: false, endings: [] },
      { forward: true, backward: false, endings: [] },
      { forward: false, backward: false, endings: [] },
      { forward: false, backward: false, endings: ["1 start"] },
      { forward: false, backward: true, endings: ["1 stop"] },
      { forward: false, backward: false, endings: ["2 start", "2 discontinue"] },
      { forward: false, backward: false, endings: [] },
    ]);
    const twice = bars("repeat [ 1/1 D4 | ] repeat [ E4 | ]");
    expect(twice.map(({ forward, backward }) => [forward, backward])).toEqual([
      [true, true],
      [true, true],
    ]);
  });

  test("dynamics where they change, hairpins from mark to mark", () => {
    const [one, two] = bars("p cresc 1/2 C4 D4 | f dim E4 p F4 |");
    expect(one?.events.map((event) => event.before)).toEqual([["p", "crescendo wedge"], []]);
    expect(two?.events.map((event) => event.before)).toEqual([
      ["stop wedge", "f", "diminuendo wedge"],
      ["stop wedge", "p"],
    ]);
    expect(bars("1/1 C4 |")[0]?.events[0]?.before).toEqual([]);
  });

  test("a key change moves along with the exercise, and a meter changes", () => {
    const exercise = sheetOfMusic("1/1 C4 | key G major F#4 | meter 3/4 1/2. G4 |", "", {
      placements: [
        { semitones: 4, key: { step: 2, alter: 0, mode: "major" }, combination: undefined, mode: undefined },
      ],
    });
    const read = readBack(musicXmlOf(exercise));
    expect(read.bars.map((bar) => [bar.fifths, bar.meter])).toEqual([
      [4, "4/4"],
      [5, undefined],
      [undefined, "3/4"],
    ]);
    expect(read.bars[1]?.events[0]?.pitch).toBe("A#4");
  });

  test("six eighths are not three quarters", () => {
    const read = bars("1/4. C4 D4 | meter 3/4 1/4 C4 D4 E4 |", "meter 6/8");
    expect(read.map((bar) => bar.meter)).toEqual(["6/8", "3/4"]);
  });

  test("bars counted in seconds say so, and play so", () => {
    const xml = musicXmlOf(sheetOfMusic("free 12 s 1/1 G4 held ' | 1/1 G4 |"));
    expect(readBack(xml).bars[0]?.words).toEqual(["12 s", "held"]);
    // Four quarters in twelve seconds are twenty to the minute; then the tempo again.
    expect([...xml.matchAll(/tempo="([^"]+)"/g)].map((match) => match[1])).toEqual(["60", "20", "60"]);
  });

  test("a free meter is written as none", () => {
    expect(bars("1/1 C4 | 1/2 D4 |", "meter free").map((bar) => bar.meter)).toEqual(["free", undefined]);
  });

  test("triplets are bracketed by threes however they were typed", () => {
    const [bar] = bars("triplet [ 1/8 C4 D4 E4 F4 G4 A4 ] 1/2 G4 |");
    expect(bar?.events.map((event) => event.brackets)).toEqual([
      ["start"],
      [],
      ["stop"],
      ["start"],
      [],
      ["stop"],
      [],
    ]);
    expect(bar?.events[0]).toMatchObject({ type: "eighth", tuplet: "3:2", duration: 1 / 3 });
  });

  test("rests in tuplets are part of them", () => {
    const [bar] = bars("triplet [ 1/8 C4 rest E4 ] 1/4 F4 1/2 G4 |");
    expect(bar?.events[1]).toMatchObject({ pitch: "rest", type: "eighth", tuplet: "3:2" });
  });

  test("a whole bar of rest is one rest of the bar", () => {
    expect(bars("1/2. C4 | rest |", "meter 3/4")[1]?.events[0]).toMatchObject({
      type: "whole bar",
      duration: 3,
    });
  });

  test("a pick-up is bar nought, and does not count", () => {
    const xml = musicXmlOf(sheetOfMusic("pickup 1/4 G4 | 1/1 C5 | 1/2. C5 |"));
    expect([...xml.matchAll(/<measure ([^>]*)>/g)].map((match) => match[1])).toEqual([
      'number="X0" implicit="yes"',
      'number="1"',
      'number="2"',
    ]);
  });

  test("syllables for double, triple and other attacks", () => {
    const double = bars("double 1/8 C4 C4 C4 C4 single 1/2 C4 |")[0];
    expect(double?.events.map((event) => event.lyrics.join())).toEqual(["t", "k", "t", "k", ""]);
    const triple = bars("triple triplet [ 1/8 C4 C4 C4 ] single 1/2. C4 |")[0];
    expect(triple?.events.map((event) => event.lyrics.join())).toEqual(["t", "t", "k", ""]);
    const attacks = bars("1/4 attack air G4 G4 attack lip G4 attack tongue G4 |")[0];
    expect(attacks?.events.map((event) => event.lyrics.join())).toEqual(["hoo", "", "poo", "too"]);
  });

  test("fingerings are the chart's, and a lip slur keeps one combination", () => {
    const sheet = sheetOfMusic("1/4 D4 E4 lip (E4 A4) |");
    const [bar] = readBack(musicXmlOf(sheet, FULL)).bars;
    // Standard fingering chart: D4 first and third, E4 and A4 first and second.
    expect(bar?.events.map((event) => event.fingering)).toEqual(["13", "12", "12", "12"]);
  });

  test("marks of every kind", () => {
    const [bar] = bars("1/4 C4 accent staccato ' D4 tenuto fermata E4 marcato trill F4 bend whole step |");
    expect(bar?.events.map((event) => event.marks)).toEqual([
      ["accent", "staccato", "breath-mark"],
      ["tenuto", "fermata"],
      ["trill-mark", "strong-accent"],
      ["brass-bend"],
    ]);
    expect(bar?.words).toEqual(["bend 1"]);
  });

  test("an ornament asked of the exercise comes on the long notes", () => {
    const [bar] = bars("1/4 C4 D4 1/2 E4 |", "ornament turn on 1/2");
    expect(bar?.events.map((event) => event.marks)).toEqual([[], [], ["turn"]]);
  });

  test("names with signs of XML, and signs that no file may hold", () => {
    const sheet = { ...sheetOfMusic("1/1 C4 |"), title: 'Q & A <"fast">\u0007\ud800' };
    const xml = musicXmlOf(sheet);
    expect(schema.faultsOf(xml)).toEqual([]);
    expect(readBack(xml).title).toBe('Q & A <"fast">');
  });
});

describe("beams", () => {
  const beams = (music: string, fields = "") =>
    readBack(musicXmlOf(sheetOfMusic(music, fields))).bars.map((bar) =>
      bar.events.map((event) =>
        event.beams.map((part) => part.replace(/[a-z]+ ?/g, (word) => word.charAt(0))).join(""),
      ),
    );

  test.each([
    [
      "eighths in 4/4 by halves of the bar",
      "1/8 C4 D4 E4 F4 G4 F4 E4 D4 |",
      "",
      ["b", "c", "c", "e", "b", "c", "c", "e"],
    ],
    ["mixed values by quarters", "1/8 C4 1/16 D4 E4 1/8 F4 G4 1/2 C4 |", "", ["b", "cb", "ee", "b", "e", ""]],
    [
      "dotted figures with hooks",
      "1/8. C4 1/16 D4 1/16 E4 1/8. F4 1/2 G4 |",
      "",
      ["b", "ebh", "bfh", "e", ""],
    ],
    ["6/8 by threes", "1/8 C4 D4 E4 F4 G4 A4 |", "meter 6/8", ["b", "c", "e", "b", "c", "e"]],
    ["3/4 of eighths as one", "1/8 C4 D4 E4 F4 G4 A4 |", "meter 3/4", ["b", "c", "c", "c", "c", "e"]],
    ["5/8 the long beat first", "1/8 C4 D4 E4 F4 G4 |", "meter 5/8", ["b", "c", "e", "b", "e"]],
    ["7/8", "1/8 C4 D4 E4 F4 G4 A4 B4 |", "meter 7/8", ["b", "c", "e", "b", "e", "b", "e"]],
    ["not across a rest", "1/8 C4 rest E4 F4 1/2 G4 |", "", ["", "", "b", "e", ""]],
    ["not across the beat", "1/4. C4 1/8 D4 E4 1/4. F4 |", "", ["", "", "", ""]],
  ])("%s", (_, music, fields, expected) => {
    expect(beams(music, fields)[0]).toEqual(expected);
  });

  test("a pick-up is beamed from the end of its bar", () => {
    expect(beams("pickup 1/8 C4 D4 E4 | 1/1 F4 | 1/2 F4 1/8 F4 |")[0]).toEqual(["", "b", "e"]);
  });
});

describe("accidentals", () => {
  const accidentals = (music: string, fields = "") =>
    readBack(musicXmlOf(sheetOfMusic(music, fields))).bars.map((bar) =>
      bar.events.map((event) => event.accidental ?? ""),
    );

  test("hold for their bar and line, and no farther", () => {
    expect(accidentals("1/4 F#4 F#4 F4 F#5 | F5 G4 F4 F#4 |")).toEqual([
      ["sharp", "", "natural", "sharp"],
      ["natural", "", "", "sharp"],
    ]);
  });

  test("the signature's own need none", () => {
    expect(accidentals("1/4 Bb4 B4 Eb5 E5 |", "key F major")).toEqual([["", "natural", "flat", "natural"]]);
  });

  test("a tie carries them over the bar line", () => {
    expect(accidentals("1/1 F#4 tie | 1/2 F#4 F#4 |")).toEqual([["sharp"], ["", "sharp"]]);
  });

  test("double ones", () => {
    expect(accidentals("1/2 F##4 Bbb4 |")).toEqual([["double-sharp", "flat-flat"]]);
  });
});
