import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Density } from "../../../server/notation/engrave";
import { packetFiles } from "../../../server/output/packet-files";
import {
  type Printed,
  packetLook,
  printedPacket,
  printedSheets,
  reckonedSheets,
} from "../../../server/output/packet-print";
import { PressError } from "../../../server/output/press";
import { dayChoice, packetChoice, type Wanted, weekChoice } from "../../../server/pages/sheet-choice";
import { daySheet } from "../../../server/pages/sheet-day";
import { type Packet, packet } from "../../../server/pages/sheet-packet";
import { trimmed } from "../../../server/pages/sheet-picture";
import type { PageStyle } from "../../../server/pages/sheet-style";
import { parseDate } from "../../../server/plan/date";
import { Examined, sampleTerms, termsOfText, type Workshop, workshop } from "./printing";
import { STUDIO } from "./studio";

const A4: PageStyle = { paper: "a4", large: false };

let works: Workshop;
beforeAll(async () => {
  works = await workshop();
});
afterAll(() => works.stop());

function day(text: string, player: string, date: string): readonly Wanted[] {
  return dayChoice(termsOfText(text, player), parseDate(date) ?? 0, false);
}

function sampleDay(player: string, date: string): readonly Wanted[] {
  return dayChoice(sampleTerms("2026-27/spring.practice", player), parseDate(date) ?? 0, false);
}

async function examined<T>(pdf: Uint8Array, look: (file: Examined) => Promise<T>): Promise<T> {
  const file = new Examined(pdf);
  try {
    return await look(file);
  } finally {
    file.remove();
  }
}

describe("a day on paper", () => {
  const wanted = day(STUDIO, "K. M.", "2026-09-14");
  let made: Printed;
  beforeAll(async () => {
    made = await printedSheets(wanted, "K. M., Monday", A4, works);
  });

  it("is a sound file on one page, tagged, with all its fonts embedded as subsets", async () => {
    await examined(made.pdf, async (file) => {
      expect(await file.check()).toContain("No syntax or stream encoding errors found");
      expect(await file.pages()).toBe(1);
      expect(await file.paper()).toContain("A4");
      expect(await file.isTagged()).toBe(true);
      const fonts = await file.fonts();
      expect(fonts.length).toBeGreaterThan(2);
      expect(fonts.filter((each) => !each.embedded || !each.subset)).toEqual([]);
    });
    expect(made).toMatchObject({ overlong: [], missing: [], failed: [] });
  });

  it("holds every word of its data: names, tempi, keys, figures, signs that mean something elsewhere", async () => {
    const [first] = wanted;
    if (first?.kind !== "day") throw new Error("no day");
    const sheet = daySheet(first.of, { staff: 7, width: 180, fingerings: false, keysWritten: 3 });
    const words = [sheet.player, sheet.day, sheet.aim, ...sheet.ahead, ...Object.values(sheet.totals)];
    for (const line of sheet.sessions.flatMap((session) => session.lines)) {
      if (line.kind === "pause") words.push(line.text);
      else
        words.push(
          line.name,
          line.where,
          line.amount,
          line.tempo?.value ?? "",
          line.rest,
          line.clock,
          line.aim,
        );
    }
    const text = (await examined(made.pdf, (file) => file.text())).replaceAll(" ", "");
    // A line may break anywhere between two words.
    for (const word of words.flatMap((each) => each.split(" "))) expect(text).toContain(word);
  });

  it("holds the words inside the music too", async () => {
    expect(await examined(made.pdf, (file) => file.text())).toContain("lip slur");
  });

  it("says in words what each picture shows", async () => {
    const alternatives = await examined(made.pdf, (file) => file.alternatives());
    expect(alternatives).toContain("Slow fifths in E♭ major, 3 bars, from first-line E♭ to top-space E♭");
    expect(alternatives.length).toBeGreaterThanOrEqual(5);
  });

  it("is the same file, byte for byte, when it is printed again", async () => {
    const again = await printedSheets(wanted, "K. M., Monday", A4, works);
    expect(Buffer.from(again.pdf).equals(Buffer.from(made.pdf))).toBe(true);
  });

  it("comes on US Letter", async () => {
    const { pdf } = await printedSheets(wanted, "Letter", { paper: "letter", large: false }, works);
    expect(await examined(pdf, (file) => file.paper())).toContain("612 x 792");
  });

  it("still reads when it is copied in black and white", async () => {
    const { width, height, grey } = await examined(made.pdf, (file) => file.pixels(1));
    const black = grey.filter((each) => each < 128).length / (width * height);
    // Staff lines, notes and words: were they grey or thin, hardly a dot would be left of them.
    expect(black).toBeGreaterThan(0.02);
    const coloured = grey.filter((each) => each > 100 && each < 155).length / (width * height);
    expect(coloured).toBeLessThan(black);
    // Nothing stands in the margins, where a copier would lose it.
    const margin = Math.round(width * (8 / 210));
    for (let y = 0; y < height; y++) {
      const row = grey.subarray(y * width, (y + 1) * width);
      expect(Math.min(...row.subarray(0, margin), ...row.subarray(width - margin))).toBeGreaterThan(200);
    }
  });
});

