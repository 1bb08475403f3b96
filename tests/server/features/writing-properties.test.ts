import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CompletionItem, Range } from "vscode-languageserver-types";
import { codeActionsAt } from "../../../server/features/code-actions";
import { codeLensesOf } from "../../../server/features/code-lens";
import { completionAt } from "../../../server/features/completion";
import { resolvedCompletion } from "../../../server/features/completion-resolve";
import { diagnosticsOf } from "../../../server/features/diagnostics";
import { hoverAt } from "../../../server/features/hover";
import { inlayHintsIn } from "../../../server/features/inlay-hints";
import { linesOf, offsetOf, positionOf } from "../../../server/features/lines-of";
import type { Checked, CheckedFile } from "../../../server/workspace/check-sources";
import { checkTexts } from "../check-texts";
import { FIXED } from "../music/fixed-seed";
import { edited, PLACES, textIn } from "./write-fixture";

/** The sample studio with one term, cut about as typing leaves it: nothing may throw, and nothing reach outside. */
const PATHS = [
  "book.practice",
  "players.practice",
  "routines.practice",
  "studio.practice",
  "2026-27/autumn.practice",
];
const SAMPLES = new Map(
  PATHS.map((path) => [path, readFileSync(join(import.meta.dirname, "../../../samples", path), "utf8")]),
);
const ASKED = ["book.practice", "players.practice", "2026-27/autumn.practice"];

const CAN = { relatedInformation: true, tags: true, snippets: false, markdown: true, commands: true };

interface Cut {
  readonly path: string;
  /** Where letters are taken out, as parts of the text, and how many. */
  readonly cuts: readonly (readonly [at: number, length: number])[];
  /** The cursor, as a part of the text; undefined for where the first letters were taken out. */
  readonly cursor: number | undefined;
  readonly crlf: boolean;
}

const cut: fc.Arbitrary<Cut> = fc.record({
  path: fc.constantFrom(...ASKED),
  cuts: fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 1, max: 40 })), {
    maxLength: 4,
  }),
  cursor: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
  crlf: fc.boolean(),
});

function written({ path, cuts, cursor, crlf }: Cut): {
  checked: Checked;
  file: CheckedFile;
  cursor: number;
} {
  let text = SAMPLES.get(path) ?? "";
  for (const [part, length] of cuts) {
    const start = Math.floor(part * text.length);
    text = text.slice(0, start) + text.slice(start + length);
  }
  if (crlf) text = text.replaceAll("\n", "\r\n");
  const checked = checkTexts(new Map([...SAMPLES, [path, text]]));
  const file = checked.files.find((each) => each.path === path);
  if (file === undefined) throw new Error("no file");
  return { checked, file, cursor: Math.floor((cursor ?? cuts[0]?.[0] ?? 0) * text.length) };
}

function isInside(file: CheckedFile, { start, end }: Range): boolean {
  const lines = linesOf(file);
  const place = ({ line, character }: Range["start"]): boolean =>
    line >= 0 && line < lines.lineCount && character >= 0 && character <= lines.lineText(line).length;
  return place(start) && place(end) && offsetOf(file, start) <= offsetOf(file, end);
}

