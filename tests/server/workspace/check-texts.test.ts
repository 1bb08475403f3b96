import { describe, expect, test } from "vitest";
import type { Checked } from "../../../server/workspace/check-sources";
import { foldersUp, relativePath, resolved } from "../../../server/workspace/paths";
import { checkTexts } from "../check-texts";

function checked(texts: Readonly<Record<string, string>>): Checked {
  return checkTexts(new Map(Object.entries(texts)));
}

function file(result: Checked, path: string) {
  const found = result.files.find((each) => each.path === path);
  if (found === undefined) throw new Error(`${path} was not checked`);
  return found;
}

const BOOK = `exercise "Fifths" {
  in "Tones"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 C4 G4 | 1/1 C4 ' | }
}
`;
const TERM = (book: string): string => `use "${book}"
level "Seniors" { range G3 to A5 }
term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-09-19
  lesson every Tue
  weeks 1 to 2 { Mon to Sat "Morning" { "Fifths" keys C, D, E when passed } }
}
`;

describe("files of one studio", () => {
  test("use is transitive, and the nearest studio file comes by itself", () => {
    const result = checked({
      "studio.practice": 'area "Not this one"\n',
      "year/studio.practice": 'area "Tones"\n',
      "year/lib/inner.practice": BOOK,
      "year/lib/outer.practice": 'use "inner.practice"\n',
      "year/autumn/term.practice": TERM("../lib/outer.practice"),
    });
    const { plan } = file(result, "year/autumn/term.practice");
    expect([...plan.areas.keys()]).toEqual(["Tones"]);
    expect([...plan.exercises.keys()]).toEqual(["Fifths"]);
    expect(plan.own.exercises).toHaveLength(0);
  });

  test("a record goes to the term it uses, and not to another of that name", () => {
    const record = `use "a/term.practice"\nrecord of "Autumn" {\n  2026-09-08 "Seniors" not passed "Fifths"\n}\n`;
    const result = checked({
      "studio.practice": 'area "Tones"\n',
      "book.practice": BOOK,
      "a/term.practice": TERM("../book.practice"),
      "b/term.practice": TERM("../book.practice"),
      "record.practice": record,
    });
    expect(file(result, "a/term.practice").plan.records).toHaveLength(1);
    expect(file(result, "b/term.practice").plan.records).toHaveLength(0);
  });

  test("what is wrong in a shared book is said once, in the book", () => {
    const result = checked({
      "studio.practice": 'area "Tones"\n',
      "book.practice": BOOK.replace("1/1 C4 '", "1/2 C4 '"),
      "a.practice": TERM("book.practice"),
      "b.practice": TERM("book.practice"),
    });
    const found = result.files.flatMap((each) =>
      each.findings.filter(({ code }) => code === "bar-length").map(() => each.path),
    );
    expect(found).toEqual(["book.practice"]);
  });

  test("every piece belongs to one file, from where it starts", () => {
    const result = checked({ "a.practice": 'area "A"\n\narea "B"\n', "b.practice": 'area "A"\n' });
    let pieces = 0;
    for (const { path, text, tree } of result.files) {
      for (const piece of tree.pieces) {
        pieces++;
        const home = result.homes.get(piece);
        expect(home?.file.path).toBe(path);
        const start = home?.start ?? -1;
        expect(text.slice(start, start + piece.text.length)).toBe(piece.text);
      }
    }
    expect(pieces).toBe(3);
    expect(result.homes.get({ ...result.files[0]!.tree.pieces[0]! })).toBeUndefined();
  });

  test("the studio's severities hold for files too", () => {
    const texts = { "a.practice": 'use "no.practice"\n' };
    expect(file(checked(texts), "a.practice").findings[0]?.severity).toBe("error");
    const eased = checked({ ...texts, "studio.practice": "studio {\n  finding use-missing note\n}\n" });
    expect(file(eased, "a.practice").findings.map((each) => each.severity)).toEqual(["note"]);
  });
});

describe("paths", () => {
  test.each([
    ["a/b", "../c.practice", "a/c.practice"],
    ["a", "./x/./c.practice", "a/x/c.practice"],
    ["", "../c.practice", "../c.practice"],
    ["/a", "../../../c.practice", "/c.practice"],
    ["/a/b", "/c.practice", "/c.practice"],
    ["/a/b", "x\\c.practice", "/a/b/x/c.practice"],
    ["//host/share/a", "../c.practice", "//host/share/c.practice"],
    ["//host/share/a", "/c.practice", "/c.practice"],
    ["c:/a", "../c.practice", "c:/c.practice"],
  ])("%s + %s", (folder, written, path) => {
    expect(resolved(folder, written)).toBe(path);
  });

  test("there and back", () => {
    expect(relativePath("/a/b", "/a/c/d.practice")).toBe("../c/d.practice");
    expect(relativePath("", "d.practice")).toBe("d.practice");
    expect(foldersUp("/a/b")).toEqual(["/a/b", "/a", "/"]);
    expect(foldersUp("a")).toEqual(["a", ""]);
  });
});
