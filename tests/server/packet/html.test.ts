import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { engravings } from "../../../server/output/packet-engraving";
import { packetTasks } from "../../../server/output/packet-files";
import { packetLook, reckonedSheets } from "../../../server/output/packet-print";
import { packetChoice, weekChoice } from "../../../server/pages/sheet-choice";
import { packetHtml, sheetsHtml } from "../../../server/pages/sheet-html";
import { packet } from "../../../server/pages/sheet-packet";
import type { PageStyle } from "../../../server/pages/sheet-style";
import { termsOfText, type Workshop, workshop } from "./printing";
import { STUDIO } from "./studio";

const A4: PageStyle = { paper: "a4", large: false };
const [autumn] = termsOfText(STUDIO.replaceAll("Étu", "<b>&Étu"), "K. M.");

let works: Workshop;
let week: string;
let book: string;
beforeAll(async () => {
  works = await workshop();
  if (autumn === undefined) throw new Error("no term");
  const wanted = weekChoice(autumn, 2, { days: true, fingerings: false });
  const { sheets, made } = await reckonedSheets(wanted, A4, works);
  week = sheetsHtml(sheets, "Week 2", A4, made.of);
  const { plan, term } = autumn;
  const { player } = term;
  const { instrument } = player;
  const choice = {
    title: "Book",
    lines: ["K. M."],
    plan,
    instrument,
    player,
    terms: [term],
    keys: "travelled",
  } as const;
  const pages = packet(packetChoice(choice, plan.exercises), packetLook(A4, false));
  book = packetHtml(pages, A4, (await engravings(packetTasks(pages), works, new Map())).of);
});
afterAll(() => works.stop());

function plain(html: string): string {
  const body = html.replace(/<style>[\s\S]*?<\/style>/g, "").replace(/<svg class="mark"[\s\S]*?<\/svg>/g, "");
  return body.replace(/<[^>]*>/g, " ").replace(/\s+/g, " ");
}

describe("pages for a browser", () => {
  it("say what the pages on paper say", () => {
    const text = plain(week);
    for (const words of [
      "K. M.",
      "Monday 14 September 2026",
      "“listen before you play”",
      "Slow fifths",
      "E♭ major, twice, half = 52, rest 7 s",
      "Short version, 4 min:",
      "Clock",
      "The whole week:",
      "How it felt, 0 to 10",
      "Stop when it hurts",
    ]) {
      expect(text).toContain(words);
    }
    expect(plain(book)).toContain("half = 50, growing to 54 · low C (C4) to top-space E (E5)");
  });

  it("hold no script and nothing from elsewhere, and titles are no markup", () => {
    for (const html of [week, book]) {
      expect(html).not.toMatch(
        /<script|javascript:|@import|url\(|<link|<img|https?:\/\/(?!www\.w3\.org\/2000\/svg)/,
      );
      expect(html).not.toContain("<b>&");
      expect(html).toContain("&lt;b&gt;&amp;Études");
    }
  });

  it("name every picture, and nothing twice", () => {
    for (const html of [week, book]) {
      const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
      expect(new Set(ids).size).toBe(ids.length);
      const pictures = [...html.matchAll(/<svg xmlns="[^"]*" role="img"[^>]*>/g)].map((match) => match[0]);
      expect(pictures.length).toBeGreaterThan(5);
      for (const picture of pictures) expect(picture).toMatch(/ width="[\d.]+mm" aria-label="[^"]{10,}"/);
      // What is used is there.
      for (const [, used] of html.matchAll(/ href="#([^"]*)"/g)) expect(ids).toContain(used);
    }
  });

  it("begin each sheet on a page of its own paper", () => {
    expect(week.match(/<section class="sheet"/g)).toHaveLength(6);
    expect(week).toContain("@page { size: A4;");
    expect(sheetsHtml([], "None", { paper: "letter", large: true }, () => "")).toContain(
      "@page { size: letter;",
    );
  });
});