describe("fitting a page", () => {
  it.each([
    ["L. F.", "2027-01-11"],
    ["L. F.", "2027-03-05"],
  ])("a first-year's day goes on one: %s, %s", async (player, date) => {
    const { pdf, overlong } = await printedSheets(sampleDay(player, date), "Day", A4, works);
    expect(overlong).toEqual([]);
    expect(await examined(pdf, (file) => file.pages())).toBe(1);
  });

  it("a day that cannot says how many pages it takes, and loses nothing", async () => {
    const lines = Array.from({ length: 30 }, (_, index) =>
      index % 2 === 0 ? '"Slow fifths" twice' : '"Study" once',
    );
    const text = STUDIO.replace('      "Breathing" once\n', `      ${lines.join("\n      ")}\n`);
    const { pdf, overlong } = await printedSheets(day(text, "K. M.", "2026-09-14"), "Day", A4, works);
    expect(overlong.map((each) => each.pages)).toEqual([2]);
    await examined(pdf, async (file) => {
      expect(await file.pages()).toBe(2);
      const words = await file.text();
      expect(words.match(/Slow fifths /g)?.length).toBeGreaterThanOrEqual(16);
      expect(words.match(/Quayside studies/g)).toHaveLength(16);
    });
  });

  it("a dense picture is lower, then narrower too, and leaves the next one as it was", async () => {
    const [engraver] = works.engravers;
    if (engraver === undefined) throw new Error("no engraver");
    const [first] = sampleDay("R. A.", "2027-01-11");
    if (first?.kind !== "day") throw new Error("no day");
    const sheet = daySheet(first.of, { staff: 7, width: 400, fingerings: false, keysWritten: 1 });
    const line = sheet.sessions
      .flatMap(({ lines }) => lines)
      .find((each) => each.kind === "item" && each.name === "Swinging gate");
    const task = line?.kind === "item" ? line.music[0]?.picture.task : undefined;
    if (task === undefined) throw new Error("no music");
    const roomy = await engraver.engrave(task);
    const size = async (density: Density) => trimmed(await engraver.engrave({ ...task, density }));
    const [low, close, closest] = [await size("low"), await size("close"), await size("closest")];
    expect(low.height).toBeLessThan(0.9 * trimmed(roomy).height);
    expect(low.width).toBe(trimmed(roomy).width);
    expect(close.width).toBeLessThan(0.9 * low.width);
    expect(closest.width).toBeLessThan(close.width);
    expect(await engraver.engrave(task)).toBe(roomy);
  });

  it("large print takes the pages it needs", async () => {
    const wanted = sampleDay("L. F.", "2027-01-11");
    const { pdf } = await printedSheets(wanted, "Day", { paper: "a4", large: true }, works);
    expect(await examined(pdf, (file) => file.pages())).toBeGreaterThan(1);
  });

  it("is reckoned nearly as the press finds it", async () => {
    const { sheets } = await reckonedSheets(sampleDay("L. F.", "2027-01-11"), A4, works);
    const [first] = sheets;
    if (first?.kind !== "day") throw new Error("no day");
    const [picture] = first.sheet.sessions.flatMap(({ lines }) =>
      lines.flatMap((line) => (line.kind === "item" ? line.music.map((each) => each.picture) : [])),
    );
    expect(picture?.scale).toBeLessThan(8 / 36);
    expect(picture?.scale).toBeGreaterThan(5.3 / 36);
  });
});

