import { describe, expect, it } from "vitest";
import { type CompletionItem, CompletionItemKind, InsertTextFormat } from "vscode-languageserver-types";
import { readSource } from "../../../grammar/pieces";
import { FIRST_WORDS } from "../../../grammar/statements";
import { COMPLETION_TRIGGERS, completionAt } from "../../../server/features/completion";
import { resolvedCompletion } from "../../../server/features/completion-resolve";
import { FORMS, filledForm } from "../../../server/features/snippets";
import { drawnPlan, edited } from "./write-fixture";
import { studio, studioWith } from "./writing-studio";

const CAN = { snippets: true, markdown: true };

function completed(picture: string, can = CAN, lineEnd = "\n", trigger?: string) {
  const { checked, path, file, position } = drawnPlan(picture, lineEnd);
  const { items } = completionAt(checked, path, position, can, trigger);
  const inserted = (label: string): string => {
    const item = items.find((each) => each.label === label);
    if (item?.textEdit === undefined || !("range" in item.textEdit))
      throw new Error(`nothing called ${label}`);
    const text = edited(file, [item.textEdit]);
    return text.split(/\r?\n/)[position.line] ?? "";
  };
  const detail = (label: string): string | undefined => items.find((each) => each.label === label)?.detail;
  return { checked, items, labels: items.map(({ label }) => label), inserted, detail };
}

