import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { describe, expect, test } from "vitest";
import { inColour } from "../../../server/notation/clean-svg";
import { engraveWith, engravingTask } from "../../../server/notation/engrave";
import type { Sheet } from "../../../server/notation/sheet";
import { differing, pixelsOf, pixelsOfPng, sideBySide } from "./pixels";
import { sample, sheetOf, sheetOfMusic } from "./samples";

/**
 * Twelve engraved exercises as they are seen, on light and on dark. Each was looked at before it was kept. After
 * a change that is meant, `UPDATE_PICTURES=1` keeps them as they are now: look at every one.
 */
const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const KEPT = fileURLToPath(new URL("pictures", import.meta.url));
/** Where a picture that differs is put beside the kept one. */
const SEEN = join(ROOT, ".cache/pictures");
/** The part of a picture that may differ. */
const TOLERANCE = 0.0005;

const silent = (): void => undefined;
const module = await createVerovioModule({ print: silent, printErr: silent });
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);

interface Picture {
  readonly sheet: Sheet;
  readonly fingerings?: boolean;
}

const EVERYTHING = `
  pickup 1/4 C4 | mf 1/4. (F4 1/8 G4) 1/4 A4 | 1/2 C5 accent 1/4 rest ' |
  triplet [ 1/8 F4 G4 A4 ] 1/4 Bb4 staccato A4 tenuto | 1/2. G4 tie | 1/2 G4 1/4 rest |
  repeat [ p 1/4 (F4 A4 C5) | cresc 1/4 lip (C5 F5 C5) ]
  ending 1 [ f 1/2 A4 fermata 1/4 rest | ] ending 2 [ f 1/2. F4 ' | ]
  key C major 1/4 attack air C4 attack lip D4 attack tongue E4 |
  meter 2/4 double 1/16 F4 F4 F4 F4 single 1/4 C5 bend half step |
  meter 3/4 free 12 s 1/1 F4 held ' | 1/2 F4 |`;
const EXTREMES = `
  1/4 C#6 trill F#3 turn C6 mordent fermata C6 marcato ' | 5:4 [ 1/16 C#4 D4 E4 F4 G4 ] 1/2. B5 accent staccato |
  1/32 C4 D4 E4 F4 G4 F4 E4 D4 1/64 C4 D4 C4 D4 1/16. E4 1/32 F4 1/8 G4 1/4 A4 1/4 B4 rest |`;

const PICTURES: Readonly<Record<string, () => Picture>> = {
  "long tones": () => ({ sheet: sheetOf(sample("Great swells")), fingerings: true }),
  bends: () => ({ sheet: sheetOf(sample("Leaning notes")), fingerings: true }),
  "free bars": () => ({ sheet: sheetOf(sample("As long as it shines")) }),
  "seven combinations": () => ({ sheet: sheetOf(sample("Long ladder")), fingerings: true }),
  "cells of a series": () => ({ sheet: sheetOf(sample("Little falls")) }),
  "double tongue": () => ({ sheet: sheetOf(sample("Paired boots")), fingerings: true }),
  triplets: () => ({ sheet: sheetOf(sample("Cartwheels")) }),
  "a tune with a pick-up": () => ({ sheet: sheetOf(sample("Greensleeves")) }),
  repeats: () => ({ sheet: sheetOf(sample("Frère Jacques")) }),
  "a song with dynamics": () => ({ sheet: sheetOf(sample("Evening at the lock")) }),
  everything: () => ({ sheet: sheetOfMusic(EVERYTHING, "key F major\n  meter 3/4\n  tempo 1/4 = 84") }),
  extremes: () => ({ sheet: sheetOfMusic(EXTREMES, "key C# major\n  tempo 1/8. = 84") }),
};
const LOOKS = [
  { look: "light", ink: "#1f1f1f", paper: "#ffffff" },
  { look: "dark", ink: "#d4d4d4", paper: "#1f1f1f" },
] as const;

describe.each(Object.keys(PICTURES))("%s", (name) => {
  test.each(LOOKS)("looks as it did, on $look", ({ look, ink, paper }) => {
    const picture = PICTURES[name]?.();
    if (picture === undefined) throw new Error(`no picture ${name}`);
    const task = engravingTask(picture.sheet, name, { width: 700, fingerings: picture.fingerings ?? false });
    const now = pixelsOf(inColour(engraveWith(toolkit, task), ink), paper);
    const file = `${name.replaceAll(" ", "-")}-${look}.png`;
    const kept = join(KEPT, file);
    if (process.env["UPDATE_PICTURES"] === "1") {
      mkdirSync(KEPT, { recursive: true });
      writeFileSync(kept, now.png);
    }
    expect(existsSync(kept), `${kept} is missing; UPDATE_PICTURES=1 makes it`).toBe(true);
    const before = readFileSync(kept);
    const allowed = Math.ceil(TOLERANCE * now.width * now.height);
    const found = differing(pixelsOfPng(before), now);
    const seen = join(SEEN, file);
    if (found > allowed) {
      mkdirSync(SEEN, { recursive: true });
      writeFileSync(seen, sideBySide(before, now.png));
    } else rmSync(seen, { force: true });
    expect(found, `the kept picture, the one of now, and what differs are in ${seen}`).toBeLessThanOrEqual(
      allowed,
    );
  });
});

test("a moved note is seen", () => {
  const drawn = (music: string) =>
    pixelsOf(
      inColour(
        engraveWith(toolkit, engravingTask(sheetOfMusic(music), "", { width: 700, fingerings: false })),
        "black",
      ),
      "white",
    );
  const [one, other] = [drawn("1/4 C5 D5 E5 F5 | G5 F5 E5 D5 |"), drawn("1/4 C5 D5 E5 F5 | G5 F5 E5 E5 |")];
  expect(differing(one, drawn("1/4 C5 D5 E5 F5 | G5 F5 E5 D5 |"))).toBe(0);
  expect(differing(one, other)).toBeGreaterThan(TOLERANCE * one.width * one.height);
  expect(pixelsOfPng(sideBySide(one.png, other.png)).height).toBe(3 * one.height + 20);
});
