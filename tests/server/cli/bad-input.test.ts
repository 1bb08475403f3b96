import { execFileSync } from "node:child_process";
import { symlinkSync, truncateSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { Folder, SMALL } from "./command";

let folder: Folder;
afterEach(() => folder.remove());

/** Checks the folder and expects no trace of a crash; gives what was printed. */
function checked(): { out: string; code: number | null } {
  const { out, err, code } = folder.run(["check", "."]);
  expect(err).toBe("");
  expect(out).not.toMatch(/\bat .+:\d+:\d+\)?$/m);
  expect(code === 0 || code === 1).toBe(true);
  return { out, code };
}

/** A file that is wrong beside one that is right: the right one must still be counted. */
function beside(name: string, content: string | Uint8Array): string {
  folder = new Folder({ "good.practice": SMALL, [name]: content });
  const { out } = checked();
  expect(out).toMatch(/in 2 files; \d+ terms?,/);
  return out;
}

const exercise = (name: string, lines: string): string =>
  `area "Tones"\nexercise "${name}" {\n  in "Tones"\n  key C major\n  meter 4/4\n${lines}\n}\n`;
const MUSIC = "  music { 1/1 C4 | }";

describe("files that are no plans", () => {
  test("an empty file is told of", () => {
    expect(beside("empty.practice", "")).toContain("empty.practice:1:1: note file-empty");
  });

  test("a binary file", () => {
    const out = beside("bin.practice", new Uint8Array([0x7f, 0x45, 0x4c, 0x46, 0, 0, 1]));
    expect(out).toContain("bin.practice:1:1: error file-not-text: This is not a text file.");
  });

  test("text that is not UTF-8", () => {
    const out = beside("latin.practice", Buffer.from('area "Töne"\n', "latin1"));
    expect(out).toContain("latin.practice:1:1: error file-not-text: This file is not written in UTF-8.");
  });

  test("50 MB get a finding, not a wait", () => {
    folder = new Folder({ "good.practice": SMALL, "huge.practice": "" });
    truncateSync(join(folder.path, "huge.practice"), 50_000_000);
    const start = performance.now();
    const { out, code } = checked();
    expect(performance.now() - start).toBeLessThan(10_000);
    expect(out).toContain("huge.practice:1:1: error file-too-large: This file is 50.0 MB");
    expect(code).toBe(1);
  });

  test("a pipe is not waited for", () => {
    folder = new Folder({ "good.practice": SMALL });
    execFileSync("mkfifo", [join(folder.path, "pipe.practice")]);
    expect(checked().out).toContain("pipe.practice:1:1: error file-unreadable");
  });

  test("a link that leads nowhere, and one that leads to itself", () => {
    folder = new Folder({ "good.practice": SMALL });
    symlinkSync("gone.practice", join(folder.path, "dangling.practice"));
    symlinkSync("self.practice", join(folder.path, "self.practice"));
    const { out } = checked();
    expect(out).toContain("dangling.practice:1:1: error file-unreadable: There is no file");
    expect(out).toContain("self.practice:1:1: error file-unreadable: This link leads back to itself.");
  });

  test("a folder linked into itself is walked once, and a linked file is checked once", () => {
    folder = new Folder({ "year/good.practice": SMALL });
    symlinkSync("..", join(folder.path, "year/up"));
    symlinkSync("good.practice", join(folder.path, "year/link.practice"));
    expect(checked().out).toMatch(/in 1 file; 1 term/);
  });

  test("a name that is not there", () => {
    folder = new Folder();
    const { out, code } = folder.run(["check", "nosuch.practice"]);
    expect(out).toContain("nosuch.practice:1:1: error file-unreadable: There is no file or folder");
    expect(code).toBe(1);
  });
});

