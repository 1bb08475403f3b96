import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { Folder, SMALL } from "./command";

let folder: Folder;
beforeEach(() => {
  folder = new Folder({ "plan.practice": SMALL });
});
afterEach(() => folder.remove());

describe("leadpipe calendar", () => {
  test("writes a file for each player, and overwrites none unless it is told to", () => {
    const first = folder.run(["calendar", "--to", "out"]);
    expect(first).toEqual({
      code: 0,
      out: "out/Seniors.ics: 10 events\nout/K. M.ics: 10 events\n",
      err: "",
    });
    const second = folder.run(["calendar", "--to", "out"]);
    expect(second.code).toBe(2);
    expect(second.err).toContain("“out/Seniors.ics”, “out/K. M.ics” is there already. Nothing is written");
    expect(folder.run(["calendar", "--to", "out", "--force"]).code).toBe(0);
    expect(readdirSync(join(folder.path, "out")).sort()).toEqual(["K. M.ics", "Seniors.ics"]);
  });

  test("at an hour, with an alarm, for one player", () => {
    const { code } = folder.run([
      ...["calendar", "plan.practice", "--player", "K. M."],
      ...["--at", "Morning 7:15", "--alarm", "10"],
    ]);
    expect(code).toBe(0);
    const text = readFileSync(join(folder.path, "K. M.ics"), "utf8");
    expect(text).toContain("DTSTART:20260907T071500\r\n");
    expect(text).toContain("TRIGGER:-PT10M\r\n");
    expect(existsSync(join(folder.path, "Seniors.ics"))).toBe(false);
  });

  test.each([
    [["--at", "25:00"], "“--at” takes hours"],
    [["--at", "early"], "“--at” takes hours"],
    [["--at", "Mornin 07:00"], "There is no session or booking “Mornin” here. Did you mean “Morning”?"],
    [["--alarm", "10"], "“--alarm” needs hours to ring before"],
    [["--at", "07:00", "--alarm", "soon"], "“--alarm” takes minutes before practice"],
    [["--player", "K. N."], "Did you mean “K. M.”?"],
    [["--term", "Spring"], "There is no term “Spring”"],
  ])("%j is misuse", (words, message) => {
    const { code, out, err } = folder.run(["calendar", ...words]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(message);
    expect(readdirSync(folder.path)).toEqual(["plan.practice"]);
  });

  test("says where it cannot write", () => {
    const { code, err } = folder.run(["calendar", "--to", "plan.practice"]);
    expect(code).toBe(1);
    expect(err).toContain("A file stands where a folder should be.");
  });
});