describe("whatever is left of a plan", () => {
  it("everything answers, and every range lies in the text", () => {
    fc.assert(
      fc.property(cut, (drawn) => {
        const { checked, file, cursor } = written(drawn);
        const { path } = drawn;
        const position = positionOf(file, cursor);
        const whole = { start: { line: 0, character: 0 }, end: positionOf(file, file.text.length) };
        const ranges: Range[] = [];
        for (const { range } of diagnosticsOf(checked, path, CAN, PLACES)) ranges.push(range);
        for (const item of completionAt(checked, path, position, CAN).items) {
          ranges.push(rangeOfItem(item));
          expect(rangeOfItem(item).start.line).toBe(position.line);
        }
        const hover = hoverAt(checked, path, position, CAN);
        if (hover?.range !== undefined) ranges.push(hover.range);
        for (const hint of inlayHintsIn(checked, path, whole)) {
          ranges.push({ start: hint.position, end: hint.position });
        }
        for (const { range } of codeLensesOf(checked, path, CAN, PLACES)) ranges.push(range);
        const asked = { range: { start: position, end: position }, invoked: false };
        for (const action of codeActionsAt(checked, path, asked, CAN, PLACES)) {
          for (const { range } of action.edit?.changes?.[PLACES.uriOf(path)] ?? []) ranges.push(range);
        }
        for (const range of ranges) expect(isInside(file, range), JSON.stringify(range)).toBe(true);
      }),
      { ...FIXED, numRuns: 40 },
    );
  });

  it("and whatever is asked for at the cursor leaves nothing worse behind", () => {
    fc.assert(
      fc.property(cut, (drawn) => {
        const { checked, file, cursor } = written(drawn);
        const { path } = drawn;
        const position = positionOf(file, cursor);
        const asked = { range: { start: position, end: position }, invoked: true };
        for (const action of codeActionsAt(checked, path, asked, CAN, PLACES)) {
          const edits = action.edit?.changes?.[PLACES.uriOf(path)] ?? [];
          const after = checkTexts(new Map([...texts(checked), [path, edited(file, edits)]]));
          // What the text alone tells may bring more to light than it mends; all else was measured.
          if (action.kind === "quickfix" && !action.title.startsWith("Let ")) continue;
          if (action.kind?.startsWith("source") === true) continue;
          expect(unreadable(after), action.title).toBeLessThanOrEqual(unreadable(checked));
        }
      }),
      { ...FIXED, numRuns: 20 },
    );
  });
});

function texts(checked: Checked): ReadonlyMap<string, string> {
  return new Map(checked.files.map(({ path, text }) => [path, text]));
}

function unreadable(checked: Checked): number {
  return checked.files.reduce(
    (sum, { findings }) => sum + findings.filter(({ code }) => code === "unreadable").length,
    0,
  );
}

function rangeOfItem({ textEdit }: CompletionItem): Range {
  if (textEdit === undefined || !("range" in textEdit)) throw new Error("a proposal without its place");
  return textEdit.range;
}

describe("what completion writes can be read", () => {
  // Every assignment of the samples, its key or its exercise taken away and offered again.
  const AUTUMN = "2026-27/autumn.practice";
  const spots = [
    ...(SAMPLES.get(AUTUMN) ?? "").matchAll(/^ +"[^"]+"(?= {2})| (?:in|keys) ([A-G][b#]?)\b/gm),
  ].map((match) => ({
    start:
      match[1] === undefined
        ? match.index + match[0].indexOf('"')
        : match.index + match[0].length - match[1].length,
    end: match.index + match[0].length,
  }));

  it("for each of the exercises and keys that are offered", () => {
    expect(spots.length).toBeGreaterThan(100);
    fc.assert(
      fc.property(fc.constantFrom(...spots), fc.nat(), fc.nat(3), ({ start, end }, choice, kept) => {
        const text = SAMPLES.get(AUTUMN) ?? "";
        // The first letters may be typed already.
        const from = Math.min(start + kept, end - 1);
        const half = text.slice(0, from) + text.slice(end);
        const checked = checkTexts(new Map([...SAMPLES, [AUTUMN, half]]));
        const file = checked.files.find(({ path }) => path === AUTUMN);
        if (file === undefined) throw new Error("no file");
        const position = positionOf(file, from);
        const offered = completionAt(checked, AUTUMN, position, CAN).items.filter(
          ({ textEdit }) => textEdit !== undefined && /^(?:"|[A-G][b#]?$)/.test(textEdit.newText),
        );
        const item = offered[choice % offered.length];
        if (item === undefined)
          throw new Error(`nothing offered in ${textIn(file, lineRange(position.line))}`);
        expect(resolvedCompletion(checked, item, CAN).label).toBe(item.label);
        if (item.textEdit === undefined || !("range" in item.textEdit)) throw new Error("no place");
        const after = checkTexts(new Map([...SAMPLES, [AUTUMN, edited(file, [item.textEdit])]]));
        const fresh = after.files.find(({ path }) => path === AUTUMN);
        const problems = fresh?.tree.pieces.flatMap((piece) => piece.problems.map(({ message }) => message));
        expect(problems).toEqual([]);
        expect(fresh?.findings.filter(({ code }) => code === "unknown-name")).toEqual([]);
      }),
      { ...FIXED, numRuns: 40 },
    );
  });
});

function lineRange(line: number): Range {
  return { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
}
