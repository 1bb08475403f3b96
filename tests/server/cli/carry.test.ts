import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { Folder, SMALL } from "./command";

let folder: Folder;
beforeEach(() => {
  folder = new Folder({
    "house/players.practice": SMALL.slice(0, SMALL.indexOf("term ")),
    "house/2026/autumn.practice": `use "../players.practice"\n\n${SMALL.slice(SMALL.indexOf("term ")).replace(
      '"Autumn"',
      '"Autumn 2026"',
    )}`,
    "house/2027/spring.practice": "",
  });
});
afterEach(() => folder.remove());

const DAYS = ["--from", "2027-09-06", "--to", "2027-09-25"];

describe("leadpipe carry", () => {
  test("prints the new plan, and beside it what is found", () => {
    const { code, out, err } = folder.run(["carry", "house/2026/autumn.practice", ...DAYS]);
    expect(code).toBe(0);
    expect(out).toContain(
      'use "../players.practice"\n\nterm "Autumn 2027" for "Seniors" {\n  from      2027-09-06',
    );
    expect(err).toContain("“Autumn 2027” has everything that the old term had.");
    // Three weeks now, and the plan speaks of two.
    expect(err).toMatch(/note weeks-unplanned|warning weeks-unplanned/);
  });

  test("writes a new file that uses what the old one does, and never one that is there", () => {
    const words = [
      ...["carry", "house/2026/autumn.practice", ...DAYS],
      ...["--closed", "2027-09-13 to 2027-09-18 boat week, 2027-09-20"],
      ...["--light", "2027-09-21"],
      ...["--no-lesson", "2027-09-22 away", "--out", "house/2027/term/../autumn.practice"],
    ];
    const first = folder.run(words);
    expect(first.code).toBe(0);
    expect(first.out).toContain("house/2027/autumn.practice is written.\n");
    const text = readFileSync(join(folder.path, "house/2027/autumn.practice"), "utf8");
    expect(text).toContain(`use "../players.practice"

term "Autumn 2027" for "Seniors" {
  from      2027-09-06 to 2027-09-25
  practice  Mon to Sat
  closed    2027-09-13 to 2027-09-18 "boat week"
  closed    2027-09-20
  light     2027-09-21
  no lesson 2027-09-22 "away"
`);
    expect(folder.run(["check", "house"]).out).not.toContain("error");
    const second = folder.run(words);
    expect(second.code).toBe(1);
    expect(second.err).toContain("There is such a file already, and it stays as it is.");
    expect(readFileSync(join(folder.path, "house/2027/autumn.practice"), "utf8")).toBe(text);
  });

  test.each([
    [[], "Name one file"],
    [["house/2026/autumn.practice"], "Say the new term's days"],
    [["house/2026/autumn.practice", "--from", "2027-02-30", "--to", "2027-03-01"], "“--from” takes a date"],
    [["house/2026/autumn.practice", "--from", "2027-03-02", "--to", "2027-03-01"], "ends before it begins"],
    [["house/players.practice", ...DAYS], "There is no term with dates in “house/players.practice”"],
    [["house/nothing.practice", ...DAYS], "There is no file or folder of this name."],
    [["house/2026/autumn.practice", ...DAYS, "--term", "Autum 2026"], "Did you mean “Autumn 2026”?"],
    [["house/2026/autumn.practice", ...DAYS, "--closed", "half-term"], "“--closed” takes days such as"],
    [["house/2026/autumn.practice", ...DAYS, "--light", "2027-09-09 to 2027-09-08"], "“--light” takes days"],
  ])("%j is misuse", (words, message) => {
    const { code, out, err } = folder.run(["carry", ...words]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(message);
  });

  test("says where a new file cannot be written", () => {
    const { code, err } = folder.run([
      "carry",
      "house/2026/autumn.practice",
      ...DAYS,
      "--out",
      "no/such.practice",
    ]);
    expect(code).toBe(1);
    expect(err).toContain("There is no folder");
  });
});
