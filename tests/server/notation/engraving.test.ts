import fc from "fast-check";
import { SaxesParser } from "saxes";
import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { describe, expect, test } from "vitest";
import { inColour, withPrefix } from "../../../server/notation/clean-svg";
import { EngravingError, engraveWith, engravingTask } from "../../../server/notation/engrave";
import { layoutOf } from "../../../server/notation/line-breaks";
import { metronomeOutline } from "../../../server/notation/metronome-note";
import { playedOut } from "../../../server/notation/played-out";
import type { Sheet } from "../../../server/notation/sheet";
import type { Exercise } from "../../../server/plan/exercise";
import { anyExercise, exerciseOf } from "./any-exercise";
import { EXERCISES, everyPlacement, sample, sheetOf, sheetOfMusic } from "./samples";

const silent = (): void => undefined;
const module = await createVerovioModule({ print: silent, printErr: silent });
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);
const withNotes = EXERCISES.filter((each) => each.content.kind === "notes");

function engraved(sheet: Sheet, look = { width: 900, fingerings: true }): string {
  return engraveWith(toolkit, engravingTask(sheet, sheet.title, look));
}

function notesIn({ content }: Exercise): number {
  return content.kind === "notes" ? content.score.bars.flatMap((bar) => bar.events).length : 0;
}

function rounded(quarters: number): number {
  return Math.round(quarters * 1e5) / 1e5;
}

