import { describe, expect, it } from "vitest";
import { inlayHintsIn } from "../../../server/features/inlay-hints";
import { offsetOf, positionOf } from "../../../server/features/lines-of";
import { drawnPlan } from "./write-fixture";
import { studio } from "./writing-studio";

function hinted(picture: string, range?: { from: number; to: number }, lineEnd = "\n") {
  const { checked } = drawnPlan(picture, lineEnd);
  const file = checked.files.find(({ path }) => path === "term.practice") ?? checked.files[0];
  if (file === undefined) throw new Error("no file");
  const start = { line: range?.from ?? 0, character: 0 };
  const end = range === undefined ? positionOf(file, file.text.length) : { line: range.to, character: 0 };
  const hints = inlayHintsIn(checked, file.path, { start, end });
  // Drawn into the text as an editor draws them.
  const drawn = hints.map(({ position, label }) => {
    const offset = offsetOf(file, position);
    const line = file.text.slice(0, offset).split(/\r?\n/).at(-1);
    return `${line}⟨${label}⟩${/^[^\r\n]*/.exec(file.text.slice(offset))?.[0]}`;
  });
  return { hints, drawn, file };
}

describe("hints at the end of assignments", () => {
  it("tell the minutes of the first day and the highest note of its key", () => {
    expect(
      hinted(studio('"Slow fifths"  keys G, C  twice', '"Étude in thirds"  in A  # high', '"Gates"  once'))
        .drawn,
    ).toEqual([
      '      "Slow fifths"  keys G, C  twice⟨0:16, up to G4⟩',
      '      "Étude in thirds"  in A  # high⟨0:08, up to B5⟩',
      '      "Gates"  once⟨0:10, up to C5⟩',
    ]);
  });

  it("stand on the sum when asked", () => {
    expect(hinted(studio('"Slow fifths"  twice')).hints[0]?.tooltip).toBe(
      "Mon 2026-09-07: 2 × (4 s playing + 4 s rest after it) = 0:16",
    );
  });

  it("are worked out in the asked range alone", () => {
    const picture = studio('"Slow fifths"  once', '"Gates"  once');
    const all = hinted(picture);
    expect(all.hints).toHaveLength(2);
    const line = all.hints[1]?.position.line ?? 0;
    expect(hinted(picture, { from: line, to: line + 1 }).drawn).toEqual([
      '      "Gates"  once⟨0:10, up to C5⟩',
    ]);
    expect(hinted(picture, { from: 0, to: 2 }).hints).toEqual([]);
  });

  it("keep silent of lines that cannot be read, of exercises nobody knows and of days that do not come", () => {
    expect(hinted(studio('"Slow fifths"  onec', '"Unheard of"  once')).drawn).toEqual([]);
    expect(hinted('area "A"\n').hints).toEqual([]);
  });

  it("stand before the line end in files with Windows line ends", () => {
    expect(hinted(studio('"Gates"  once'), undefined, "\r\n").drawn).toEqual([
      '      "Gates"  once⟨0:10, up to C5⟩',
    ]);
  });

  it("need a file", () => {
    const { checked } = drawnPlan('area "A"\n');
    const start = { line: 0, character: 0 };
    expect(inlayHintsIn(checked, "elsewhere.practice", { start, end: start })).toEqual([]);
  });
});
