import { describe, expect, it } from "vitest";
import type { CodeAction } from "vscode-languageserver-types";
import { CodeActionKind } from "vscode-languageserver-types";
import { codeActionsAt } from "../../../server/features/code-actions";
import type { Checked } from "../../../server/workspace/check-sources";
import { checkTexts } from "../check-texts";
import { drawnPlan, edited, PLACES } from "./write-fixture";
import { BOOK, studio, studioWith } from "./writing-studio";

const CAN = { relatedInformation: true, tags: true };

function acted(picture: string, ask: { only?: CodeActionKind[]; invoked?: boolean } = {}, lineEnd = "\n") {
  const drawn = drawnPlan(picture, lineEnd);
  const { checked, path, position } = drawn;
  const range = { start: position, end: position };
  const actions = codeActionsAt(checked, path, { range, invoked: true, ...ask }, CAN, PLACES);
  const texts = (action: CodeAction): ReadonlyMap<string, string> =>
    new Map(
      checked.files.map((file) => [
        file.path,
        edited(file, action.edit?.changes?.[PLACES.uriOf(file.path)] ?? []),
      ]),
    );
  const taken = (title: string | RegExp) => {
    const action = actions.find((each) =>
      typeof title === "string" ? each.title === title : title.test(each.title),
    );
    if (action === undefined)
      throw new Error(`no action ${title} among ${actions.map((each) => each.title)}`);
    const fresh = texts(action);
    return { action, text: fresh.get(path) ?? "", checked: checkTexts(fresh) };
  };
  return { ...drawn, actions, titles: actions.map(({ title }) => title), taken };
}

const codesIn = (checked: ReturnType<typeof checkTexts>): readonly string[] =>
  checked.files.flatMap(({ findings }) => findings.map(({ code }) => code));

describe("mends and fixes", () => {
  it("offers the mend that the text tells", () => {
    const { taken, actions } = acted(studio('"Slow fif‸hts"  once'));
    const { text, action } = taken(/Slow fifths/);
    expect(text).toContain('      "Slow fifths"  once');
    expect(action.isPreferred).toBe(true);
    expect(action.diagnostics?.[0]?.code).toBe("unknown-name");
    expect(actions[0]).toBe(action);
  });

  it("offers changes that were measured, each of which takes the finding away", () => {
    const { actions, checked, taken } = acted(studio('"Étude ‸in thirds"  in A  20 times'));
    const fixes = actions.filter(
      ({ diagnostics, title }) => diagnostics?.[0]?.code === "day-upper" && !title.startsWith("Let "),
    );
    expect(fixes.length).toBeGreaterThan(0);
    for (const fix of fixes) {
      expect(codesIn(taken(fix.title).checked)).not.toContain("day-upper");
    }
    expect(codesIn(checked)).toContain("day-upper");
  });

  it("acts on the findings that are known, where others are still being looked for", () => {
    const { checked, path, position } = drawnPlan(studio('"Slow fif‸hts"  once'));
    const ask = { range: { start: position, end: position }, invoked: true, only: [CodeActionKind.QuickFix] };
    expect(codeActionsAt(checked, path, ask, CAN, PLACES, [])).toEqual([]);
    const known = checked.files.find((file) => file.path === path)?.findings ?? [];
    expect(codeActionsAt(checked, path, ask, CAN, PLACES, known)).toEqual(
      codeActionsAt(checked, path, ask, CAN, PLACES),
    );
  });

  it("measures nothing while the cursor only passes by", () => {
    const { titles } = acted(studio('"Étude ‸in thirds"  in A  20 times'), { invoked: false });
    expect(titles.length).toBeGreaterThan(0);
    expect(titles.every((title) => title.startsWith("Let "))).toBe(true);
  });

  it("has nothing to offer where nothing is found", () => {
    expect(acted('‸area "A"\n', { only: [CodeActionKind.QuickFix] }).titles).toEqual([]);
    const { checked } = acted(studio("‸"));
    const start = { line: 0, character: 0 };
    const ask = { range: { start, end: start }, invoked: true };
    expect(codeActionsAt(checked, "elsewhere.practice", ask, CAN, PLACES)).toEqual([]);
  });

  it("gives the kinds that are asked for, and those below them", () => {
    const picture = studio('"Slow fif‸hts"  once');
    expect(acted(picture, { only: [CodeActionKind.Refactor] }).actions.map(({ kind }) => kind)).toEqual([
      "refactor.extract",
    ]);
    expect(acted(picture, { only: [CodeActionKind.Source] }).actions.map(({ kind }) => kind)).toEqual([
      "source.fixAll.leadpipe",
    ]);
    expect(acted(picture, { only: ["source.organizeImports"] }).actions).toEqual([]);
  });

  it("mends everything at once that the text alone tells", () => {
    const { taken } = acted(studio('"Slow fif‸hts"  once', '"Gtaes"  once', '"Étude in thirds"  onec'), {
      only: ["source.fixAll.leadpipe"],
    });
    const { text, checked } = taken(/^Mend everything/);
    expect(text).toContain('      "Slow fifths"  once\n      "Gates"  once\n      "Étude in thirds"  once');
    expect(codesIn(checked)).not.toContain("unknown-name");
    expect(codesIn(checked)).not.toContain("unreadable");
  });
});

