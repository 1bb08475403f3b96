import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { BUSY } from "../pages/busy-term";
import { Folder } from "./command";

let folder: Folder;
beforeEach(() => {
  folder = new Folder({ "plan.practice": BUSY });
});
afterEach(() => folder.remove());

describe("leadpipe report", () => {
  test("writes one page, and writes it anew only when it is told to", () => {
    expect(folder.run(["report"])).toEqual({
      code: 0,
      out: "report.html: 2 terms and players\n",
      err: "",
    });
    const page = readFileSync(join(folder.path, "report.html"), "utf8");
    expect(page).toContain('<h2 id="term-2">Autumn: K. M.</h2>');
    const again = folder.run(["report"]);
    expect(again.code).toBe(2);
    expect(again.err).toContain("“report.html” is there already. Nothing is written");
    expect(folder.run(["report", "--force", "--player", "K. M."]).out).toBe(
      "report.html: 1 term and player\n",
    );
  });

  test("adds the load against the weeks before when it is asked for", () => {
    expect(folder.run(["report", "--to", "a.html", "--history", "weighted"]).code).toBe(0);
    expect(readFileSync(join(folder.path, "a.html"), "utf8")).toContain("They warn of nothing here.");
  });

  test.each([
    [["--history", "guessed"], "“--history” takes weighted, coupled, uncoupled"],
    [["--player", "K. N."], "Did you mean “K. M.”?"],
    [["--term", "Spring"], "There is no term “Spring”"],
  ])("%j is misuse", (words, message) => {
    const { code, out, err } = folder.run(["report", ...words]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(message);
  });

  test("says where it cannot write", () => {
    const { code, err } = folder.run(["report", "--to", "no/such.html"]);
    expect(code).toBe(1);
    expect(err).toContain("There is no such folder.");
  });
});

describe("coverage and history as data", () => {
  const read = (words: readonly string[]): unknown => {
    const { code, out } = folder.run(["totals", "--player", "K. M.", ...words]);
    expect(code).toBe(0);
    return JSON.parse(out);
  };

  test("what a term touches, for other programs", () => {
    expect(read(["--coverage", "--json"])).toMatchObject([
      {
        term: "Autumn",
        player: "K. M.",
        touches: expect.arrayContaining([
          { table: "exercise and key", what: "Fifths", at: "A minor", value: 10, unit: "times through" },
          { table: "area and day", what: "Tones", at: "2026-09-07", value: 1, unit: "day" },
          { table: "tempo and week", what: "Steps", at: 3, value: 60, unit: "beats to the minute" },
        ]),
      },
    ]);
  });

  test("the same for a spreadsheet", () => {
    const { out } = folder.run(["totals", "--player", "K. M.", "--coverage", "--csv"]);
    const lines = out.split("\r\n");
    expect(lines[0]).toBe("term,player,table,what,at,value,unit");
    expect(lines).toContain("Autumn,K. M.,exercise and key,Steps,valves 2,14,times through");
    const seconds = lines
      .filter((line) => line.includes("register and week"))
      .map((line) => Number(line.split(",")[5]));
    // Fifteen days of 32 s.
    expect(seconds.reduce((a, b) => a + b)).toBeCloseTo(15 * 32, 2);
  });

  test("the load against the weeks before", () => {
    const rows = read(["--history", "coupled", "--json"]);
    expect(rows).toMatchObject([
      { week: 1, to: "2026-09-13", method: "coupled", ratio: null },
      { week: 2 },
      { week: 3, to: "2026-10-02", monotony: expect.any(Number) },
    ]);
    const { out } = folder.run(["totals", "--player", "K. M.", "--history", "coupled", "--csv"]);
    expect(out.split("\r\n")[0]).toBe("term,player,week,to,load (points),ratio (coupled),monotony,strain");
    expect(out.split("\r\n")[1]).toMatch(/^Autumn,K\. M\.,1,2026-09-13,[\d.]+,,/);
  });

  test("both at once are misuse", () => {
    const { code, err } = folder.run(["totals", "--coverage", "--history", "coupled"]);
    expect(code).toBe(2);
    expect(err).toContain("not for both");
  });
});
