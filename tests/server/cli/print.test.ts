import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { run } from "../../../server/commands/run";
import type { World } from "../../../server/commands/world";
import { launchEngraver } from "../../../server/launch-engraver";
import { launchPress } from "../../../server/launch-press";
import { NO_PAINT } from "../../../server/output/paint";
import { Examined } from "../packet/printing";
import { bundled, Folder, SMALL } from "./command";

const MORE = `
level "Juniors" { instrument trumpet in Bb  stage first year }
term "Winter" for "Juniors" {
  from 2027-01-11 to 2027-01-23
  weeks 1 to 2 { Mon "Morning" 10 min { "Fifths" in D once } }
}
term "Nothing yet" for "Juniors" { from 2027-02-01 to 2027-02-06 }
`;

let folder: Folder;
beforeEach(() => {
  folder = new Folder({ "plan.practice": SMALL + MORE });
});
afterEach(() => folder.remove());

const files = (under = "."): readonly string[] =>
  readdirSync(join(folder.path, under)).filter((name) => name !== "plan.practice");

async function textOf(name: string): Promise<string> {
  const file = new Examined(readFileSync(join(folder.path, name)));
  try {
    return await file.text();
  } finally {
    file.remove();
  }
}

describe("a day", () => {
  test("is printed for one player, under a name that says whose and when", async () => {
    const { out, err, code } = folder.run(["print", "day", "--on", "2026-09-08", "--player", "K. M."]);
    expect({ out, err, code }).toEqual({ out: "K. M., Tue 2026-09-08.pdf\n", err: "", code: 0 });
    expect(await textOf("K. M., Tue 2026-09-08.pdf")).toMatch(
      /K\. M\. Tuesday 8 September 2026.*Fifths D♭ major, twice, quarter = 60 0:24/,
    );
  });

  test("without anything to practise says so, and writes nothing", () => {
    const { out, err, code } = folder.run(["print", "day", "--on", "2026-09-13", "--player", "K. M."]);
    expect({ out, code }).toEqual({ out: "", code: 2 });
    expect(err).toBe(
      "There is nothing to practise for K. M. on Sun 2026-09-13. “leadpipe totals --by day” shows the days there are.\n",
    );
    expect(files()).toEqual([]);
  });

  test("is today's where no other is named", async () => {
    const said: string[] = [];
    const code = await run(
      ["print", "day", "--player", "K. M."],
      worldOf({ err: (text) => said.push(text) }),
    );
    expect(code).toBe(0);
    expect(files()).toEqual(["K. M., Wed 2026-09-09.pdf"]);
    expect(said).toEqual([]);
  });
});

describe("a week", () => {
  test("goes into a file for each player of the studio", () => {
    const { out, code } = folder.run(["print", "week", "--on", "2026-09-10", "--overview", "--to", "sheets"]);
    expect(out).toBe("sheets/Seniors, week of 2026-09-07.pdf\nsheets/K. M., week of 2026-09-07.pdf\n");
    expect(code).toBe(0);
    expect(files("sheets")).toHaveLength(2);
  });

  test("goes into one file where one is named, an overview and the days of each", async () => {
    const { out, code } = folder.run(["print", "week", "--on", "2026-09-10", "--to", "all.pdf"]);
    expect({ out, code }).toEqual({ out: "all.pdf\n", code: 0 });
    const file = new Examined(readFileSync(join(folder.path, "all.pdf")));
    expect(await file.pages()).toBe(12);
    file.remove();
  });

  test("by its number needs the term where a player has several", () => {
    const { err, code } = folder.run(["print", "week", "--week", "2", "--player", "Juniors"]);
    expect(err).toBe(
      "Juniors has more than one term here, and each has its own week 2. Name one with “--term”, or ask by a date, with “--on”.\n",
    );
    expect(code).toBe(2);
    const named = folder.run([
      "print",
      "week",
      "--week",
      "2",
      "--player",
      "Juniors",
      "--term",
      "Winter",
      "--html",
    ]);
    expect(named.out).toBe("Juniors, week of 2027-01-18.html\n");
    expect(readFileSync(join(folder.path, "Juniors, week of 2027-01-18.html"), "utf8")).toContain("Fifths");
  });
});