/** Everything that keeps a picture from standing alone under a strict policy; empty where nothing does. */
function faultsOf(svg: string): readonly string[] {
  const faults: string[] = [];
  const ids = new Set<string>();
  const asked = new Set<string>();
  const parser = new SaxesParser();
  parser.on("error", (error) => faults.push(error.message));
  parser.on("opentag", (tag) => {
    if (["style", "script", "foreignObject", "image"].includes(tag.name)) faults.push(`a <${tag.name}>`);
    for (const [name, value] of Object.entries(tag.attributes)) {
      const text = String(value);
      if (name === "style" || name.startsWith("on")) faults.push(`an attribute ${name}`);
      if (name === "id") {
        if (ids.has(text)) faults.push(`the id ${text} twice`);
        ids.add(text);
      }
      if (name === "href" || name === "xlink:href") asked.add(text);
      if (name === "font-family" && text !== "Times, serif") faults.push(`the font ${text}`);
    }
  });
  parser.on("text", (text) => {
    if (/[\ue000-\uf8ff]/.test(text)) faults.push("a sign of a music font");
  });
  parser.write(svg).close();
  for (const each of asked) if (!ids.has(each.replace(/^#/, ""))) faults.push(`nothing is called ${each}`);
  return faults;
}

describe("every exercise of the sample book", () => {
  test.each(withNotes.map((each) => [each.name, each] as const))(
    "is engraved to a picture that stands alone, its notes by our numbers and in our time: %s",
    (_, exercise) => {
      const sheet = sheetOf(exercise);
      const svg = engraved(sheet);
      expect(faultsOf(svg)).toEqual([]);
      for (const { id } of sheet.bars.flatMap((bar) => bar.events)) expect(svg).toContain(` id="e${id}"`);
      // The engraver plays repeats out as we do, and knows nothing of the rests between two times through.
      const ours: (readonly [string, number])[] = [];
      let at = 0;
      for (const { event, quarters } of playedOut(sheet)) {
        if (event === undefined) continue;
        if (event.kind === "note" && !event.tied) ours.push([`e${event.id}`, rounded(at)]);
        at += quarters;
      }
      const struck = new Set(ours.map(([id]) => id));
      const theirs = toolkit
        .renderToTimemap()
        .flatMap(({ on, qstamp }) =>
          (on ?? []).map((id) => [id.replace(/-rend\d+$/, ""), rounded(qstamp)] as const),
        )
        .filter(([id]) => struck.has(id));
      expect(theirs).toEqual(ours);
    },
  );

  test("stands alone in every key", () => {
    for (const exercise of [sample("Greensleeves"), sample("Mill wheel"), sample("Evening at the lock")]) {
      for (const placement of everyPlacement(exercise)) {
        const sheet = sheetOf(exercise, { placements: [placement] });
        expect(faultsOf(engraved(sheet, { width: 600, fingerings: false }))).toEqual([]);
      }
    }
  });
});

test("whatever is typed as music is engraved to a picture that stands alone", () => {
  fc.assert(
    fc.property(anyExercise, fc.boolean(), (asked, fingerings) => {
      const exercise = exerciseOf(asked);
      if (exercise === undefined || notesIn(exercise) === 0) return;
      const sheet = sheetOf(exercise, { cells: 2 });
      expect(faultsOf(engraved(sheet, { width: 900, fingerings }))).toEqual([]);
    }),
    { numRuns: 60, seed: 4 },
  );
});

describe("a picture", () => {
  const sheet = sheetOfMusic("1/4. C4 F#4 | 1/4. G4 fermata 1/4. A4 |", "meter 6/8\n  tempo 1/4. = 60");

  test("is the same for the same music", () => {
    expect(engraved(sheet)).toBe(engraved(sheet));
  });

  test("says what it shows", () => {
    const svg = engraveWith(
      toolkit,
      engravingTask(sheet, "<Slow> & easy", { width: 900, fingerings: false }),
    );
    expect(svg).toMatch(/^<svg [^>]*role="img"[^>]*><title>&lt;Slow&gt; &amp; easy<\/title>/);
    expect(svg).toMatch(/^<svg [^>]*width="\d+(\.\d+)?" height="\d+(\.\d+)?"/);
  });

  test("draws lines with strokes of their own and the metronome's note as an outline", () => {
    const svg = engraved(sheet);
    expect(svg).toContain('stroke="currentColor"');
    expect(svg).not.toContain("Leipzig");
    expect(svg).toMatch(
      /<g font-weight="bold"><path stroke="none" transform="translate\([^)]*\)" d="M[^"]*"\/>/,
    );
  });

  test("takes the colour it is given", () => {
    const svg = inColour(engraved(sheet), "#123456");
    expect(svg).toContain('stroke="#123456"');
    expect(svg).not.toContain("currentColor");
  });

  test("keeps its names apart from another's", () => {
    const svg = engraved(sheet);
    const [one, other] = [withPrefix(svg, "a-"), withPrefix(svg, "b-")];
    expect(faultsOf(`<div>${one}${other}</div>`)).toEqual([]);
    expect(one).toContain(' id="a-e0"');
  });

  test("is small: eight bars stay well under what an editor shows in a hover", () => {
    const eight = sheetOfMusic("1/8 C4 D4 E4 F4 G4 F4 E4 D4 | ".repeat(8));
    expect(engraved(eight).length).toBeLessThan(30_000);
  });

  test("of music that cannot be read is an error of ours", () => {
    for (const musicXml of ["nonsense", "", "<score-partwise", "<a/>"]) {
      const task = { musicXml, width: 900, broken: false, title: "" };
      expect(() => engraveWith(toolkit, task)).toThrow(EngravingError);
    }
    expect(faultsOf(engraved(sheet))).toEqual([]);
  });
});

describe("lines", () => {
  const lines = (sheet: Sheet, width = 1800) => {
    const { breaks } = layoutOf(sheet, width, false);
    const starts = sheet.bars.map(
      (bar, index) => index === 0 || breaks.has(index) || bar.opens !== undefined,
    );
    const sizes: number[] = [];
    for (const start of starts) {
      if (start) sizes.push(0);
      sizes.push((sizes.pop() ?? 0) + 1);
    }
    return sizes;
  };

  test("are even, and the last bar is not lonely", () => {
    for (let bars = 1; bars <= 60; bars++) {
      const sizes = lines(sheetOfMusic("1/4 C4 D4 E4 F4 | ".repeat(bars)));
      expect(sizes.reduce((sum, size) => sum + size, 0)).toBe(bars);
      // With one bar a line more or less where the tempo and meter take room.
      expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(2);
      if (bars > 1) expect(sizes.at(-1)).toBeGreaterThan(1);
    }
  });

  test("are not parted within a slur where it can be helped", () => {
    const sheet = sheetOfMusic("1/4 (C4 D4 E4 F4 | G4 F4 E4 D4 | 1/1 C4) | ".repeat(6));
    const { breaks } = layoutOf(sheet, 1800, false);
    expect([...breaks].every((bar) => bar % 3 === 0)).toBe(true);
    expect(breaks.size).toBeGreaterThan(0);
  });

  test("begin with every combination", () => {
    expect(lines(sheetOf(sample("Long ladder")))).toEqual([3, 3, 3, 3, 3, 3, 3]);
  });

  test("a bar too wide for the page has a line to itself", () => {
    expect(lines(sheetOfMusic(`${"1/64 C4 ".repeat(64)} | `.repeat(3)), 500)).toEqual([1, 1, 1]);
  });

  test("of five hundred bars are laid out at once", () => {
    const sheet = sheetOfMusic("1/8 C4 D4 E4 F4 G4 F4 E4 D4 | ".repeat(500));
    const begun = performance.now();
    const sizes = lines(sheet);
    expect(performance.now() - begun).toBeLessThan(500);
    expect(sizes.length).toBeGreaterThan(50);
  });
});

describe("metronome notes", () => {
  test("half, quarter, dotted quarter and eighth are drawn, other signs are not", () => {
    const quarter = metronomeOutline("\ueca5", 100);
    const half = metronomeOutline("\ueca3", 100);
    const dotted = metronomeOutline("\ueca5\u00a0\uecb7", 100);
    const eighth = metronomeOutline("\ueca7", 100);
    // A hole makes the half note, a dot and a flag take room.
    expect(half?.path.split("Z").length).toBe((quarter?.path.split("Z").length ?? 0) + 1);
    expect(dotted?.advance).toBeGreaterThan(quarter?.advance ?? 0);
    expect(eighth?.advance).toBeGreaterThan(quarter?.advance ?? 0);
    expect(metronomeOutline("x", 100)).toBeUndefined();
    expect(metronomeOutline("", 100)).toBeUndefined();
  });
});
