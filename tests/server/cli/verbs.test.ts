import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Folder, SMALL } from "./command";

let studio: Folder;
beforeAll(() => {
  studio = new Folder({ "plan.practice": SMALL });
});
afterAll(() => studio.remove());

describe("check", () => {
  test("a plan with nothing wrong ends with 0", () => {
    const { out, code, err } = studio.run(["check", "--quiet", "plan.practice"]);
    expect(err).toBe("");
    expect(out).toMatch(/in 1 file; 1 term, 24 days checked\n$/);
    expect(out).not.toContain("error");
    expect(code).toBe(0);
  });

  test("without a path it takes the folder it is called in, and - takes standard input", () => {
    expect(studio.run(["check"]).out).toMatch(/in 1 file; 1 term/);
    const { out } = studio.run(["check", "-"], { input: 'level "L" {\n  range A5 to G3\n}\n' });
    expect(out).toMatch(/^\(standard input\):2:9: error upside-down/m);
  });

  test("a finding shows its line and a caret under the word", () => {
    const { out, code } = studio.run(["check", "-"], { input: 'use "no.practice"\n' });
    expect(code).toBe(1);
    expect(out).toBe(
      [
        "(standard input):1:5: error use-missing: There is no file “no.practice”. The path starts from the folder of this file.",
        '  1 | use "no.practice"',
        "    |     ^^^^^^^^^^^^^",
        "",
        "1 error in 1 file",
        "",
      ].join("\n"),
    );
  });

  test("--strict ends with 1 on a warning", () => {
    const folder = new Folder({ "self.practice": 'use "self.practice"\n' });
    expect(folder.run(["check", "."]).code).toBe(0);
    expect(folder.run(["check", "--strict", "."]).code).toBe(1);
    folder.remove();
  });

  test("--json is one object with lines and columns from 1", () => {
    const { out, code } = studio.run(["check", "--json", "-"], { input: 'use "no.practice"\n' });
    expect(code).toBe(1);
    expect(JSON.parse(out)).toEqual({
      files: [
        {
          path: "(standard input)",
          findings: [
            {
              code: "use-missing",
              severity: "error",
              message: "There is no file “no.practice”. The path starts from the folder of this file.",
              from: { line: 1, column: 5 },
              to: { line: 1, column: 18 },
              details: [],
              related: [],
              standing: null,
              dates: [],
              players: [],
              mend: null,
            },
          ],
        },
      ],
      summary: { errors: 1, warnings: 0, notes: 0, files: 1, terms: 0, days: 0 },
    });
  });

  test("nothing is coloured where no terminal is", () => {
    const { out } = studio.run(["check", "-"], { input: "nonsense\n", env: { FORCE_COLOR: "1" } });
    expect(out).not.toContain("\u001b");
  });
});

describe("on a terminal", () => {
  const bad = new Folder({ "bad.practice": 'use "no.practice"\n' });
  afterAll(() => bad.remove());
  const onTerminal = bad.runOnTerminal(["check", "bad.practice"]);

  test.skipIf(onTerminal === undefined)("the severity is coloured", () => {
    expect(onTerminal).toContain("\u001b[1;31merror\u001b[0m");
  });

  test.skipIf(onTerminal === undefined)("NO_COLOR is heeded", () => {
    const plain = bad.runOnTerminal(["check", "bad.practice"], { NO_COLOR: "1" });
    expect(plain).toContain("bad.practice:1:5: error use-missing");
    expect(plain).not.toContain("\u001b");
  });
});

describe("totals", () => {
  test("weeks are a table with a heading for each player and a caution at the foot", () => {
    const { out, code } = studio.run(["totals", "plan.practice"]);
    expect(code).toBe(0);
    expect(out).toContain("Autumn: Seniors\n");
    expect(out).toContain("Autumn: K. M.\n");
    // 8 quarters at 60 are 8 s; twice through with a rest as long between is 24 s, of which 16 s sound.
    expect(out).toMatch(/^ {3}1 {5}5 {3}2:00 {5}1:20/m);
    expect(out).toContain("Stop when it hurts");
  });

  test("days show what is allowed beside the figure", () => {
    const { out } = studio.run(["totals", "--by", "day", "--player", "K. M.", "--week", "2"]);
    expect(out).toMatch(/Mon 2026-09-14\s+2 {2}0:24 of 45:00 {2}0:16 of 28:00/);
    expect(out).not.toContain("2026-09-07");
    expect(out).not.toContain("Autumn: Seniors");
  });

  test("sessions and terms", () => {
    expect(studio.run(["totals", "--by", "session"]).out).toMatch(/Morning {2}0:24 of 10:00/);
    expect(studio.run(["totals", "--by", "term", "--term", "Autumn"]).out).toMatch(/10 {3}4:00 {5}2:40/);
  });

  test("CSV has a heading, CR LF, and quotes where a name asks for them", () => {
    const folder = new Folder({ "a.practice": SMALL.replaceAll('"K. M."', '"=K, M."') });
    const { out } = folder.run(["totals", "--by", "term", "--csv"]);
    const lines = out.split("\r\n");
    expect(lines[0]).toBe(
      "term,player,week,date,session,days,clock (seconds),clock budget (seconds),playing (seconds),playing budget (seconds),upper (seconds),upper budget (seconds),stretch (seconds),stretch budget (seconds),load (points),load budget (points),remark",
    );
    expect(lines[1]).toMatch(/^Autumn,Seniors,,,,10,240,,160,,0,,/);
    expect(lines[2]).toMatch(/^Autumn,"'=K, M\.",/);
    expect(lines[3]).toBe("");
    folder.remove();
  });

  test("JSON", () => {
    const rows: unknown = JSON.parse(studio.run(["totals", "--by", "week", "--json"]).out);
    expect(rows).toHaveLength(4);
    expect(rows).toMatchObject([
      { term: "Autumn", player: "Seniors", week: 1, days: 5, playing: { value: 80, budget: null } },
      { week: 2 },
      { player: "K. M.", week: 1 },
      { week: 2 },
    ]);
  });

  test("a name that is not there is misuse, with the nearest", () => {
    const { err, code } = studio.run(["totals", "--player", "K. N."]);
    expect(err).toContain("Did you mean “K. M.”?");
    expect(code).toBe(2);
    expect(studio.run(["totals", "--week", "9"]).code).toBe(2);
    expect(studio.run(["totals", "--by", "month"]).code).toBe(2);
  });
});