describe("text that cannot be meant", () => {
  test("braces 100,000 deep", () => {
    const out = beside("deep.practice", exercise("Deep", `  music { ${"{".repeat(100_000)} }`));
    expect(out).toContain("error too-deep");
    // The long line is cut, not poured out.
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThan(400);
  });

  test("slurs 100,000 deep: the same thing is not said over and over", () => {
    const out = beside("deep.practice", exercise("Deep", `  music { ${"(".repeat(100_000)} }`));
    expect(out).toMatch(/^deep\.practice:6:\d+: error/m);
    expect(out.split("\n").length).toBeLessThan(60);
  });

  test("the year 0 and 31 February", () => {
    folder = new Folder({
      "zero.practice": SMALL.replace("from 2026-09-07", "from 0000-09-07"),
      "feb/feb.practice": SMALL.replace("2026-09-07 to 2026-09-19", "2026-02-02 to 2026-02-31"),
    });
    const { out, code } = checked();
    expect(out).toMatch(/zero\.practice:\d+:\d+: error impossible-date/);
    expect(out).toMatch(/feb\.practice:\d+:\d+: error impossible-date/);
    expect(code).toBe(1);
  });

  test("a tempo of 0", () => {
    expect(beside("slow.practice", exercise("Slow", `  tempo 1/4 = 0\n${MUSIC}`))).toMatch(
      /slow\.practice:6:\d+: error out-of-bounds/,
    );
  });

  test("a range upside down", () => {
    const out = beside("range.practice", 'level "L" {\n  range A5 to G3\n}\n');
    expect(out).toMatch(/range\.practice:2:\d+: error upside-down/);
  });

  test("a walk that can never end", () => {
    folder = new Folder({ "a.practice": SMALL.replace("by half step to E", "by whole step to F") });
    expect(checked().out).toMatch(/a\.practice:\d+:\d+: (error|warning) walk-unreachable/);
  });

  test("control characters in a name never reach the terminal", () => {
    const out = beside("bell.practice", exercise("Be\u0007ll\u001b[31m", MUSIC));
    expect(out).toContain("odd-letter");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the very letters that must not be there.
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });

  test("half-typed text, CR LF and a byte order mark", () => {
    const text = `\ufeff${SMALL}\nexercise "Half`.replaceAll("\n", "\r\n");
    folder = new Folder({ "half.practice": text });
    const { out } = checked();
    expect(out).toMatch(/half\.practice:3\d:\d+: error unreadable/);
    expect(out).toMatch(/1 term/);
  });
});

describe("files that use each other", () => {
  test("a missing file, with the nearest name", () => {
    folder = new Folder({ "book.practice": 'area "Tones"\n', "a.practice": 'use "bok.practice"\n' });
    const { out, code } = checked();
    expect(out).toContain(
      "a.practice:1:5: error use-missing: There is no file “bok.practice”. Did you mean “book.practice”?",
    );
    expect(out).toContain('  1 | use "bok.practice"\n    |     ^^^^^^^^^^^^^^');
    expect(code).toBe(1);
  });

  test("a circle is harmless, and said", () => {
    folder = new Folder({
      "a.practice": 'use "b.practice"\narea "A"\n',
      "b.practice": 'use "c.practice"\narea "B"\n',
      "c.practice": 'use "a.practice"\narea "C"\n',
      "self.practice": 'use "self.practice"\n',
    });
    const { out, code } = checked();
    expect(out.match(/note use-circle/g)).toHaveLength(3);
    expect(out).toContain("self.practice:1:5: warning use-circle");
    expect(code).toBe(0);
  });

  test("capitals that differ from the file's name", () => {
    folder = new Folder({ "Book.practice": 'area "Tones"\n', "a.practice": 'use "book.practice"\n' });
    const { out } = checked();
    expect(out).toContain("a.practice:1:5: warning use-case: The file is called “Book.practice”");
  });

  test("an accent that the disk writes as a sign of its own is no other name", () => {
    folder = new Folder({
      ["Études/Gehör.practice".normalize("NFD")]: 'area "Tones"\n',
      "a.practice": 'use "Études/Gehör.practice"\nexercise "E" {\n  in "Tones"\n}\n',
    });
    const { out } = folder.run(["check", "a.practice"]);
    expect(out).toContain("a.practice:2:");
    expect(out).not.toMatch(/use-missing|use-case|unknown-name/);
  });

  test("two files whose names differ only in capitals", () => {
    folder = new Folder({
      "Book.practice": 'area "A"\n',
      "book.practice": 'area "B"\n',
      "a.practice": 'use "book.practice"\n',
    });
    expect(checked().out).toContain("use-case: “Book.practice” lies beside “book.practice”");
  });

  test("a file used twice, once through a link", () => {
    folder = new Folder({
      "book.practice": 'area "A"\n',
      "a.practice": 'use "book.practice"\nuse "link.practice"\n',
    });
    symlinkSync("book.practice", join(folder.path, "link.practice"));
    expect(checked().out).toMatch(/a\.practice:2:5: \w+ use-twice/);
  });

  test("two files that declare one name", () => {
    folder = new Folder({
      "book.practice": exercise("Fifths", MUSIC),
      "a.practice": `use "book.practice"\n${SMALL.replace('area "Tones"\n', "")}`,
    });
    const { out } = checked();
    expect(out).toMatch(/a\.practice:\d+:\d+: error duplicate-name/);
    expect(out).toMatch(/book\.practice:2:10: /);
  });

  test("a used file that cannot be read", () => {
    folder = new Folder({ "b.practice": new Uint8Array([0]), "a.practice": 'use "b.practice"\n' });
    const { out } = checked();
    expect(out).toContain("a.practice:1:5: error use-missing: “b.practice” cannot be used.");
  });
});