describe("the start of a line", () => {
  it("offers declarations at the margin, as forms where the editor fills them in", () => {
    const { items, inserted } = completed("are‸");
    const area = items.find(({ label }) => label === "area");
    expect(area?.insertTextFormat).toBe(InsertTextFormat.Snippet);
    expect(area?.detail).toBe("an area of the daily basics");
    expect(filledForm(inserted("area"))).toBe('area "Long tones"');
  });

  it("fills forms with the names and days of the plan", () => {
    const form = (picture: string, label: string) => {
      const edit = completed(picture).items.find((each) => each.label === label)?.textEdit;
      return filledForm(edit?.newText ?? "");
    };
    expect(form(studioWith("  ‸"), "closed")).toBe('closed 2026-09-07 to 2026-09-07 "half-term"');
    expect(form(studioWith("  ‸"), "change")).toMatch(/^change "K\. M\." \{/);
    expect(form('exe‸\n\narea "Tone & time"\n', "exercise")).toContain('in        "Tone & time"');
    expect(form('term "A‸"\n\nlevel "Beginners"\n'.replace('term "A‸"', "ter‸"), "term")).toContain(
      'for "Beginners" {',
    );
  });

  it("offers the words alone where it does not", () => {
    const { items, inserted } = completed("are‸", { snippets: false, markdown: false });
    expect(items.every(({ insertTextFormat }) => insertTextFormat === undefined)).toBe(true);
    expect(inserted("area")).toBe("area");
    expect(inserted("record of")).toBe("record of");
  });

  it("says once what all have in common where the editor can take that, and means the same", () => {
    for (const picture of ["are‸", studio('"‸'), studio('"Slow‸')]) {
      const { items: each } = completed(picture);
      const { checked, path, position } = drawnPlan(picture);
      const { items, itemDefaults } = completionAt(checked, path, position, { ...CAN, shared: true });
      const edits = items.map(({ label, textEditText }) => ({
        range: itemDefaults?.editRange,
        newText: textEditText ?? label,
      }));
      expect(edits).toEqual(each.map(({ textEdit }) => textEdit));
      expect(items.every(({ textEdit }) => textEdit === undefined)).toBe(true);
      const more = (item: CompletionItem) => resolvedCompletion(checked, item, CAN).documentation;
      const whole = items.map((item) => ({ ...item, data: item.data ?? itemDefaults?.data }));
      expect(whole.map(more)).toEqual(each.map(more));
    }
  });

  it("offers what can stand in the block around, and nothing else", () => {
    const { labels } = completed(studioWith("  ‸"));
    expect(labels).toContain("weeks");
    expect(labels).toContain("closed");
    expect(labels).not.toContain("meter");
    const exercise = completed('exercise "New" {\n  ‸\n}').labels;
    expect(exercise).toContain("meter");
    expect(exercise).not.toContain("weeks");
  });

  it("offers days and days of the week in a block of weeks", () => {
    expect(completed(studioWith("  week 1 {\n    ‸\n  }")).labels).toEqual([
      "Mon to Fri",
      "every day",
      "on",
      "aim",
      "let",
      ...["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
    ]);
  });

  it("has a form for every word that can begin a line, and each can be read where it belongs", () => {
    for (const [kind, words] of Object.entries(FIRST_WORDS)) {
      const forms = Object.entries(FORMS).find(([each]) => each === kind)?.[1] ?? [];
      const begun = new Set(forms.map((form) => form.words.split(" ")[0]));
      for (const word of words) {
        // Days begin sessions under many names, and a record's line may begin with a date.
        if (!/^(?:Mon|every|week|weeks|on|lesson|booked|short)$/.test(word))
          expect([kind, ...begun]).toContain(word);
      }
    }
    const around: Readonly<Record<string, readonly [string, string]>> = {
      file: ["", ""],
      area: ['area "A" {', "}"],
      studio: ["studio {", "}"],
      exercise: ['exercise "E" {', "}"],
      player: ['level "L" {', "}"],
      budget: ['level "L" { each day {', "} }"],
      term: ['term "T" for "L" {', "}"],
      asks: ['term "T" for "L" { lesson every Tue {', "} }"],
      weeks: ['term "T" for "L" {\nweek 1 {', "}\n}"],
      session: ['routine "R" {', "}"],
      assignment: ['routine "R" {\n"E" once {', "}\n}"],
      change: ['term "T" for "L" {\nchange "S" {', "}\n}"],
      record: ['record of "T" {', "}"],
    };
    for (const [kind, forms] of Object.entries(FORMS)) {
      const [before, after] = around[kind] ?? ["", ""];
      for (const { form } of forms) {
        const text = `${before}\n${filledForm(form)}\n${after}\n`;
        const problems = readSource(text).pieces.flatMap((piece) => piece.problems);
        expect(problems, text).toEqual([]);
      }
    }
  });
});

describe("names", () => {
  it("offers exercises with area and range, those of the session already last", () => {
    const { labels, detail } = completed(studio('"Slow fifths"  once', '"‸'));
    expect(labels.slice(0, 3)).toEqual(["Étude in thirds", "Gates", "Slow fifths"]);
    expect(detail("Étude in thirds")).toBe("Flow · G4 to A5");
    expect(detail("Slow fifths")).toBe("Long tones · C4 to C5 · in this session already");
  });

  it("takes the place of a half-typed name and of the quote that closes it", () => {
    expect(completed(studio('"Slo‸')).inserted("Slow fifths")).toBe('      "Slow fifths"');
    expect(completed(studio('"Slo‸"  in C')).inserted("Slow fifths")).toBe('      "Slow fifths"  in C');
    expect(completed(studio('"‸Gates"  once')).inserted("Slow fifths")).toBe('      "Slow fifths"  once');
    expect(completed(studio("Slo‸")).inserted("Slow fifths")).toBe('      "Slow fifths"');
  });

  it("leaves the next name of the line alone when the first is not closed", () => {
    const picture = studioWith('  change "K. M." {\n    replace "Slo‸ with "Gates"\n  }');
    expect(completed(picture).inserted("Slow fifths")).toBe('    replace "Slow fifths" with "Gates"');
  });

  it("finds names without their accents, unless accents are typed", () => {
    const plain = completed(studio('"Et‸')).items.find(({ label }) => label === "Étude in thirds");
    expect(plain?.filterText).toBe('"Etude in thirds');
    const accented = completed(studio('"Ét‸')).items.find(({ label }) => label === "Étude in thirds");
    expect(accented?.filterText).toBe('"Étude in thirds');
  });

  it("keeps the quote that was typed in what the letters are held against", () => {
    const curly = completed(studio("“Slo‸")).items.find(({ label }) => label === "Slow fifths");
    expect(curly?.filterText).toBe("“Slow fifths");
  });

  it("offers areas behind `in`, players behind `for` and `like`, students first behind `change`", () => {
    const area = completed(`exercise "New" {\n  in ‸\n}\narea "Flow"\n`);
    expect(area.labels).toEqual(["Flow"]);
    expect(area.inserted("Flow")).toBe('  in "Flow"');
    expect(completed('level "Seniors"\nstudent "K. M." like ‸').labels).toContain("Seniors");
    const { labels } = completed(studioWith("  change ‸"));
    expect(labels).toEqual(["K. M.", "Seniors"]);
  });

  it("offers the other files behind `use`, each as this one would name it", () => {
    const { labels, inserted } = completed(
      '--- terms/autumn.practice\nuse "‸"\n--- book.practice\narea "A"\n',
    );
    expect(labels).toEqual(["../book.practice"]);
    expect(inserted("../book.practice")).toBe('use "../book.practice"');
  });

  it("offers routines where one is called up", () => {
    const picture = `routine "Basics" 10 min {\n}\n${"term"} "T" for "L" {\n  from 2026-09-07 to 2026-09-12\n  week 1 {\n    Mon "Morning" routine ‸\n  }\n}\n`;
    expect(completed(picture).labels).toEqual(["Basics"]);
  });
});

describe("what an assignment asks", () => {
  it("offers keys that fit the players first, each with its highest note", () => {
    const { labels, detail, inserted } = completed(studio('"Étude in thirds"  in ‸'));
    expect(labels).toHaveLength(12);
    expect(labels[0]).toBe("G");
    expect(detail("G")).toBe("home, up to A5 (A above the staff) · comfortable");
    expect(detail("A♭")).toBe("up to B♭5 (high B♭) · within the limit for Seniors");
    expect(detail("C")).toBe("up to D6 (high D) · too far for Seniors");
    expect(labels.indexOf("A♭")).toBeGreaterThan(labels.indexOf("D"));
    expect(labels.indexOf("C")).toBeGreaterThan(labels.indexOf("A♭"));
    expect(inserted("A♭")).toContain("in Ab");
  });

  it("offers each key of a list once", () => {
    const { labels } = completed(studio('"Slow fifths"  keys C, G, ‸'));
    expect(labels).not.toContain("C");
    expect(labels).not.toContain("G");
    expect(labels).toHaveLength(10);
  });

  it("offers the ends that a walk reaches, with the note they reach up to", () => {
    const { labels, detail } = completed(studio('"Slow fifths"  keys C up by whole step to ‸'));
    expect(labels).toEqual(["D", "E", "F♯", "A♭", "B♭", "C"]);
    expect(detail("C")).toBe("up to C6 (high C) · too far for K. M.");
  });

  it("offers the exercise's own tempo, and how fast the tongue can follow", () => {
    const { labels, detail } = completed(studio('"Étude in thirds"  tempo ‸'));
    expect(labels[0]).toBe("80");
    expect(detail("80")).toBe("the exercise's own, quarter to the minute");
    expect(detail("105")).toBe("as fast as the tongue of Seniors can");
    expect(labels).toContain("80 to 88");
  });

  it("offers clauses that are not there yet and that the exercise can have", () => {
    const { labels } = completed(studio('"Slow fifths"  in C  ‸'));
    expect(labels).toContain("tempo");
    expect(labels).toContain("twice");
    expect(labels).not.toContain("in");
    expect(labels).not.toContain("keys");
    expect(labels).not.toContain("valves");
    const partials = completed(studio('"Gates"  twice  ‸')).labels;
    expect(partials).toContain("valves");
    expect(partials).not.toContain("keys");
    expect(partials).not.toContain("once");
  });

  it("takes the place of the word the cursor is in, and leaves a word it stands in front of", () => {
    expect(completed(studio('"Slow fifths"  on‸ce')).inserted("twice")).toBe('      "Slow fifths"  twice');
    expect(completed(studio('"Slow fifths"  ‸once')).inserted("drop when tired")).toContain("tiredonce");
  });

  it("goes on where a clause breaks off", () => {
    expect(completed(studio('"Slow fifths"  for ‸')).labels).toContain("4 min");
    expect(completed(studio('"Slow fifths"  3 ‸')).labels).toEqual(["times"]);
    expect(completed(studio('"Slow fifths"  drop ‸')).labels).toEqual(["when tired"]);
    expect(completed(studio('"Slow fifths"  keys C up ‸')).labels).toContain("by half step");
    expect(completed(studio('"Slow fifths"  once { let ‸ }')).labels).toContain("day-upper");
  });
});

describe("lines that begin with more than one word", () => {
  it("go on as the form has them", () => {
    expect(completed("studio {\n  horn ‸\n}").labels).toEqual(["down 15 s"]);
    expect(completed("studio {\n  horn down ‸\n}").labels).toEqual(["15 s"]);
    expect(completed("studio {\n  aim ‸\n}").labels).toEqual([]);
    expect(completed(studioWith("  back ‸")).labels).toEqual([]);
  });
});

describe("the record", () => {
  const record = (line: string): string => studioWith("").concat(`\nrecord of "Autumn" {\n  ${line}\n}\n`);

  it("offers weeks, players, exercises and the keys of the exercise of the line", () => {
    expect(completed(record("week ‸")).labels).toEqual(["1", "2", "3"]);
    expect(completed(record("week 1 ‸")).labels).toEqual(["K. M.", "Seniors"]);
    expect(completed(record('2026-09-08 "K. M." passed ‸')).labels).toContain("Slow fifths");
    const { labels, detail } = completed(record('2026-09-08 "K. M." passed "Slow fifths" in ‸'));
    expect(labels[0]).toBe("C");
    expect(detail("C")).toContain("up to C5");
    expect(completed(record('week 1 "K. M." ‸')).labels).toContain("missed");
  });
});

describe("the calendar", () => {
  it("offers days of the term that are not closed, all of them once the month is typed", () => {
    const { labels, detail } = completed(studioWith("  concert ‸"));
    expect(labels).toEqual(["2026-09-07", "2026-09-14", "2026-09-21", "2026-09-26"]);
    expect(detail("2026-09-14")).toBe("Monday, week 2");
    const typed = completed(studioWith("  concert 2026-09-1‸"));
    expect(typed.labels).toContain("2026-09-15");
    expect(typed.labels).not.toContain("2026-09-16");
    expect(typed.inserted("2026-09-15")).toBe("  concert 2026-09-15");
  });

  it("offers no day before the one a stretch begins on", () => {
    const { labels } = completed(studioWith("  light 2026-09-15 to ‸"));
    expect(labels[0]).toBe("2026-09-18");
    expect(labels.every((label) => label >= "2026-09-15")).toBe(true);
  });

  it("offers taught weeks with their dates, those without a plan first", () => {
    const { labels, detail } = completed(studioWith("  weeks 1 {\n  }\n  weeks ‸"));
    expect(labels).toEqual(["2", "3", "1"]);
    expect(detail("2")).toBe("14 Sep to 20 Sep");
    expect(detail("1")).toBe("7 Sep to 13 Sep, planned already");
  });
});

describe("half-typed and foreign text", () => {
  it("knows its block by the indentation where a brace is missing above", () => {
    const picture = studioWith("  lesson every Tue {\n    clock 30 min\n  ‸");
    expect(completed(picture).labels).toContain("weeks");
  });

  it("keeps silent in comments, in free names and where the block is unknown", () => {
    expect(completed("# are‸").labels).toEqual([]);
    expect(completed('area "‸').labels).toEqual([]);
    expect(completed("nonsense {\n  ‸\n}").labels).toEqual([]);
  });

  it("answers for files with Windows line ends, and for files that are not there", () => {
    expect(completed(studio('"Slo‸"  in C'), CAN, "\r\n").inserted("Slow fifths")).toBe(
      '      "Slow fifths"  in C',
    );
    const { checked } = completed(studio("‸"));
    expect(completionAt(checked, "elsewhere.practice", { line: 0, character: 0 }, CAN).items).toEqual([]);
  });

  it("keeps still where the editor asks by itself and nothing must come next", () => {
    const typed = (sign: string, line: string) => completed(studio(line), CAN, "\n", sign).labels.length > 0;
    expect(typed(" ", '"Slow fifths"  in ‸')).toBe(true);
    expect(typed(" ", '"Slow fifths"  keys C up by ‸')).toBe(true);
    expect(typed(" ", '"Slow fifths"  in C ‸')).toBe(false);
    expect(typed(" ", '"Slow fifths"  tempo 60 ‸')).toBe(false);
    expect(typed(" ", " ‸")).toBe(false);
    expect(typed('"', '"‸')).toBe(true);
    expect(typed('"', '"Slow fifths"‸')).toBe(false);
    expect(completed('exercise "New" {\n  music { C4 ‸ }\n}', CAN, "\n", " ").labels).toEqual([]);
  });

  it("offers nothing where a word would stick to a name", () => {
    expect(completed(studio('"Slow fifths"‸')).labels).toEqual([]);
  });

  it("keeps the order of what it offers in the letters editors sort by", () => {
    const { items } = completed(studio("‸"));
    const texts = items.map(({ sortText }) => sortText ?? "");
    expect(texts).toEqual(texts.toSorted());
    expect(new Set(texts).size).toBe(texts.length);
  });

  it("names signs to ask after that begin a name, a word or a path", () => {
    expect(COMPLETION_TRIGGERS).toContain('"');
  });
});

describe("inside music", () => {
  it("offers the notes of the key and what goes with them", () => {
    const picture =
      'exercise "New" {\n  in "A"\n  key D major\n  meter 4/4\n  tempo 1/4 = 60\n  music { 1/4 ‸ }\n}\narea "A"\n';
    const { labels, items } = completed(picture.replace("‸", "D4 ‸"));
    expect(labels).toContain("F#4");
    expect(labels).not.toContain("F4");
    expect(labels).toContain("fermata");
    expect(items.find(({ label }) => label === "F#4")?.detail).toBe("first-space F♯");
    expect(completed(picture.replace("‸", "D4 bend ‸")).labels).toContain("half step");
  });
});

describe("more about a proposal", () => {
  it("tells of an exercise when the reader stops at it", () => {
    const { checked, items } = completed(studio('"‸'));
    const item = items.find(({ label }) => label === "Slow fifths");
    if (item === undefined) throw new Error("no such proposal");
    expect(item.documentation).toBeUndefined();
    const { documentation } = resolvedCompletion(checked, item, { snippets: true, markdown: false });
    const text = typeof documentation === "object" ? documentation.value : documentation;
    expect(text).toContain("0:04 once through at half = 60: 4 half notes × 60 ÷ 60");
  });

  it("tells why a finding matters, and leaves what it does not know as it is", () => {
    const { checked, items } = completed(studio("let ‸"));
    const item = items.find(({ label }) => label === "day-upper");
    if (item === undefined) throw new Error("no such proposal");
    expect(JSON.stringify(resolvedCompletion(checked, item, CAN).documentation)).toContain("markdown");
    const other = { label: "other", kind: CompletionItemKind.Text, data: { about: "exercise", name: 3 } };
    expect(resolvedCompletion(checked, other, CAN)).toBe(other);
  });
});