describe("a packet", () => {
  test("of a term holds the keys it goes through", async () => {
    const { out, code } = folder.run(["print", "packet", "--term", "Autumn", "--player", "K. M."]);
    expect({ out, code }).toEqual({ out: "K. M., packet.pdf\n", code: 0 });
    const text = await textOf("K. M., packet.pdf");
    for (const key of ["C major", "D♭ major", "D major", "E♭ major", "E major"]) expect(text).toContain(key);
    expect(text).not.toContain("G major");
  });

  test("of the book holds the home keys, or all of them", async () => {
    expect(folder.run(["print", "packet", "--title", "Our book"]).out).toBe("Our book, packet.pdf\n");
    expect(await textOf("Our book, packet.pdf")).not.toContain("D major");
    folder.run(["print", "packet", "--keys", "all", "--to", "all.pdf", "--paper", "letter"]);
    expect((await textOf("all.pdf")).match(/[A-G][♭♯]? major/g)).toHaveLength(12);
  });

  test("of a term that is empty is refused", () => {
    const { err, code } = folder.run(["print", "packet", "--term", "Nothing yet"]);
    expect(err).toBe("There is nothing to practise in this term, and so nothing to put into a packet.\n");
    expect(code).toBe(2);
    expect(files()).toEqual([]);
  });
});

describe("what is there already", () => {
  test("is kept, unless it may be written over; then the same pages are the same bytes", () => {
    const words = ["print", "day", "--on", "2026-09-08", "--player", "K. M.", "--to", "a.pdf"];
    writeFileSync(join(folder.path, "a.pdf"), "mine");
    const refused = folder.run(words);
    expect(refused.err).toBe(
      "“a.pdf” is there already; nothing was printed. To write over what is there, add --force.\n",
    );
    expect(refused.code).toBe(2);
    expect(readFileSync(join(folder.path, "a.pdf"), "utf8")).toBe("mine");
    expect(folder.run([...words, "--force"]).code).toBe(0);
    const first = readFileSync(join(folder.path, "a.pdf"));
    expect(folder.run([...words, "--force"]).code).toBe(0);
    expect(readFileSync(join(folder.path, "a.pdf")).equals(first)).toBe(true);
  });

  test("in a locked folder nothing is written, and it is said", () => {
    mkdirSync(join(folder.path, "locked"));
    for (const path of [folder.path, dirname(bundled())]) chmodSync(path, 0o755);
    chmodSync(join(folder.path, "locked"), 0o555);
    const other = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    const words = ["print", "day", "--on", "2026-09-08", "--player", "K. M.", "--to", "locked"];
    const ended = spawnSync(process.execPath, [bundled(), ...words], {
      cwd: folder.path,
      encoding: "utf8",
      timeout: 60_000,
      ...other,
    });
    expect(ended.stderr).toBe(
      "“K. M., Tue 2026-09-08.pdf” cannot be written. You are not allowed to write in this folder.\n",
    );
    expect(ended.status).toBe(1);
    expect(files("locked")).toEqual([]);
  });

  test.skipIf(!existsSync("/dev/full"))("a full disk leaves no half file", () => {
    const { err, code } = folder.run([
      "print",
      "day",
      "--on",
      "2026-09-08",
      "--player",
      "K. M.",
      "--to",
      "/dev/full/a.pdf",
    ]);
    expect(err).toMatch(/cannot be made|cannot be written/);
    expect(code).toBe(1);
  });
});