describe("explain", () => {
  test("both names of the range, and the sum behind the duration", () => {
    const { out, code } = studio.run(["explain", "Fifths"]);
    expect(code).toBe(0);
    expect(out).toContain("C4 (low C) to G4 (second-line G)");
    expect(out).toContain("playing 8 quarters × 60 ÷ 60 = 8 s");
    expect(out).toContain("8 s of 10 s: enough");
    expect(out).toMatch(/For Seniors[\s\S]*comfortable in G, A♭, A, B♭, B, C, D♭, D, E♭, E, F, F♯/);
  });

  test("in another key", () => {
    const { out } = studio.run(["explain", "Fifths", "--in", "Bb", "--player", "K. M."]);
    expect(out).toContain("B♭3");
    expect(out).not.toContain("For Seniors");
    expect(studio.run(["explain", "Fifths", "--in", "H"]).code).toBe(2);
  });

  test("a misspelt exercise", () => {
    const { err, code } = studio.run(["explain", "Fiths"]);
    expect(err).toBe("There is no exercise “Fiths” in these files. Did you mean “Fifths”?\n");
    expect(code).toBe(2);
  });
});

describe("format", () => {
  test("--check changes nothing and ends with 1; then once laid out, all is well", () => {
    const folder = new Folder({ "a.practice": 'area    "Tones"   \n' });
    expect(folder.run(["format", "--check"]).code).toBe(1);
    expect(folder.run(["format"]).code).toBe(0);
    expect(folder.run(["format", "--check"])).toMatchObject({ code: 0 });
    folder.remove();
  });

  test("standard input comes out laid out", () => {
    expect(studio.run(["format", "-"], { input: 'area "Tones"   \n' }).out).toBe('area "Tones"\n');
  });
});

describe("help and misuse", () => {
  test.each(["check", "totals", "explain", "format"])("help %s has examples", (verb) => {
    const { out, code } = studio.run(["help", verb]);
    expect(out).toContain("Examples\n  leadpipe");
    expect(code).toBe(0);
    expect(studio.run([verb, "--help"]).out).toBe(out);
  });

  test("help findings lists them with their reasons", () => {
    const { out } = studio.run(["help", "findings"]);
    expect(out).toContain("use-missing (error)");
    expect(out).toContain("day-upper (warning)");
  });

  test.each([
    [["chekc"], "Did you mean “leadpipe check”?"],
    [["check", "--jsn"], "Did you mean “--json”?"],
    [["totals", "--by"], "needs a value"],
    [["totals", "--json", "--csv"], "not for both"],
    [["explain"], "Name the exercise"],
    [["help", "totls"], "Did you mean “totals”?"],
  ])("%j is misuse", (args, message) => {
    const { err, out, code } = studio.run(args);
    expect(err).toContain(message);
    expect(out).toBe("");
    expect(code).toBe(2);
  });

  test("a folder without plans is misuse", () => {
    const folder = new Folder({ "readme.txt": "nothing here" });
    expect(folder.run(["check"])).toMatchObject({ code: 2 });
    folder.remove();
  });
});

describe("what totals tells when asked for more", () => {
  test("--coverage counts keys, days and registers instead of minutes", () => {
    const { out, code } = studio.run(["totals", "--coverage", "plan.practice"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^Exercise +Times through, by key$/m);
    expect(out).toMatch(/^Area +Days +Mon +Tue +Wed +Thu +Fri +Sat +Sun$/m);
    expect(out).toMatch(/^Week +Below C4 +C4 to B4 +C5 and up$/m);
  });

  test("--history names its method and what it cannot say", () => {
    const { out, code } = studio.run(["totals", "--history", "uncoupled", "plan.practice"]);
    expect(code).toBe(0);
    expect(out).toMatch(/Ratio \(uncoupled\)/);
    expect(out).toMatch(/strongly disputed/);
    const wrong = studio.run(["totals", "--history", "magic", "plan.practice"]);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toMatch(/weighted, coupled, uncoupled/);
  });

  test("--mends prints changes that were measured", () => {
    const text = studio
      .run(["check", "--mends", "-"], {
        input: `area "A"
exercise "High" {
  in "A"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/1 G5 ' | }
  rest equal
}
level "L" { stage senior  each day { upper at most 1 min } }
term "T" for "L" {
  from 2027-02-01 to 2027-02-06
  every week { Mon "M" { "High"  in C  20 times } }
}
`,
      })
      .out.split("\n");
    expect(text).toContain('    mend: Play it 15 times:  "High"  in C  15 times');
  });
});