describe("letting a finding stand", () => {
  const standing = (picture: string, code: string, lineEnd = "\n") => {
    const { taken, checked: before } = acted(picture, {}, lineEnd);
    const { text, checked } = taken(new RegExp(`^Let ${code} stand`));
    const left = (of: Checked): number =>
      of.files
        .flatMap(({ findings }) => findings)
        .filter((each) => each.code === code && each.standing === undefined).length;
    expect(left(checked)).toBe(left(before) - 1);
    expect(text.split('because "the reason"')).toHaveLength(2);
    expect(codesIn(checked)).not.toContain("unreadable");
    expect(codesIn(checked)).not.toContain("let-idle");
    return text;
  };

  it("writes it in braces behind an assignment", () => {
    expect(standing(studio('"Étude ‸in thirds"  in A  20 times'), "day-upper")).toContain(
      '"Étude in thirds"  in A  20 times { let day-upper stand because "the reason" }',
    );
  });

  it("writes it beside what the braces hold already, on one line or on several", () => {
    expect(standing(studio('"Étude ‸in thirds"  in A  20 times { aim "up" }'), "day-upper")).toContain(
      '{ aim "up"  let day-upper stand because "the reason" }',
    );
    expect(
      standing(studio('"Étude ‸in thirds"  in A  20 times {', '  aim "up"', "}"), "day-upper", "\r\n"),
    ).toContain('        aim "up"\r\n        let day-upper stand because "the reason"\r\n      }');
  });

  it("names the day where there is but one", () => {
    const picture = studioWith(
      '  week 1 {\n    Mon "Morning" {\n      "Étude ‸in thirds"  in A  20 times\n    }\n  }',
    );
    expect(standing(picture, "day-upper")).toContain("let day-upper stand on 2026-09-07 because");
  });

  it("writes it in the session, the term or the exercise that is meant", () => {
    const session = studioWith(
      '  week 1 {\n    Mon "Mor‸ning" 1 min {\n      "Slow fifths"  20 times\n    }\n  }',
    );
    expect(standing(session, "session-minutes")).toContain(
      '      "Slow fifths"  20 times\n      let session-minutes stand on 2026-09-07 because "the reason"\n    }',
    );
    const exercise = BOOK.replace('"Gates" {', '"Ga‸tes" {');
    const unused = studio('"Slow fifths"  once').replace(BOOK, exercise);
    expect(standing(unused, "unused-exercise")).toContain(
      '  let unused-exercise stand because "the reason"\n}',
    );
  });

  it("is not offered for what cannot be read, nor for what stands already", () => {
    expect(acted(studio('"Slow fifths"  on‸ec')).titles.some((title) => title.startsWith("Let "))).toBe(
      false,
    );
    const stands = studio('"Étude ‸in thirds"  in A  20 times { let day-upper stand because "so" }');
    expect(acted(stands).titles.some((title) => title.includes("day-upper"))).toBe(false);
  });
});

describe("a line that stands for nothing", () => {
  const LINE = "Take the line away";
  const gone = (picture: string): string => {
    const { text, checked } = acted(picture).taken(LINE);
    expect(codesIn(checked)).not.toContain("let-idle");
    expect(codesIn(checked)).not.toContain("unreadable");
    return text;
  };

  it("goes with the braces that hold nothing else", () => {
    const line = '"Slow fifths"  once { let day-up‸per stand because "old" }';
    expect(gone(studio(line))).toContain('      "Slow fifths"  once\n    }');
  });

  it("leaves what else stands in the braces, on one line or on several", () => {
    const inline = '"Slow fifths"  once { aim "even"  let day-up‸per stand because "old" }';
    expect(gone(studio(inline))).toContain('once { aim "even" }');
    const several = ['"Slow fifths"  once {', '  aim "even"', '  let day-up‸per stand because "old"', "}"];
    expect(gone(studio(...several))).toContain('once {\n        aim "even"\n      }');
  });
});

