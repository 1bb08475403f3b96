import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { DocumentSymbol, Range, SelectionRange, TextEdit } from "vscode-languageserver-types";
import { format } from "../../../grammar/format";
import { readSource } from "../../../grammar/pieces";
import { definition } from "../../../server/features/definition";
import { documentHighlights } from "../../../server/features/document-highlight";
import { documentSymbols } from "../../../server/features/document-symbols";
import { foldingRanges } from "../../../server/features/folding";
import { formatDocument, formatRange } from "../../../server/features/formatting";
import { linesOf, positionOf } from "../../../server/features/lines-of";
import { documentLinks } from "../../../server/features/links";
import { mentionsOf, namesIn, occurrencesOf, thingOf } from "../../../server/features/names";
import { formatOnType } from "../../../server/features/on-type-formatting";
import { references } from "../../../server/features/references";
import { prepareRename, rename } from "../../../server/features/rename";
import { selectionRanges } from "../../../server/features/selection-ranges";
import { semanticTokens } from "../../../server/features/semantic-tokens";
import { workspaceSymbols } from "../../../server/features/workspace-symbols";
import { type Checked, type CheckedFile, checkSources } from "../../../server/workspace/check-sources";
import { checkTexts } from "../check-texts";
import { FIXED } from "../music/fixed-seed";
import { asWindows, edited, liesInside, PLACES } from "./opened";

/** What holds for any text, tried on the sample studio. */

const FOLDER = new URL("../../../samples", import.meta.url).pathname;
const SAMPLES: ReadonlyMap<string, string> = new Map(
  readdirSync(FOLDER, { recursive: true, encoding: "utf8" })
    .map((path) => path.replaceAll("\\", "/"))
    .filter((path) => path.endsWith(".practice"))
    .sort()
    .map((path) => [path, readFileSync(join(FOLDER, path), "utf8")]),
);
const PATHS = [...SAMPLES.keys()];
const whole = checkTexts(SAMPLES);
const TREES = new Map(whole.files.map(({ path, text, tree }) => [path, { path, text, tree }]));

/** The samples with one of them changed. Their findings are not asked for, which would cost most. */
function withText(path: string, text: string): Checked {
  return checkSources(
    {
      asked: PATHS,
      sources: new Map([...TREES, [path, { path, text, tree: readSource(text) }]]),
      failures: new Map(),
      aliases: new Map(),
      known: new Set(),
    },
    { findings: false },
  );
}

function fileIn(checked: Checked, path: string): CheckedFile {
  const file = checked.files.find((each) => each.path === path);
  if (file === undefined) throw new Error(`${path} is missing`);
  return file;
}

/** Every range that the features answer for a file and a place in it, each with the file that it is in. */
function* everyRange(checked: Checked, path: string, offset: number): Generator<[CheckedFile, Range]> {
  const file = fileIn(checked, path);
  const position = positionOf(file, offset);
  const byUri = new Map(checked.files.map((each) => [PLACES.uriOf(each.path), each]));
  const at = (uri: string): CheckedFile => {
    const found = byUri.get(uri);
    if (found === undefined) throw new Error(`${uri} is no file of the studio`);
    return found;
  };
  for (const link of definition(checked, path, position, PLACES)) {
    if (link.originSelectionRange !== undefined) yield [file, link.originSelectionRange];
    yield [at(link.targetUri), link.targetRange];
    yield [at(link.targetUri), link.targetSelectionRange];
  }
  for (const { uri, range } of references(checked, path, position, true, PLACES)) yield [at(uri), range];
  const prepared = prepareRename(checked, path, position);
  if ("range" in prepared) yield [file, prepared.range];
  const renamed = rename(checked, path, position, "Nobody’s name", PLACES);
  if ("edit" in renamed) {
    for (const [uri, edits] of Object.entries(renamed.edit.changes ?? {})) {
      for (const { range } of edits) yield [at(uri), range];
    }
  }
  for (const { range } of documentHighlights(checked, path, position)) yield [file, range];
  yield* symbolRanges(file, documentSymbols(checked, path));
  for (const { location } of workspaceSymbols(checked, "a", PLACES)) yield [at(location.uri), location.range];
  for (const { startLine, endLine } of foldingRanges(checked, path)) {
    yield [file, { start: { line: startLine, character: 0 }, end: { line: endLine, character: 0 } }];
  }
  let selection: SelectionRange | undefined = selectionRanges(checked, path, [position])[0];
  while (selection !== undefined) {
    yield [file, selection.range];
    selection = selection.parent;
  }
  yield* tokenRanges(file, semanticTokens(checked, path).data);
  for (const { range } of documentLinks(checked, path, PLACES)) yield [file, range];
  for (const edits of [
    formatDocument(checked, path),
    formatRange(checked, path, { start: position, end: position }),
    formatOnType(checked, path, position, "\n"),
    formatOnType(checked, path, position, "}"),
  ]) {
    for (const { range } of edits) yield [file, range];
  }
}

function* symbolRanges(
  file: CheckedFile,
  symbols: readonly DocumentSymbol[],
): Generator<[CheckedFile, Range]> {
  for (const { name, range, selectionRange, children } of symbols) {
    expect(name.trim()).not.toBe("");
    expect(holds(range, selectionRange), `${name} is chosen outside of its range`).toBe(true);
    yield [file, range];
    yield [file, selectionRange];
    for (const child of children ?? []) expect(holds(range, child.range)).toBe(true);
    yield* symbolRanges(file, children ?? []);
  }
}

