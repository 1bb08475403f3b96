import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { Folder, SMALL } from "./command";

let folder: Folder;
beforeEach(() => {
  folder = new Folder();
});
afterEach(() => folder.remove());

/** The real git, kept from its owner's settings. */
function git(...words: string[]): string {
  const ended = spawnSync("git", words, {
    cwd: folder.path,
    encoding: "utf8",
    env: {
      ...process.env,
      GIT_CONFIG_GLOBAL: "/dev/null",
      GIT_CONFIG_NOSYSTEM: "1",
      GIT_AUTHOR_NAME: "A. T.",
      GIT_AUTHOR_EMAIL: "a.t@example.org",
      GIT_COMMITTER_NAME: "A. T.",
      GIT_COMMITTER_EMAIL: "a.t@example.org",
    },
  });
  expect(ended.stderr).toBe("");
  expect(ended.status).toBe(0);
  return ended.stdout;
}

/** Keeps the folder as it stands. */
function keep(): void {
  git("add", "--all");
  git("commit", "--quiet", "--message", "as it stands");
}

const FASTER = SMALL.replace("tempo 1/4 = 60", "tempo 1/4 = 66");
const SAID = "“Fifths”: tempo quarter = 66, was quarter = 60";

describe("two files or folders", () => {
  test("are compared", () => {
    folder.write("a.practice", SMALL);
    folder.write("b.practice", FASTER);
    const { code, out, err } = folder.run(["compare", "a.practice", "b.practice"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain(SAID);
    expect(folder.run(["compare", "a.practice", "a.practice"]).out).toBe("These plans mean the same.\n");
  });

  test("without the notes among what was found, where they are not wanted", () => {
    folder.write("a.practice", SMALL);
    folder.write(
      "b.practice",
      SMALL.replace('"Morning" 10 min', '"Morning" 15 s').replace("to E twice", "to C twice"),
    );
    const all = folder.run(["compare", "a.practice", "b.practice"]).out;
    expect(all).toMatch(/new: warning session-minutes[\s\S]*new: note/);
    const quiet = folder.run(["compare", "--quiet", "a.practice", "b.practice"]).out;
    expect(quiet).toContain("new: warning session-minutes");
    expect(quiet).not.toContain("note ");
  });

  test("as data name what could not be read", () => {
    folder.write("old/a.practice", SMALL);
    folder.write("new/a.practice", `${FASTER}\nexercise "Half" {\n  tempo = = 3\n}\n`);
    const { code, out } = folder.run(["compare", "--json", "old", "new"]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      book: { rewritten: [{ exercise: { after: "Fifths" } }] },
      unread: [{ side: "new", path: "new/a.practice", why: "1 place cannot be read." }],
    });
  });

  test("are compared as far as they can be read", () => {
    folder.write("a.practice", SMALL);
    folder.write("b.practice", `${FASTER}\nexercise "Half" {\n  tempo = = 3\n}\n`);
    const { code, out } = folder.run(["compare", "a.practice", "b.practice"]);
    expect(code).toBe(0);
    expect(out).toContain("b.practice (b.practice): 1 place cannot be read. The rest is compared.\n");
    expect(out).toContain(SAID);
  });

  test.each([
    [["compare"], "Name two files or folders to compare"],
    [["compare", "a.practice"], "Name two files or folders to compare"],
    [["compare", "a.practice", "b.practice"], "“b.practice”: There is no file or folder of this name."],
    [["compare", "--until", "HEAD", "a.practice"], "“--until” goes with “--since”"],
    [["compare", "--sinse", "HEAD"], "Did you mean “--since”?"],
  ])("%j is misuse", (words, message) => {
    folder.write("a.practice", SMALL);
    const { code, out, err } = folder.run(words);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(message);
  });
});

describe("as a page", () => {
  test("has rewritten exercises as notation, and is written anew only when it is told to", () => {
    folder.write("a.practice", SMALL);
    folder.write("b.practice", SMALL.replace("1/2 C4 G4", "1/4 C4 G4 C4 G4"));
    const words = ["compare", "a.practice", "b.practice", "--html", "page.html"];
    expect(folder.run(words)).toEqual({ code: 0, out: "page.html is written.\n", err: "" });
    const page = readFileSync(join(folder.path, "page.html"), "utf8");
    expect(page).toContain("“Fifths”: bar 1 rewritten");
    expect(page.match(/<figure><figcaption>(before|after)<\/figcaption><svg/g)).toHaveLength(2);
    // Two pictures on one page: no name of a part comes twice.
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const again = folder.run(words);
    expect(again.code).toBe(2);
    expect(again.err).toContain("“page.html” is there already. Nothing is written");
    expect(folder.run([...words, "--force"]).code).toBe(0);
  });

  test("says where it cannot be written", () => {
    folder.write("a.practice", SMALL);
    const { code, err } = folder.run(["compare", "a.practice", "a.practice", "--html", "no/such.html"]);
    expect(code).toBe(1);
    expect(err).toContain("There is no such folder.");
  });
});

describe("revisions of git", () => {
  beforeEach(() => {
    git("init", "--quiet", "--initial-branch", "main");
    folder.write("house/studio.practice", 'studio "Small house" {\n}\n');
    folder.write("house/terms/autumn.practice", SMALL);
    keep();
    folder.write("house/terms/autumn.practice", FASTER);
    folder.write(
      "house/terms/spring.practice",
      SMALL.replace("Autumn", "Spring").replaceAll("Fifths", "Fourths"),
    );
    keep();
  });

  test("a revision and today, wherever the command is called", () => {
    folder.write("house/terms/autumn.practice", FASTER.replace("= 66", "= 69"));
    expect(folder.run(["compare", "--since", "HEAD", "house"]).out).toContain(
      "quarter = 69, was quarter = 66",
    );
    expect(folder.run(["compare", "--since", "HEAD~1"]).out).toContain("quarter = 69, was quarter = 60");
  });

  test("from outside the repository too, and of a folder that is gone", () => {
    const away = new Folder();
    const whole = join(folder.path, "house/terms");
    expect(away.run(["compare", "--since", "HEAD~1", whole]).out).toContain(SAID);
    git("rm", "-r", "--quiet", "house/terms");
    const { code, out } = away.run(["compare", "--since", "HEAD", whole]);
    expect(code).toBe(0);
    expect(out).toContain("gone: “Autumn”, “Spring”");
    away.remove();
  });

  test("two revisions", () => {
    folder.write("house/terms/autumn.practice", "");
    const { out } = folder.run([
      "compare",
      "--since",
      "HEAD~1",
      "--until",
      "main",
      "house/terms/autumn.practice",
    ]);
    expect(out).toContain(SAID);
    expect(out).not.toContain("Spring");
  });

  test("a file that was not there yet is all new", () => {
    const { out } = folder.run(["compare", "--since", "HEAD~1", "house/terms/spring.practice"]);
    expect(out).toContain("new: “Spring”");
  });

  test("a file that is gone is all gone, and said to be", () => {
    git("rm", "--quiet", "house/terms/spring.practice");
    const { code, out } = folder.run(["compare", "--since", "HEAD", "house/terms/spring.practice"]);
    expect(code).toBe(0);
    expect(out).toContain("There is no file or folder of this name.");
    expect(out).toContain("gone: “Spring”");
  });

  test("one whose old text cannot be read is compared as far as it goes", () => {
    folder.write("house/terms/autumn.practice", `${FASTER}\nterm "Half {\n`);
    keep();
    folder.write("house/terms/autumn.practice", FASTER.replace("= 66", "= 69"));
    const { out } = folder.run(["compare", "--since", "HEAD", "house/terms/autumn.practice"]);
    expect(out).toMatch(/autumn\.practice \(HEAD\): \d places? cannot be read\. The rest is compared\./);
    expect(out).toContain("quarter = 69, was quarter = 66");
  });

  test.each([
    [["--since", "HEAD~40"], "There is no revision “HEAD~40” in this repository."],
    [["--since", "nowhere"], "There is no revision “nowhere” in this repository."],
    [["--since", "HEAD", "--until", "then"], "There is no revision “then” in this repository."],
    [["--since", "HEAD~1", "--until", "HEAD", "other"], "On neither side is there a plan file"],
  ])("%j is answered in words", (words, message) => {
    const { code, out, err } = folder.run(["compare", ...words]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(message);
  });
});

describe("without a revision to ask for", () => {
  test("a folder outside any repository says so", () => {
    folder.write("a.practice", SMALL);
    const { code, err } = folder.run(["compare", "--since", "HEAD"], {
      env: { GIT_CEILING_DIRECTORIES: "/" },
    });
    expect(code).toBe(2);
    expect(err).toBe("This folder is not in a git repository, so there are no revisions to compare.\n");
  });

  test("a computer without git says so", () => {
    folder.write("a.practice", SMALL);
    const { code, err } = folder.run(["compare", "--since", "HEAD"], { env: { PATH: folder.path } });
    expect(code).toBe(2);
    expect(err).toBe("There is no git on this computer to ask for a revision.\n");
  });
});
