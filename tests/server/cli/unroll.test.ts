import { spawnSync } from "node:child_process";
import { chmodSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { format } from "../../../grammar/format";
import { unrolledPlan } from "../../../server/output/unrolled-plan";
import { FIXED } from "../music/fixed-seed";
import { randomPlan } from "../plan/random-plan";
import { bundled, Folder, SMALL } from "./command";

const TERM = `term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-09-26
  practice Mon to Sat
  closed 2026-09-14 to 2026-09-19 # the middle week is no taught week
  weeks 1 to 2 {
    Mon, Wed "Morning" 10 min {
      aim "easy"
      "Fifths"  keys C, D  tempo 60 to 64  1 to 3 times
      rest 30 s
      "Hymn"  tempo 1/8 = 100 to 110  for 2 to 4 min { goal "by heart" by week 2 }
      short 4 min { "Fifths" in C once }
    }
    on 2026-09-22 "Hall" { "Hymn" }
  }
  every week { Tue "Opening" routine "Water" }
  change "K. M." { ill 2026-09-07 }
}
`;

describe("a plan told line by line", () => {
  test("has its terms week by week, with the figures of each week", () => {
    expect(unrolledPlan(TERM)).toBe(`term "Autumn" for "Seniors"
  from      2026-09-07 to 2026-09-26
  practice  Mon to Sat
  closed    2026-09-14 to 2026-09-19
  change "K. M." { ill 2026-09-07 }
  week 1
    Mon, Wed “Morning”, 10 min
      aim “easy”
      “Fifths”: keys C, D; tempo 60; once
      rest 30 s
      “Hymn”: tempo 1/8 = 100; for 2 min; goal “by heart”
      short, 4 min
        “Fifths”: in C; once
    Tue “Opening”, routine “Water”
  week 2
    Mon, Wed “Morning”, 10 min
      aim “easy”
      “Fifths”: keys C, D; tempo 64; 3 times
      rest 30 s
      “Hymn”: tempo 1/8 = 110; for 4 min; goal “by heart”
      short, 4 min
        “Fifths”: in C; once
    Tue “Hall”
      “Hymn”
    Tue “Opening”, routine “Water”
`);
  });

  test("has its music bar by bar, a pick-up as bar 0", () => {
    const text = `# The book.
exercise "Bells" {
  in "Tones"
  music {
    pickup 1/4 G4 | # begins low
    C5 F#4 G4
    | 1/2. E4 |
  }
}
`;
    expect(unrolledPlan(text)).toBe(`exercise "Bells"
  in        "Tones"
  music
    bar 0: pickup 1/4 G4
    bar 1: C5 F#4 G4
    bar 2: 1/2. E4
`);
  });

  test("keeps what cannot be read, and says so", () => {
    const text = `exercise "Half" {\n  tempo = = 3\n  in "Tones"\n}\nwhat is this\n`;
    expect(unrolledPlan(text)).toContain("cannot be read: tempo = = 3");
    expect(unrolledPlan(text)).toContain('in        "Tones"');
    expect(unrolledPlan(text)).toContain("cannot be read: what is this");
  });

  test("is the same however the file is laid out", () => {
    fc.assert(
      fc.property(randomPlan, (text) => {
        expect(unrolledPlan(format(text))).toBe(unrolledPlan(text));
      }),
      { ...FIXED, numRuns: 25 },
    );
  });
});

describe("as git's own diff text", () => {
  let folder: Folder;
  beforeEach(() => {
    folder = new Folder();
    // As a teacher has it: a command of this name.
    folder.write("bin/leadpipe", `#!/bin/sh\nexec "${process.execPath}" "${bundled()}" "$@"\n`);
    chmodSync(join(folder.path, "bin/leadpipe"), 0o755);
  });
  afterEach(() => folder.remove());

  function git(...words: string[]): string {
    const ended = spawnSync("git", words, {
      cwd: folder.path,
      encoding: "utf8",
      env: {
        ...process.env,
        PATH: `${join(folder.path, "bin")}:${process.env["PATH"] ?? ""}`,
        GIT_CONFIG_GLOBAL: "/dev/null",
        GIT_CONFIG_NOSYSTEM: "1",
      },
    });
    expect(ended.stderr).toBe("");
    return ended.stdout;
  }

  test("shows the weeks that changed, and nothing of another layout", () => {
    git("init", "--quiet");
    git("config", "diff.leadpipe.textconv", "leadpipe unroll");
    folder.write(".gitattributes", "*.practice diff=leadpipe\n");
    folder.write("terms/autumn.practice", SMALL);
    folder.write("book.practice", 'area "Tones"\n');
    folder.write("old.practice", new Uint8Array([0xff, 0xfe, 0x00]));
    git("add", ".");
    folder.write("terms/autumn.practice", SMALL.replace("to E twice", "to E  tempo 60 to 66  twice"));
    folder.write("book.practice", '\narea   "Tones"   # the first\n');
    folder.write("old.practice", 'area "Tones"\n');
    const changed = git("diff")
      .split("\n")
      .filter((line) => /^[-+](?![-+])/.test(line));
    expect(changed).toEqual([
      "-This is not a text file. A plan is plain text; save it as such.",
      '+area "Tones"',
      "-      “Fifths”: keys C up by half step to E; twice",
      "+      “Fifths”: keys C up by half step to E; tempo 60; twice",
      "-      “Fifths”: keys C up by half step to E; twice",
      "+      “Fifths”: keys C up by half step to E; tempo 66; twice",
    ]);
  });

  test.each([[["unroll"]], [["unroll", "a.practice", "b.practice"]]])("%j is misuse", (words) => {
    const { code, err } = folder.run(words);
    expect(code).toBe(2);
    expect(err).toContain("Name one file");
  });

  test("a name without a file is misuse, and a file that is no text is told as what it is", () => {
    expect(folder.run(["unroll", "nothing.practice"])).toMatchObject({ code: 2, out: "" });
    folder.write("bytes.practice", new Uint8Array([0, 1, 2]));
    const { code, out } = folder.run(["unroll", "bytes.practice"]);
    expect({ code, out }).toEqual({
      code: 0,
      out: "This is not a text file. A plan is plain text; save it as such.\n",
    });
  });
});
