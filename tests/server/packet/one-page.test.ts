/** A day fits one page: the fullest day of each player in each term of the sample studio, on paper and in a browser. */
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { printedSheets, reckonedSheets } from "../../../server/output/packet-print";
import { dayChoice, type Wanted } from "../../../server/pages/sheet-choice";
import { daySheet } from "../../../server/pages/sheet-day";
import { sheetsHtml } from "../../../server/pages/sheet-html";
import { likelyHeight, sheetHeight } from "../../../server/pages/sheet-measure";
import { STAFF_PIXELS } from "../../../server/pages/sheet-picture";
import type { PageStyle, Sheet } from "../../../server/pages/sheet-style";
import { minutes } from "../../../server/rules/words";
import { findProgram } from "../../editor/find-program";
import { programs } from "../../editor/programs";
import { Examined, ROOT, sampleTerms, type Workshop, workshop } from "./printing";

type WantedDay = Extract<Wanted, { kind: "day" }>;

const PLAYERS = ["First-years", "L. F.", "Intermediates", "T. O.", "Seniors", "R. A."];
const FILES = ["2025-26", "2026-27"].flatMap((year) =>
  readdirSync(join(ROOT, "samples", year))
    .filter((name) => !name.startsWith("record"))
    .map((name) => `${year}/${name}`),
);
const STYLES = [
  ["A4", { paper: "a4", large: false }],
  ["US Letter", { paper: "letter", large: false }],
] as const satisfies readonly (readonly [string, PageStyle])[];

/** How high a day is when everything on it is set under each other. */
function height({ of, fingerings }: WantedDay): number {
  const sheet = daySheet(of, { staff: 5.4, width: 188, fingerings, keysWritten: 1, density: "closest" });
  return sheetHeight(sheet, { paper: "a4", words: 9.5 }, likelyHeight);
}

const fullest = FILES.flatMap((file) =>
  PLAYERS.flatMap((player) =>
    sampleTerms(file, player).map((asked) => {
      const days = asked.term.days
        .flatMap((day) => dayChoice([asked], day.date, false))
        .filter((each) => each.kind === "day");
      return days.reduce((most, each) => (height(each) > height(most) ? each : most));
    }),
  ),
);

/** Heights of the staves of a sheet, in millimetres. */
function stavesOf(sheet: Sheet): readonly number[] {
  if (sheet.kind === "week") return [];
  return sheet.sheet.sessions.flatMap(({ lines }) =>
    lines.flatMap((line) =>
      line.kind === "item" ? line.music.map(({ picture }) => picture.scale * STAFF_PIXELS) : [],
    ),
  );
}

let works: Workshop;
beforeAll(async () => {
  works = await workshop();
});
afterAll(() => works.stop());

it("a fullest day is found for every player and term", () => {
  expect(fullest).toHaveLength(36);
});

describe.each(STYLES)("the fullest day of each player and term on %s", (_, style) => {
  const kept = new Map<string, string>();

  it("takes one page, with everything that is asked", async () => {
    const { pdf, overlong, failed } = await printedSheets(fullest, "Fullest", style, works, kept);
    expect(overlong).toEqual([]);
    expect(failed).toEqual([]);
    const file = new Examined(pdf);
    try {
      expect(await file.pages()).toBe(fullest.length);
      for (const [index, { of }] of fullest.entries()) {
        const text = (await file.text(index + 1)).replaceAll(" ", "");
        const { day, term } = of;
        const words = [
          term.player.name,
          "Howitfelt",
          "Signed",
          minutes(day.totals.clock),
          minutes(day.totals.playing),
          minutes(day.totals.upper),
          minutes(day.totals.stretch),
          `load${Math.round(day.totals.load)}`,
        ];
        // A line may break anywhere between two words, with another column's between them.
        for (const session of day.sessions)
          words.push(
            session.session.name,
            minutes(session.clock),
            ...session.items.flatMap(({ exercise, bpm }) => [
              ...exercise.name.split(" "),
              bpm === undefined ? "" : `=${bpm}`,
            ]),
          );
        for (const word of words) expect(text).toContain(word.replaceAll(" ", ""));
      }
    } finally {
      file.remove();
    }
  }, 120_000);

  it("has staves that are read from a stand", async () => {
    const { sheets } = await reckonedSheets(fullest, style, works);
    const staves = sheets.flatMap(stavesOf);
    expect(staves.length).toBeGreaterThan(300);
    expect(Math.min(...staves)).toBeGreaterThanOrEqual(5);
  }, 120_000);
});

/** Debian's Chromium; undefined where it is not installed. */
const executablePath = findProgram(programs.chromium);
const where = executablePath === undefined ? " (not checked: there is no Chromium here)" : "";

describe.skipIf(executablePath === undefined)(`pages for a browser${where}`, () => {
  it.each(STYLES)(
    "take one sheet of %s a day too",
    async (_, style) => {
      const { sheets, made } = await reckonedSheets(fullest, style, works);
      const folder = mkdtempSync(join(tmpdir(), "leadpipe-day-"));
      const browser = await chromium.launch({
        executablePath: executablePath ?? "",
        args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--host-resolver-rules=MAP * ~NOTFOUND"],
      });
      try {
        const path = join(folder, "days.html");
        writeFileSync(path, sheetsHtml(sheets, "Fullest", style, made.of));
        const page = await browser.newPage();
        await page.goto(pathToFileURL(path).href);
        const file = new Examined(await page.pdf({ preferCSSPageSize: true }));
        try {
          expect(await file.pages()).toBe(fullest.length);
        } finally {
          file.remove();
        }
      } finally {
        await browser.close();
        rmSync(folder, { recursive: true });
      }
    },
    120_000,
  );
});
