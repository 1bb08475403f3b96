import { describe, expect, test } from "vitest";
import { prepareRename, rename } from "../../../server/features/rename";
import { asWindows, drawnRanges, edited, markedLines, opened, PLACES } from "./opened";
import { cursorIn, SMALL_STUDIO } from "./small-studio";

/** Every file after a rename, or why it was refused. */
function renamed(
  picture: string,
  name: string,
  change?: (text: string) => string,
): string | Map<string, string> {
  const studio = opened(picture, change);
  const result = rename(studio.checked, studio.path, studio.position, name, PLACES);
  if ("refused" in result) return result.refused;
  const changes = result.edit.changes ?? {};
  return new Map(
    studio.checked.files.map((file) => [file.path, edited(file, changes[PLACES.uriOf(file.path)] ?? [])]),
  );
}

/** The one file of a picture after a rename. */
function one(picture: string, name: string): string | undefined {
  const result = renamed(picture, name);
  return typeof result === "string" ? result : result.get("plan.practice");
}

function texts(picture: string): Map<string, string> {
  return new Map(opened(picture).checked.files.map(({ path, text }) => [path, text]));
}

describe("rename", () => {
  test.each([undefined, asWindows])(
    "an exercise in all files; aims and sessions that sound alike stay",
    (change) => {
      const after = renamed(cursorIn("2026/autumn.practice", '"Slow fif', 3), "Slow sixths", change);
      const wanted = new Map(
        [...texts(SMALL_STUDIO)].map(([path, text]) => [
          path,
          text
            .replaceAll('"Slow fifths"', '"Slow sixths"')
            .replace('Fri "Slow sixths"', 'Fri "Slow fifths"')
            .replace('aim "Slow sixths"', 'aim "Slow fifths"'),
        ]),
      );
      if (change !== undefined) for (const [path, text] of wanted) wanted.set(path, change(text));
      expect(after).toEqual(wanted);
    },
  );

  test("a term of one year, and not its namesake of the other", () => {
    const after = renamed(cursorIn("2026/record.practice", 'of "Aut'), "Autumn leaves");
    const before = texts(SMALL_STUDIO);
    expect(after).toEqual(
      new Map(
        [...before].map(([path, text]) => [
          path,
          path.startsWith("2026") ? text.replace(/(term|record of) "Autumn"/, '$1 "Autumn leaves"') : text,
        ]),
      ),
    );
  });

  test("a term may be called as one of another year is", () => {
    const picture = cursorIn("2026/autumn.practice", 'term "Au').replace(
      "--- 2025/autumn.practice\n",
      "--- 2025/spring.practice\n",
    );
    expect(
      renamed(picture.replace('term "Autumn" for "Seniors" {', 'term "Spring" for "Seniors" {'), "Spring"),
    ).toBeInstanceOf(Map);
  });

  test("each kind of thing, from where it is asked for", () => {
    expect(one('area "Flow"\nexercise "A" { in "Fl‸ow" }\n', "Song")).toBe(
      'area "Song"\nexercise "A" { in "Song" }\n',
    );
    expect(one('routine "R" { }\nterm "T" for "S" { weeks 1 { Mon routine "‸R" } }\n', "Q")).toBe(
      'routine "Q" { }\nterm "T" for "S" { weeks 1 { Mon routine "Q" } }\n',
    );
    expect(one('level "S"\nstudent "T" like "S‸"\nterm "U" for "T", "S" { change "S" { } }\n', "V")).toBe(
      'level "V"\nstudent "T" like "V"\nterm "U" for "T", "V" { change "V" { } }\n',
    );
    expect(one('studio "Salt‸marsh"\n', "Harbour")).toBe('studio "Harbour"\n');
  });

  test("of two that bear one name: the first with all that means it, the second alone", () => {
    const rest = 'routine "R" { "A" once }\n';
    expect(one(`exercise "A‸" { }\nexercise "A" { }\n${rest}`, "B")).toBe(
      'exercise "B" { }\nexercise "A" { }\nroutine "R" { "B" once }\n',
    );
    expect(one(`exercise "A" { }\nexercise "A‸" { }\n${rest}`, "B")).toBe(
      `exercise "A" { }\nexercise "B" { }\n${rest}`,
    );
  });

  test("quotes stay as they are", () => {
    expect(one('exercise “A” { }\nroutine „R“ { "A‸" }\n', "B")).toBe(
      'exercise “B” { }\nroutine „R“ { "B" }\n',
    );
  });

  test("letters beyond the basic plane, before and in the names", () => {
    expect(one('exercise "🎺 𝄞" { }\nroutine "R" { "🎺‸ 𝄞" once }\n', "🎵 song")).toBe(
      'exercise "🎵 song" { }\nroutine "R" { "🎵 song" once }\n',
    );
  });

  test("lines that cannot be read yet are changed with the others", () => {
    const text =
      'exercise "A‸"\nroutine "R" {\n  "A" keys \n  "A" once\n}\nterm "T" for {\n weeks 1 {\n Mon {\n "A"\n}\n}\n}\n';
    expect(one(text, "B")).toBe(text.replace("‸", "").replaceAll('"A"', '"B"'));
  });

  test("the same name again changes nothing, and spaces around it are no part of it", () => {
    const text = 'exercise "A‸" { }\n';
    expect(one(text, " A ")).toBe('exercise "A" { }\n');
    expect(one(text, " B ")).toBe('exercise "B" { }\n');
  });

  test.each([
    ["", "A name needs at least one letter."],
    ["  ", "A name needs at least one letter."],
    ['a "b"', "A name cannot hold quotation marks."],
    ["“b”", "A name cannot hold quotation marks."],
    ["a {b}", "A name cannot hold braces."],
    ["a\nb", "A name must stand on one line."],
    ["a\r\nb", "A name must stand on one line."],
    ["a\u200bb", "This name holds a sign that cannot be seen. Type it anew."],
    ["a\u0007b", "This name holds a sign that cannot be seen. Type it anew."],
  ])("refuses %j", (name, message) => {
    expect(one('exercise "A‸" { }\n', name)).toBe(message);
  });

  test("refuses a name of that kind that is in sight wherever this thing is", () => {
    expect(renamed(cursorIn("book.practice", 'exercise "Sl'), "Slow fifths, tongued")).toBe(
      "There already is an exercise “Slow fifths, tongued”. Nobody could tell which of the two is meant.",
    );
    // Only the term's file sees both.
    const clash =
      '--- a.practice\nlevel "‸A"\n--- b.practice\nstudent "B"\n--- c.practice\nuse "a.practice"\nuse "b.practice"\n';
    expect(renamed(clash, "B")).toBe(
      "There already is a student “B”. Nobody could tell which of the two is meant.",
    );
    expect(renamed(clash.replace('use "b.practice"\n', ""), "B")).toBeInstanceOf(Map);
    // An area may be called as an exercise is.
    expect(one('area "A‸"\nexercise "B" { in "A" }\n', "B")).toBe('area "B"\nexercise "B" { in "B" }\n');
  });

  test("refuses what is no name, in words", () => {
    const only =
      /^Only the name of an area, exercise, routine, level, student, term or studio can be changed/;
    expect(one("‸", "B")).toMatch(only);
    expect(one('exer‸cise "A"\n', "B")).toMatch(only);
    expect(one('exercise "A" { aim "so‸ft" }\n', "B")).toMatch(only);
    expect(one('exercise "A" { in "Nowh‸ere" }\n', "B")).toBe(
      "There is no area “Nowhere” here, so there is nothing to rename.",
    );
    expect(one('use "bo‸ok.practice"\n', "B")).toBe(
      "This is the name of a file. Rename the file itself, then write its new name here.",
    );
    const { checked, position } = opened("");
    expect(rename(checked, "elsewhere.practice", position, "B", PLACES)).toHaveProperty("refused");
  });
});

describe("prepare rename", () => {
  test.each([
    ['exercise "A‸ b" { }\n', 'exercise "⟦A b⟧" { }'],
    ['exercise ‸"A b" { }\n', 'exercise "⟦A b⟧" { }'],
    ["exercise “A b‸” { }\n", "exercise “⟦A b⟧” { }"],
    ['exercise "‸A b\n', 'exercise "⟦A b⟧'],
  ])("offers what stands between the quotes: %s", (picture, line) => {
    const studio = opened(picture);
    const found = prepareRename(studio.checked, studio.path, studio.position);
    if ("refused" in found) throw new Error(found.refused);
    expect(found.placeholder).toBe("A b");
    expect(markedLines(drawnRanges(studio.file(studio.path), [found.range]))).toEqual([line]);
  });

  test("says why not where there is nothing", () => {
    const studio = opened('exercise "A" { te‸mpo 1/4 = 60 }\n');
    expect(prepareRename(studio.checked, studio.path, studio.position)).toHaveProperty("refused");
  });
});
