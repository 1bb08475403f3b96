import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { parseMidi } from "midi-file";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { readBack } from "../notation/read-back";
import { musicXmlSchema } from "../notation/schema";
import { bundled, Folder, SMALL } from "./command";

const MORE = `
exercise "Ladder" {
  in "Tones"
  meter 4/4
  tempo 1/4 = 80
  partials { 1/4 lip (2 3 4 3) | 1/1 2 ' | }
}

exercise "Sirens" {
  in "Tones"
  activity mouthpiece
  loads lips
  lasts 1 min
}

exercise "March" {
  in "Tones"
  printed "March book" page 2
  range C4 to G5
  tempo 1/4 = 96
  lasts 2 min
}
`;

let folder: Folder;
beforeEach(() => {
  folder = new Folder({ "plan.practice": SMALL + MORE });
});
afterEach(() => folder.remove());

const text = (name: string): string => readFileSync(join(folder.path, name), "utf8");

describe("one exercise", () => {
  test("is written as MusicXML under its own name", () => {
    const { out, err, code } = folder.run(["write", "Fifths"]);
    expect({ out, err, code }).toEqual({ out: "Fifths.musicxml\n", err: "", code: 0 });
    expect(musicXmlSchema().faultsOf(text("Fifths.musicxml"))).toEqual([]);
    const read = readBack(text("Fifths.musicxml"));
    expect(read.title).toBe("Fifths");
    expect(read.bars.flatMap((bar) => bar.events.map((event) => event.pitch))).toEqual(["C4", "G4", "C4"]);
  });

  test("in another key and tempo, its name says the key", () => {
    const { out } = folder.run(["write", "Fifths", "--in", "Eb", "--tempo", "72", "--fingerings"]);
    expect(out).toBe("Fifths, E♭ major.musicxml\n");
    const read = readBack(text("Fifths, E♭ major.musicxml"));
    expect(read.tempo).toBe(72);
    expect(read.bars[0]?.events.map((event) => [event.pitch, event.fingering])).toEqual([
      ["Eb4", "23"],
      ["Bb4", "1"],
    ]);
  });

  test("what the name ends in says the form", () => {
    expect(folder.run(["write", "Fifths", "--to", "a.mid"]).code).toBe(0);
    const midi = parseMidi(readFileSync(join(folder.path, "a.mid")));
    expect(midi.header.ticksPerBeat).toBe(480);
    expect(folder.run(["write", "Fifths", "--to", "a.svg"]).code).toBe(0);
    expect(text("a.svg")).toMatch(/^<svg [^>]*><title>Fifths, C major<\/title>/);
    expect(text("a.svg")).not.toContain("currentColor");
  });

  test("to standard output", () => {
    const { out, code } = folder.run(["write", "Fifths", "--to", "-"]);
    expect(code).toBe(0);
    expect(readBack(out).title).toBe("Fifths");
    const midi = folder.run(["write", "Fifths", "--as", "midi", "--to", "-"]);
    expect(midi.code).toBe(2);
    expect(midi.err).toContain("Name a file");
  });

  test("into a folder, under its own name", () => {
    mkdirSync(join(folder.path, "out"));
    expect(folder.run(["write", "Fifths", "--as", "midi", "--to", "out"]).out).toBe("out/Fifths.mid\n");
  });

  test("partials go over all the valves, or over one combination", () => {
    folder.run(["write", "Ladder"]);
    expect(readBack(text("Ladder.musicxml")).bars.length).toBe(14);
    expect(folder.run(["write", "Ladder", "--valves", "12"]).out).toBe("Ladder, valves 12.musicxml\n");
    const read = readBack(text("Ladder, valves 12.musicxml"));
    expect(read.bars[0]?.events.map((event) => event.pitch)).toEqual(["A3", "E4", "A4", "E4"]);
  });
});

