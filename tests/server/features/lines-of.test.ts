import { describe, expect, test } from "vitest";
import {
  fileOf,
  linesOf,
  locationOf,
  offsetOf,
  positionOf,
  rangeOf,
} from "../../../server/features/lines-of";
import { checkTexts } from "../check-texts";
import { asWindows, opened, PLACES } from "./opened";

const TEXT = 'area "🎺"\narea "B"\n';

describe("positions", () => {
  test("count from 0, in the units of the protocol, without what an editor does not show", () => {
    const plain = opened(TEXT).file("plan.practice");
    const windows = opened(TEXT, asWindows).file("plan.practice");
    expect(positionOf(plain, TEXT.indexOf('"\n'))).toEqual({ line: 0, character: 8 });
    expect(positionOf(windows, windows.text.indexOf('"\r'))).toEqual({ line: 0, character: 8 });
    expect(positionOf(windows, windows.text.indexOf("B"))).toEqual({ line: 1, character: 6 });
    expect(positionOf(windows, 0)).toEqual({ line: 0, character: 0 });
  });

  test("lead back to their offset", () => {
    for (const change of [(text: string) => text, asWindows]) {
      const file = opened(TEXT, change).file("plan.practice");
      for (const sign of ["a", "🎺", "B"]) {
        const offset = file.text.indexOf(sign);
        expect(offsetOf(file, positionOf(file, offset))).toBe(offset);
      }
    }
  });

  test("outside of the text are moved to its ends", () => {
    const file = opened(TEXT).file("plan.practice");
    expect(offsetOf(file, { line: 0, character: 99 })).toBe(TEXT.indexOf("\n"));
    expect(offsetOf(file, { line: 99, character: 0 })).toBe(TEXT.length);
    expect(offsetOf(file, { line: 0, character: -1 })).toBe(0);
    expect(rangeOf(file, -5, 99)).toEqual({
      start: { line: 0, character: 0 },
      end: { line: 2, character: 0 },
    });
  });
});

describe("files and places", () => {
  test("a file is found by its path", () => {
    const { checked } = opened(TEXT);
    expect(fileOf(checked, "plan.practice")?.text).toBe(TEXT);
    expect(fileOf(checked, "elsewhere.practice")).toBeUndefined();
  });

  test("a place of the plan is a location, as long as its piece is in a file", () => {
    const { checked, file } = opened(TEXT);
    const place = file("plan.practice").plan.areas.get("B")?.place;
    if (place === undefined) throw new Error("no area B");
    expect(locationOf(checked.homes, place, PLACES)).toEqual({
      uri: "plans:/plan.practice",
      range: { start: { line: 1, character: 5 }, end: { line: 1, character: 8 } },
    });
    const others = checkTexts(new Map([["plan.practice", TEXT]]));
    expect(locationOf(others.homes, place, PLACES)).toBeUndefined();
  });

  test("the lines of a text are looked up once", () => {
    const file = opened(TEXT).file("plan.practice");
    expect(linesOf(file)).toBe(linesOf({ ...file }));
  });
});
