import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { describe, expect, test } from "vitest";
import { engraveWith } from "../../../server/notation/engrave";
import { musicXmlOf } from "../../../server/notation/musicxml";
import { systemPictures } from "../../../server/notation/system-pictures";
import { EXERCISES, everyPlacement, sheetOf, sheetOfMusic } from "./samples";

const silent = (): void => undefined;
const module = await createVerovioModule({ print: silent, printErr: silent });
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);
const withNotes = EXERCISES.filter((each) => each.content.kind === "notes");

/** The numbers of the sheet's events as a column of pictures names them, in order. */
function shownIds(pictures: ReturnType<typeof systemPictures>): readonly number[] {
  return pictures.flatMap(({ task, firstId }) =>
    [...engraveWith(toolkit, task).matchAll(/ id="e(\d+)"/g)].map(([, number]) => firstId + Number(number)),
  );
}

describe("a sheet as a column of pictures", () => {
  test.each(withNotes.map((each) => [each.name, each] as const))(
    "shows every event of the sheet once: %s",
    (_, exercise) => {
      const sheet = sheetOf(exercise);
      const pictures = systemPictures(sheet, { width: 480, fingerings: true }, () => exercise.name);
      const ids = sheet.bars.flatMap((bar) => bar.events.map((event) => event.id));
      expect(shownIds(pictures).toSorted((a, b) => a - b)).toEqual(ids);
    },
  );

  const LONG = Array.from(
    { length: 24 },
    (_, bar) => `1/8 C4 D4 E4 F4 1/4 ${bar % 2 === 0 ? "G4" : "A4"} E4`,
  );

  test("changes one picture where one bar changes", () => {
    const before = systemPictures(
      sheetOfMusic(`${LONG.join(" | ")} |`),
      { width: 480, fingerings: false },
      () => "",
    );
    const changed = LONG.with(12, "1/8 C4 D4 E4 F4 1/4 B4 E4");
    const after = systemPictures(
      sheetOfMusic(`${changed.join(" | ")} |`),
      { width: 480, fingerings: false },
      () => "",
    );
    expect(before.length).toBeGreaterThan(4);
    expect(after.filter(({ task }, index) => task.musicXml !== before[index]?.task.musicXml)).toHaveLength(1);
  });

  test("changes one picture where a note more stands in a bar", () => {
    const before = systemPictures(
      sheetOfMusic(`${LONG.join(" | ")} |`),
      { width: 480, fingerings: false },
      () => "",
    );
    const changed = LONG.with(1, "1/8 C4 D4 E4 F4 A4 A4 1/4 E4");
    const after = systemPictures(
      sheetOfMusic(`${changed.join(" | ")} |`),
      { width: 480, fingerings: false },
      () => "",
    );
    const different = after.filter(({ task }, index) => task.musicXml !== before[index]?.task.musicXml);
    expect(different.map(({ from }) => from)).toEqual([0]);
  });

  test("keeps lines that a slur or a hairpin joins in one picture", () => {
    const slurred = LONG.map((bar) => bar.replace("1/4", "1/4 (").replace(/E4$/, "E4 )"));
    const apart = systemPictures(
      sheetOfMusic(`${slurred.join(" | ")} |`),
      { width: 480, fingerings: false },
      () => "",
    );
    const joined = `${LONG.slice(0, 11).join(" | ")} | 1/8 (C4 ${"D4 E4 F4 G4 A4 B4 C5 | 1/8 D5 ".repeat(13)}) C4 B3 A3 G3 A3 B3 C4 |`;
    const one = systemPictures(sheetOfMusic(joined), { width: 480, fingerings: false }, () => "");
    expect(apart.length).toBeGreaterThan(4);
    const reaching = one.find(({ from, to }) => from <= 12 && to >= 24);
    expect(reaching).toBeDefined();
  });

  test("says meter and tempo once, key and clef in every picture", () => {
    const [first, second] = systemPictures(
      sheetOfMusic(`${LONG.join(" | ")} |`),
      { width: 480, fingerings: false },
      () => "",
    );
    expect(first?.task.musicXml).toContain("<metronome");
    expect(first?.task.musicXml).toContain("<time>");
    expect(second?.task.musicXml).not.toContain("<metronome");
    expect(second?.task.musicXml).toContain('<time print-object="no">');
    expect(second?.task.musicXml).toContain("<clef>");
  });

  test("of one line is the very same as the sheet engraved at once", () => {
    const sheet = sheetOfMusic("1/1 C4 | 1/2 D4 E4 |");
    const [only, ...others] = systemPictures(sheet, { width: 900, fingerings: false }, () => "");
    expect(others).toEqual([]);
    expect(only?.task.musicXml).toBe(musicXmlOf(sheet, { fingerings: "none", ids: true, breaks: new Set() }));
  });

  test("holds in every key", () => {
    const exercise = withNotes[0];
    if (exercise === undefined) throw new Error("no exercise with notes");
    for (const placement of everyPlacement(exercise)) {
      const sheet = sheetOf(exercise, { placements: [placement] });
      const ids = sheet.bars.flatMap((bar) => bar.events.map((event) => event.id));
      const pictures = systemPictures(sheet, { width: 400, fingerings: false }, () => "");
      expect(shownIds(pictures).toSorted((a, b) => a - b)).toEqual(ids);
    }
  });
});
