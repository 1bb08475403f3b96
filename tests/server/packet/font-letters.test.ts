import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { lettersMissing, lettersOf } from "../../../server/output/font-letters";
import { ROOT } from "./printing";

const face = (path: string): Uint8Array => readFileSync(join(ROOT, "node_modules", path));
const TINOS = lettersOf(face("@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf"));
const DEJAVU = lettersOf(face("dejavu-fonts-ttf/ttf/DejaVuSans.ttf"));

describe("the letters of a face", () => {
  it("are those its table names", () => {
    for (const letter of "AzÉßŁžΩдא“”–")
      expect([letter, TINOS.has(letter.codePointAt(0) ?? 0)]).toEqual([letter, true]);
    for (const letter of "朝한")
      expect([letter, TINOS.has(letter.codePointAt(0) ?? 0)]).toEqual([letter, false]);
    // The signs of music are what the second face is for.
    for (const letter of "♭♮♯")
      expect([letter, DEJAVU.has(letter.codePointAt(0) ?? 0)]).toEqual([letter, true]);
  });

  it("reach beyond the first plane", () => {
    // Mathematical double-struck A: only format 12 can name it.
    expect(DEJAVU.has(0x1d538)).toBe(true);
  });

  it("are enough for the bold and the slanted too", () => {
    const others = ["700Bold/Tinos_700Bold", "400Regular_Italic/Tinos_400Regular_Italic"];
    for (const name of others) {
      const letters = lettersOf(face(`@expo-google-fonts/tinos/${name}.ttf`));
      for (const letter of "AzÉßŁžΩд“”–") expect(letters.has(letter.codePointAt(0) ?? 0)).toBe(true);
    }
  });

  it("are refused for what is no font", () => {
    expect(() => lettersOf(new Uint8Array(64))).toThrow(RangeError);
  });
});

describe("letters that are missing", () => {
  it("are named once each, in their order, and marks that have no picture are none", () => {
    expect(lettersMissing("a 朝\u200b歌朝\n\ufe0f♭", [TINOS, DEJAVU])).toEqual(["朝", "歌"]);
    expect(lettersMissing("♭", [TINOS])).toEqual(["♭"]);
  });
});