describe("a week on paper", () => {
  it("has an overview and its days, each under a bookmark on its page", async () => {
    const [autumn] = termsOfText(STUDIO, "K. M.");
    if (autumn === undefined) throw new Error("no term");
    const wanted = weekChoice(autumn, 2, { days: true, fingerings: false });
    const { pdf } = await printedSheets(wanted, "Week", A4, works);
    await examined(pdf, async (file) => {
      expect(await file.pages()).toBe(6);
      const marks = await file.bookmarks();
      const sheets = marks.filter((each) => each.depth === 0);
      expect(sheets.map((each) => each.page)).toEqual([1, 2, 3, 4, 5, 6]);
      expect(sheets[2]?.title.replace(/\s+/g, " ")).toBe("K. M. Tuesday 15 September 2026");
      expect(await file.text(1)).toContain("The whole week");
      expect(await file.text(3)).toContain("Lesson today");
    });
  });
});

describe("a packet on paper", () => {
  let made: Packet;
  let printed: Printed;
  beforeAll(async () => {
    const [spring] = sampleTerms("2026-27/spring.practice", "L. F.");
    if (spring === undefined) throw new Error("no term");
    const { plan, term } = spring;
    const { player } = term;
    const { instrument } = player;
    const choice = { title: "Spring", lines: ["L. F."], plan, instrument, player, terms: [term] };
    made = packet(packetChoice({ ...choice, keys: "travelled" }, plan.exercises), packetLook(A4, true));
    printed = await printedPacket(made, A4, works);
  });

  it("has a bookmark for each area, exercise and key, which lands where it stands", async () => {
    await examined(printed.pdf, async (file) => {
      expect(await file.check()).toContain("No syntax or stream encoding errors found");
      const marks = await file.bookmarks();
      const areas = made.areas.length;
      const exercises = made.areas.flatMap((area) => area.exercises);
      const keys = exercises.flatMap(({ music }) => (music.length > 1 ? music : []));
      expect(marks).toHaveLength(areas + exercises.length + keys.length);
      const texts = new Map<number, string>();
      for (const { title, page } of marks) {
        const text = texts.get(page) ?? (await file.text(page));
        texts.set(page, text);
        expect(text).toContain(title.normalize("NFC"));
      }
    });
  });

  it("begins with a title page with the cautions, and contents that name every exercise", async () => {
    await examined(printed.pdf, async (file) => {
      expect(await file.text(1)).toMatch(/Spring.*L\. F\..*Stop when it hurts/);
      const contents = await file.text(2);
      for (const { exercises } of made.areas)
        for (const { name } of exercises) expect(contents).toContain(name);
    });
  });

  it("leaves no heading alone at the foot of a page", async () => {
    await examined(printed.pdf, async (file) => {
      const pages = await file.pages();
      for (let page = 3; page <= pages; page++) {
        const text = await file.text(page);
        const body = text.slice(0, text.indexOf("Stop when it hurts")).trim();
        const headings = made.areas.flatMap((area) => area.exercises.map((each) => each.name));
        for (const heading of headings) expect(body.endsWith(heading)).toBe(false);
      }
    });
  });

  it("has fingerings under the notes of a first-year", async () => {
    const text = await examined(printed.pdf, (file) => file.text());
    expect(text).toMatch(/\b123\b/);
  });
});