describe("asked in a way it does not know", () => {
  test.each([
    [
      [],
      'Say what to print: day, week or packet. For instance: leadpipe print week samples --player "K. M."\n',
    ],
    [
      ["year"],
      'Say what to print: day, week or packet. “year” is none of them. For instance: leadpipe print week samples --player "K. M."\n',
    ],
    [["day", "--on", "8.9.2026"], "“--on” takes a date such as 2026-09-07, not “8.9.2026”.\n"],
    [["week", "--week", "soon"], "“--week” takes the number of a taught week, such as 3, not “soon”.\n"],
    [["day", "--keys", "all"], "“--keys” says nothing for a day.\n"],
    [["packet", "--overview"], "“--overview” says nothing for a packet.\n"],
    [
      ["week", "--week", "1", "--on", "2026-09-07"],
      "Ask for a week by “--week” or by “--on”, not by both.\n",
    ],
    [
      ["packet", "--keys", "travelled"],
      "“--keys” takes all, home or travelled, not “travelled”; what is travelled, a player or a term must say.\n",
    ],
    [["day", "--paper", "A5"], "“--paper” takes A4 or letter, not “A5”.\n"],
    [["day", "--player", "K. N."], "There is no player “K. N.” in these plans. Did you mean “K. M.”?\n"],
    [["day", "--on", "2026-09-08", "--to", "a.html"], "For a web page, add --html.\n"],
  ] as const)("it says how: %j", async (words, message) => {
    const said: string[] = [];
    const code = await run(["print", ...words], worldOf({ err: (text) => said.push(text) }));
    expect([said.join(""), code]).toEqual([message, 2]);
    expect(files()).toEqual([]);
  });
});

describe("work that takes long", () => {
  const words = ["print", "packet", "--keys", "all", "--to", "all.pdf"];

  test("says how far it is to somebody who watches, and takes the line away again", async () => {
    let said = "";
    let clock = 0;
    const code = await run(
      words,
      worldOf({ watched: true, now: () => (clock += 2000), err: (text) => (said += text) }),
    );
    expect(code).toBe(0);
    expect(said).toContain("1 of 12 pictures engraved");
    expect(said).toContain("Setting the pages");
    expect(said.endsWith("\r\u001b[K")).toBe(true);
  });

  test.each(["1 of 12 pictures", "Setting the pages"])(
    "leaves nothing behind when it is stopped at: %s",
    async (moment) => {
      const controller = new AbortController();
      let said = "";
      let clock = 0;
      const world = worldOf({
        watched: true,
        now: () => (clock += 2000),
        interruption: () => controller.signal,
        err: (text) => {
          said += text;
          if (text.includes(moment)) controller.abort();
        },
      });
      expect(await run(words, world)).toBe(130);
      expect(said).toContain("Stopped. No page is left half written.\n");
      expect(files()).toEqual([]);
    },
  );
});

test("a plan with errors is printed as far as it could be read, and it is said", () => {
  folder.write("plan.practice", `${SMALL}\nexercise "Broken" { in "Nowhere" }\n`);
  const { out, err, code } = folder.run(["print", "day", "--on", "2026-09-08", "--player", "K. M."]);
  expect(err).toMatch(
    /^plan\.practice has \d+ errors?; the pages hold what could be read\. “leadpipe check” says more\.\n$/,
  );
  expect({ out, code }).toEqual({ out: "K. M., Tue 2026-09-08.pdf\n", code: 0 });
});

test("letters that no face has are named, and the page is printed all the same", () => {
  folder.write("plan.practice", SMALL.replaceAll("Fifths", "朝の歌"));
  const { out, err, code } = folder.run(["print", "day", "--on", "2026-09-08", "--player", "K. M."]);
  expect(err).toBe("The faces of these pages lack 3 letters, for which an empty box stands: 朝 の 歌\n");
  expect({ out, code }).toEqual({ out: "K. M., Tue 2026-09-08.pdf\n", code: 0 });
});

/** A world in memory around the real threads, as the shipped command starts them. */
function worldOf(more: Partial<World>): World {
  const beside = dirname(bundled());
  return {
    cwd: folder.path,
    readInput: async () => new Uint8Array(),
    out: () => {},
    err: () => {},
    paint: NO_PAINT,
    watched: false,
    engraver: async () => launchEngraver(join(beside, "engraver.cjs")),
    press: async () => launchPress(join(beside, "press.cjs")),
    interruption: () => new AbortController().signal,
    today: () => new Date(2026, 8, 9, 12),
    now: () => 0,
    git: async () => undefined,
    ...more,
  };
}