describe("music written another way", () => {
  const exercise = (lines: string, rest = "") =>
    `area "Flow"\nexercise "Line‸" {\n  in        "Flow"\n${lines}\n}\n${rest}`;
  const DEGREES = "Write the notes as scale degrees";
  const NOTES = "Write the degrees as notes";

  it("writes notes as degrees and back to the very same text", () => {
    const music = exercise(
      "  key       D major\n  meter     4/4\n  tempo     1/4 = 60\n  music     { 1/8 D4 (C#4 D4 F#4) triplet [ A4 G#4 A4 ] 1/4 D5 ' | Bb3 1/2. A3 | }",
    );
    const { taken } = acted(music);
    const { text } = taken(DEGREES);
    expect(text).toContain("  degrees from D4 { 1/8 1 (-7 1 3) triplet [ 5 #4 5 ] 1/4 8 ' | -b6 1/2. -5 | }");
    expect(acted(text.replace('"Line"', '"Line‸"')).taken(NOTES).text).toBe(music.replace("‸", ""));
  });

  it("heeds the melodic minor and changes of key", () => {
    const melodic = acted(
      exercise(
        "  key       A melodic minor\n  meter     4/4\n  tempo     1/4 = 60\n  music     { 1/4 E4 F#4 G#4 A4 | G4 F4 E4 D4 | }",
      ),
    );
    expect(melodic.taken(DEGREES).text).toContain("degrees from A3 { 1/4 5 6 7 8 | 7 6 5 4 | }");
    const changing = acted(
      exercise(
        "  key       C major\n  meter     4/4\n  tempo     1/4 = 60\n  music     { 1/2 C4 G4 | key G major 1/2 G4 F#4 | }",
      ),
    );
    expect(changing.taken(DEGREES).text).toContain("1/2 1 5 | key G major 1/2 1 -7 | }");
  });

  it("is not offered where a term asks for another mode, which only degrees can follow", () => {
    const line =
      "  key       C major\n  meter     4/4\n  tempo     1/4 = 60\n  degrees from C4 { 1/2 1 3 | }";
    const term = (mode: string) =>
      `level "L" {\n  stage senior\n}\nterm "T" for "L" {\n  from 2026-09-07 to 2026-09-12\n  week 1 {\n    Mon "M" {\n      "Line"  in ${mode}  once\n    }\n  }\n}\n`;
    expect(acted(exercise(line, term("A"))).titles).toContain(NOTES);
    expect(acted(exercise(line, term("A minor"))).titles).not.toContain(NOTES);
  });

  it("is not offered where another exercise borrows the music in a mode of its own", () => {
    const line = "  key       C major\n  meter     4/4\n  tempo     1/4 = 60\n  music     { 1/2 C4 E4 | }";
    const like = (key: string) => `exercise "Other" like "Line" {\n  key       ${key}\n}\n`;
    expect(acted(exercise(line, like("C major"))).titles).toContain(DEGREES);
    expect(acted(exercise(line, like("C minor"))).titles).not.toContain(DEGREES);
    const elsewhere = `--- book.practice\n${exercise(line)}--- more.practice\nuse "book.practice"\n${like("C minor")}`;
    expect(acted(elsewhere).titles).not.toContain(DEGREES);
  });

  it("is not offered for borrowed or unreadable music, nor outside of an exercise", () => {
    const own = "  key       C major\n  meter     4/4\n  tempo     1/4 = 60\n  music     { 1/2 C4 H9 | }";
    expect(acted(exercise(own)).titles).not.toContain(DEGREES);
    expect(acted('exercise "Lin‸e" like "Other" {\n}\n').titles).not.toContain(DEGREES);
    expect(acted('area "A‸"\n').titles).not.toContain(DEGREES);
  });
});

describe("a session kept as a routine", () => {
  it("moves its work above the term and calls it up", () => {
    const { taken } = acted(studio('"Slow fif‸ths"  keys C up by half step to E  tempo 60 to 66  twice'));
    const { text, checked } = taken("Keep this session as the routine “Morning”");
    expect(text).toContain(
      'routine "Morning" 30 min {\n  "Slow fifths"  keys C up by half step to E  tempo 60 to 66  twice\n}\n\nterm "Autumn"',
    );
    expect(text).toContain('    Mon to Fri "Morning" routine "Morning"\n');
    expect(codesIn(checked)).toEqual(
      codesIn(acted(studio('"Slow fif‸ths"  keys C up by half step to E  tempo 60 to 66  twice')).checked),
    );
  });

  it("takes another name where that one is taken, and the file's own line ends", () => {
    const named = studio('"Slow fif‸ths"  twice').replace(
      'term "Autumn"',
      'routine "Morning" {\n  "Gates"  once\n}\n\nterm "Autumn"',
    );
    expect(acted(named).titles).toContain("Keep this session as the routine “Morning 2”");
    const { text } = acted(studio('"Slow fif‸ths"  twice'), {}, "\r\n").taken(/as the routine/);
    expect(text).toContain('min {\r\n  "Slow fifths"  twice\r\n}\r\n\r\nterm');
    expect(text).not.toMatch(/[^\r]\n/);
  });

  it("is offered for sessions with work of their own alone", () => {
    const empty = studioWith('  week 1 {\n    Mon "Mor‸ning" 5 min {\n    }\n  }');
    expect(acted(empty).titles.some((title) => title.includes("routine"))).toBe(false);
    expect(
      acted(studioWith("  prac‸tice Mon to Fri")).titles.some((title) => title.includes("routine")),
    ).toBe(false);
  });
});