describe("what is not written", () => {
  test("an unknown exercise, with the nearest", () => {
    const { err, code } = folder.run(["write", "Fifth"]);
    expect(err).toBe("There is no exercise “Fifth” in these files. Did you mean “Fifths”?\n");
    expect(code).toBe(2);
  });

  test("exercises without notes, and why", () => {
    expect(folder.run(["write", "Sirens"]).err).toBe(
      "“Sirens” is work without notes. There is nothing to write.\n",
    );
    expect(folder.run(["write", "March"]).err).toBe(
      "“March” is printed music: Leadpipe knows its page, not its notes. There is nothing to write.\n",
    );
  });

  test.each([
    [["write"], "Name the exercise"],
    [["write", "Fifths", "--as", "pdf"], "“--as” takes musicxml, midi or svg"],
    [["write", "Fifths", "--in", "H"], "“H” is not a key"],
    [["write", "Fifths", "--valves", "12"], "goes by keys"],
    [["write", "Ladder", "--in", "F"], "carried over the valves"],
    [["write", "Ladder", "--valves", "14"], "open, 2, 1, 12, 23, 13, 123"],
    [["write", "Fifths", "--tempo", "fast"], "“--tempo” takes a whole number"],
    [["write", "Fifths", "--tempo", "1e9"], "“--tempo” takes a whole number"],
    [["write", "Fifths", "--player", "K. N."], "Did you mean “K. M.”?"],
    [["write", "--all"], "Name the folder"],
    [["write", "--all", "--to", "out", "--in", "F"], "goes with one exercise"],
  ])("%j", (words, message) => {
    const { err, code } = folder.run(words);
    expect(err).toContain(message);
    expect(err.trim().split("\n").length).toBe(1);
    expect(code).toBe(2);
    expect(readdirSync(folder.path)).toEqual(["plan.practice"]);
  });

  test("a file that is there, unless it is asked for", () => {
    writeFileSync(join(folder.path, "Fifths.musicxml"), "mine");
    const { err, code } = folder.run(["write", "Fifths"]);
    expect(err).toContain("“Fifths.musicxml” is there already");
    expect(code).toBe(2);
    expect(text("Fifths.musicxml")).toBe("mine");
    expect(folder.run(["write", "Fifths", "--force"]).code).toBe(0);
    expect(text("Fifths.musicxml")).toContain("score-partwise");
  });

  test("a folder that is not there, a folder in the file's place, a file in the folder's place", () => {
    expect(folder.run(["write", "Fifths", "--to", "none/a.mid"]).err).toBe(
      "There is no folder “none” for “a.mid”.\n",
    );
    mkdirSync(join(folder.path, "Fifths.musicxml"));
    const taken = folder.run(["write", "Fifths", "--force"]);
    expect(taken.err).toBe("“Fifths.musicxml” cannot be written. There is a folder of this name.\n");
    expect(taken.code).toBe(1);
    const within = folder.run(["write", "--all", "--to", "plan.practice"]);
    expect(within.err).toContain("cannot be made. A file stands where a folder should be.");
    expect(readdirSync(folder.path).sort()).toEqual(["Fifths.musicxml", "plan.practice"]);
  });

  test("a locked folder", () => {
    mkdirSync(join(folder.path, "locked"));
    for (const path of [folder.path, dirname(bundled())]) chmodSync(path, 0o755);
    chmodSync(join(folder.path, "locked"), 0o555);
    // Nothing is locked for the owner of the machine: then somebody else calls.
    const other = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    const ended = spawnSync(process.execPath, [bundled(), "write", "Fifths", "--to", "locked/a.mid"], {
      cwd: folder.path,
      encoding: "utf8",
      timeout: 20_000,
      ...other,
    });
    expect(ended.stderr).toBe("“a.mid” cannot be written. You are not allowed to write in this folder.\n");
    expect(ended.status).toBe(1);
    expect(readdirSync(join(folder.path, "locked"))).toEqual([]);
  });

  test.skipIf(!existsSync("/proc/version"))(
    "a place that takes no files says so, and leaves nothing behind",
    () => {
      const { err, code } = folder.run(["write", "Fifths", "--to", "/proc/a.mid"]);
      expect(err).toMatch(/^“a\.mid” cannot be written\. \S/);
      expect(code).toBe(1);
    },
  );
});