describe("letters", () => {
  const names = (name: string): string =>
    STUDIO.replaceAll('"Slow fifths"', `"${name}"`).replaceAll("Slow fifths from memory", "From memory");

  it.each([
    ["accents of Europe", "Łódź, žluťoučký, Þór, ǅ, ẞ", []],
    ["Greek and Cyrillic", "Ωδή и песня", []],
    ["letters from right to left", "שיר ערב", []],
    ["letters no face has", "朝の歌", ["朝", "の", "歌"]],
    ["a very long word", `${"Donaudampfschifffahrts".repeat(12)}lied`, []],
  ])("%s are printed, or named where they cannot be", async (_, name, missing) => {
    const made = await printedSheets(day(names(name), "K. M.", "2026-09-14"), "Letters", A4, works);
    expect(made.missing).toEqual(missing);
    if (missing.length > 0) return;
    const text = await examined(made.pdf, (file) => file.text());
    const plain = text.replace(/[\s\u200b\u202a-\u202e\u200e\u200f]/g, "");
    for (const word of name.split(/[\s,]+/)) {
      const turned = [...word].reverse().join("");
      expect(plain.includes(word) || plain.includes(turned)).toBe(true);
    }
  });
});

it("whatever stands in a name, the page is set", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.string({ unit: "binary", minLength: 1, maxLength: 80 }),
      fc.constantFrom("a4", "letter"),
      async (name, paper) => {
        const exercise = { name, aims: [name], tempo: undefined, facts: [name], without: name, music: [] };
        const made: Packet = {
          title: name,
          lines: [name],
          areas: [{ name, aims: [name], exercises: [exercise] }],
        };
        const { pdf } = await works.press.print(packetFiles(made, { paper, large: false }, () => ""));
        expect(Buffer.from(pdf.subarray(0, 5)).toString()).toBe("%PDF-");
      },
    ),
    { seed: 20260907, numRuns: 60 },
  );
});

describe("what goes wrong", () => {
  it("one piece of music that cannot be engraved costs its picture and nothing else", async () => {
    const { EngravingError } = await import("../../../server/notation/engrave");
    const [engraver] = works.engravers;
    if (engraver === undefined) throw new Error("no engraver");
    const picky = {
      engrave: (task: Parameters<typeof engraver.engrave>[0]) =>
        task.title.startsWith("Two rungs")
          ? Promise.reject(new EngravingError("no"))
          : engraver.engrave(task),
    };
    const made = await printedSheets(day(STUDIO, "K. M.", "2026-09-14"), "Day", A4, {
      ...works,
      engravers: [picky],
    });
    expect(made.failed).toContain("Two rungs, open, 2 bars, from low C to second-line G");
    expect(await examined(made.pdf, (file) => file.text())).toContain("Two rungs");
  });

  it("files that are no pages are refused in plain words, and the press goes on", async () => {
    const broken = new Map([["/main.typ", '#panic("x")']]);
    await expect(works.press.print(broken)).rejects.toThrow(PressError);
    await expect(works.press.print(broken)).rejects.toThrow("The pages could not be set.");
    const sound = new Map([
      ["/main.typ", '#metadata((id: "a", page: 1)) <end>\nSound'],
      ["/data.json", "{}"],
    ]);
    expect((await works.press.print(sound)).pdf.length).toBeGreaterThan(500);
  });

  it("who stops the work is not kept waiting", async () => {
    const controller = new AbortController();
    const waiting = works.press.print(
      new Map([["/main.typ", "#for i in range(3000) [#lorem(400)]"]]),
      controller.signal,
    );
    controller.abort(new Error("enough"));
    await expect(waiting).rejects.toThrow("enough");
    const sound = new Map([["/main.typ", "Sound"]]);
    expect((await works.press.print(sound)).spans).toEqual([]);
  });

  it("a title page alone is set where a packet holds nothing", async () => {
    const empty: Packet = { title: "Empty", lines: [], areas: [] };
    const { pdf } = await works.press.print(packetFiles(empty, A4, () => ""));
    expect(await examined(pdf, (file) => file.text())).toContain("Empty");
  });
});