function* tokenRanges(file: CheckedFile, data: readonly number[]): Generator<[CheckedFile, Range]> {
  let [line, character] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    const [lines = 0, characters = 0, length = 0] = data.slice(i, i + 3);
    expect(lines).toBeGreaterThanOrEqual(0);
    character = lines > 0 ? characters : character + characters;
    line += lines;
    expect(length).toBeGreaterThan(0);
    yield [file, { start: { line, character }, end: { line, character: character + length } }];
  }
}

function holds(outer: Range, inner: Range): boolean {
  const before = (a: Range["start"], b: Range["start"]): boolean =>
    a.line < b.line || (a.line === b.line && a.character <= b.character);
  return before(outer.start, inner.start) && before(inner.end, outer.end);
}

/** The texts of a studio after a rename, each under its path. */
function afterRename(checked: Checked, path: string, offset: number, name: string): Map<string, string> {
  const result = rename(checked, path, positionOf(fileIn(checked, path), offset), name, PLACES);
  if ("refused" in result) throw new Error(result.refused);
  const changes: Record<string, TextEdit[]> = result.edit.changes ?? {};
  return new Map(
    checked.files.map((file) => [file.path, edited(file, changes[PLACES.uriOf(file.path)] ?? [])]),
  );
}

/** Every declared name of the samples: its file, where it stands inside its quotes, and the name. */
const DECLARED = whole.files.flatMap((file) =>
  namesIn(file, ({ declares }) => declares).map(({ start, mention }) => ({
    path: file.path,
    offset: start + mention.span.start + 1,
    kind: mention.kind,
    name: mention.text,
  })),
);

describe("whatever the text", () => {
  test("every range lies in its file, with a beginning cut away, in either kind of line end", () => {
    const place = fc.record({
      path: fc.constantFrom(...PATHS),
      cut: fc.double({ min: 0, max: 1, noNaN: true }),
      // Most often only the beginning goes; sometimes the end as well.
      end: fc.oneof(
        { weight: 2, arbitrary: fc.constant(1) },
        { weight: 1, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
      ),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      windows: fc.boolean(),
    });
    fc.assert(
      fc.property(place, ({ path, cut, end, at, windows }) => {
        const sample = SAMPLES.get(path) ?? "";
        const rest = sample.slice(Math.round(cut * sample.length), Math.round(end * sample.length));
        const text = windows ? asWindows(rest) : rest;
        const checked = withText(path, text);
        for (const [file, range] of everyRange(checked, path, Math.round(at * text.length))) {
          expect(liesInside(file, range), `${JSON.stringify(range)} in ${file.path}`).toBe(true);
        }
      }),
      { ...FIXED, numRuns: 200 },
    );
  });

  test("formatting gives what the formatter gives", () => {
    fc.assert(
      fc.property(fc.constantFrom(...PATHS), fc.nat(), fc.boolean(), (path, cut, windows) => {
        const sample = SAMPLES.get(path) ?? "";
        const rest = sample
          .slice(cut % sample.length)
          .replace(/ {2}/g, (_, at: number) => (at % 3 === 0 ? " " : "   "));
        const text = windows ? asWindows(rest) : rest;
        const checked = checkTexts(new Map([[path, text]]));
        const mark = windows ? "\ufeff" : "";
        expect(edited(fileIn(checked, path), formatDocument(checked, path))).toBe(mark + format(text));
      }),
      { ...FIXED, numRuns: 60 },
    );
  });

  test("lines are counted once for a file", () => {
    for (const file of whole.files) expect(linesOf(file)).toBe(linesOf(file));
  });
});

describe("the names of the samples", () => {
  test("all mean something", () => {
    for (const file of whole.files) {
      const lost = namesIn(file, () => true).filter((name) => thingOf(name) === undefined);
      expect(lost.map(({ mention }) => mention.text)).toEqual([]);
    }
    expect(DECLARED.length).toBeGreaterThan(60);
  });

  test("are each the name of one thing: what the places of all things add up to", () => {
    const all = whole.files.reduce((sum, { tree }) => sum + tree.pieces.flatMap(mentionsOf).length, 0);
    const placed = DECLARED.reduce((sum, { path, offset }) => {
      const file = fileIn(whole, path);
      const found = references(whole, path, positionOf(file, offset), true, PLACES);
      return sum + found.length;
    }, 0);
    expect(placed).toBe(all);
  });

  test("changed there and back give the same files again, and in between the same findings but for the name", () => {
    const said = (checked: Checked): string[] =>
      checked.files.flatMap((file) =>
        file.findings.map(({ code, message, place }) => {
          const home = checked.homes.get(place.piece);
          const start = home === undefined ? -1 : (home.start ?? 0) + place.span.start;
          const line = home === undefined ? -1 : linesOf(home.file).position(start).line;
          return `${home?.file.path}:${line} ${code} ${message}`;
        }),
      );
    const before = said(whole);
    fc.assert(
      fc.property(fc.constantFrom(...DECLARED), ({ path, offset, name, kind }) => {
        // A message ends with one full stop, whether the name at its end has one of its own or not.
        const fresh = name.endsWith(".") ? "Z. 🎺 Z." : "Zz 🎺 zz";
        const there = checkTexts(afterRename(whole, path, offset, fresh));
        expect(said(there).map((each) => each.replaceAll(fresh, name))).toEqual(before);
        const [thing] = namesIn(
          fileIn(there, path),
          ({ declares, text, kind: own }) => declares && text === fresh && own === kind,
        );
        if (thing === undefined) throw new Error("the name is gone");
        expect(occurrencesOf(there, { piece: thing.piece, mention: thing.mention }).length).toBeGreaterThan(
          0,
        );
        const back = afterRename(there, path, thing.start + thing.mention.span.start + 1, name);
        expect(back).toEqual(SAMPLES);
      }),
      { ...FIXED, numRuns: 40 },
    );
  });
});