describe("a whole book", () => {
  test("goes to a folder, one file each, and says what has no notes", () => {
    const { out, code } = folder.run(["write", "--all", "--as", "midi", "--to", "new/midi"]);
    expect(out).toBe("2 files in new/midi; 2 exercises have no notes\n");
    expect(code).toBe(0);
    expect(readdirSync(join(folder.path, "new/midi")).sort()).toEqual(["Fifths.mid", "Ladder.mid"]);
  });

  test("as pictures", () => {
    expect(folder.run(["write", "--all", "--as", "svg", "--to", "out"]).code).toBe(0);
    expect(text("out/Ladder.svg")).toMatch(/^<svg /);
  });

  test("nothing is written where one file is there", () => {
    mkdirSync(join(folder.path, "out"));
    writeFileSync(join(folder.path, "out/Ladder.musicxml"), "mine");
    const { err, code } = folder.run(["write", "--all", "--to", "out"]);
    expect(err).toContain("“out/Ladder.musicxml” is there already; nothing was written.");
    expect(code).toBe(2);
    expect(readdirSync(join(folder.path, "out"))).toEqual(["Ladder.musicxml"]);
  });

  test("names fit any file system and are never alike", () => {
    const odd = (name: string): string => `exercise "${name}" like "Fifths" {\n}\n`;
    folder.write(
      "odd.practice",
      `use "plan.practice"\n${["a/b", "a:b", "A?B", "con", "../up", "..."].map(odd).join("")}${odd("é".repeat(200))}`,
    );
    const { err, code } = folder.run(["write", "--all", "odd.practice", "--to", "out"]);
    expect(err).toBe("");
    expect(code).toBe(0);
    const names = readdirSync(join(folder.path, "out"));
    expect(names.length).toBe(7);
    expect(names).toEqual(
      expect.arrayContaining([
        "a-b.musicxml",
        "a-b (2).musicxml",
        "A-B (3).musicxml",
        "con exercise.musicxml",
        "-up.musicxml",
        "exercise.musicxml",
      ]),
    );
    for (const name of names) expect(Buffer.byteLength(name)).toBeLessThan(255);
  });
});

test("an exercise with mistakes is written as far as it can be read", () => {
  folder.write(
    "bad.practice",
    'area "A"\nexercise "Bad" {\n  in "A"\n  key C major\n  meter 4/4\n  tempo 1/4 = 60\n  music { 1/4 C4 nonsense E4 (F4 | G4 X9 | }\n}\n',
  );
  const { code } = folder.run(["write", "Bad", "bad.practice"]);
  expect(code).toBe(0);
  expect(musicXmlSchema().faultsOf(text("Bad.musicxml"))).toEqual([]);
});

test("an exercise of which no note can be read is not written", () => {
  folder.write(
    "bad.practice",
    'area "A"\nexercise "Bad" {\n  in "A"\n  key C major\n  meter 4/4\n  tempo 1/4 = 60\n  music { }\n}\n',
  );
  const { err, code } = folder.run(["write", "Bad", "bad.practice"]);
  expect(err).toBe("No note of “Bad” can be read; “leadpipe check” says why. There is nothing to write.\n");
  expect(code).toBe(2);
});

test("five hundred bars", () => {
  folder.write(
    "long.practice",
    `area "A"\nexercise "Long" {\n  in "A"\n  key C major\n  meter 4/4\n  tempo 1/4 = 60\n  music { ${"1/8 C4 D4 E4 F4 G4 A4 B4 C5 | ".repeat(500)} }\n}\n`,
  );
  for (const form of ["musicxml", "midi", "svg"]) {
    const { code, err } = folder.run(["write", "Long", "--as", form, "long.practice"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
  }
});

test("help shows the verb", () => {
  expect(folder.run(["write", "--help"]).out).toContain("--fingerings");
  expect(folder.run(["help"]).out).toContain('leadpipe write "Exercise"');
});
