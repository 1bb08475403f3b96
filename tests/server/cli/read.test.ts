import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Folder, SMALL } from "./command";

const TUNE = `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
  <work><work-title>Little tune</work-title></work>
  <part-list><score-part id="P1"><part-name>Cornet</part-name></score-part></part-list>
  <part id="P1">
    <measure number="1">
      <attributes><divisions>1</divisions><key><fifths>2</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time></attributes>
      <note><pitch><step>D</step><octave>4</octave></pitch><duration>2</duration><type>half</type><lyric><text>La</text></lyric></note>
      <note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>1</duration><type>quarter</type></note>
    </measure>
  </part>
</score-partwise>
`;
const EXERCISE = `exercise "Little tune" {
  in        "Songs"
  key       D major
  meter     3/4
  tempo     1/4 = 60
  music     {
    1/2 D4 1/4 F#4 |
  }
}
`;

let folder: Folder;
beforeAll(() => {
  const wide = Buffer.concat([
    Buffer.from([0xff, 0xfe]),
    Buffer.from(TUNE.replace("UTF-8", "UTF-16"), "utf16le"),
  ]);
  folder = new Folder({
    "tune.musicxml": TUNE,
    "wide.xml": wide,
    "packed.mxl": "PK\u0003\u0004",
    "plan.practice": SMALL,
    "bomb.xml": '<!DOCTYPE a [<!ENTITY a "b">]><score-partwise/>',
  });
});
afterAll(() => folder.remove());

describe("read", () => {
  test("prints the exercise, and beside it what was left out and what was supplied", () => {
    expect(folder.run(["read", "tune.musicxml"])).toEqual({
      out: EXERCISE,
      err: "The file does not say it, so there stands: tempo 1/4 = 60\nLeft out: 1 syllable of text.\n",
      code: 0,
    });
  });

  test("from standard input, from other encodings, under another name", () => {
    expect(folder.run(["read", "-"], { input: TUNE }).out).toBe(EXERCISE);
    expect(folder.run(["read", "wide.xml"]).out).toBe(EXERCISE);
    const { out } = folder.run(["read", "tune.musicxml", "--name", "Mine", "--area", "Tones"]);
    expect(out).toMatch(/^exercise "Mine" \{\n {2}in {8}"Tones"\n/);
  });

  test("what is written is read again", () => {
    folder.run(["write", "Fifths", "--to", "fifths.musicxml", "plan.practice"]);
    const { out, err } = folder.run(["read", "fifths.musicxml", "--area", "Tones"]);
    expect(err).toBe("");
    expect(out).toContain("1/2 C4 G4 | 1/1 C4 ' |");
  });

  test.each([
    ["packed.mxl", "uncompressed"],
    ["bomb.xml", "entities of its own"],
    ["plan.practice", "no sound XML"],
    ["none.xml", "There is no file or folder of this name."],
    [".", "This file cannot be opened."],
  ])("%s is refused in a line", (path, why) => {
    const { out, err, code } = folder.run(["read", path]);
    expect(out).toBe("");
    expect(err).toContain(why);
    expect(err.trim().split("\n").length).toBe(1);
    expect(code).toBe(1);
  });

  test("without a file it says how to ask", () => {
    expect(folder.run(["read"])).toMatchObject({ code: 2, out: "" });
    expect(folder.run(["help", "read"]).out).toContain("--area");
  });
});
