import { describe, expect, test } from "vitest";
import { CAUTION } from "../../../server/output/totals-text";
import { compareReport } from "../../../server/pages/compare-report";
import { compared } from "../compare/sides";
import { FIRST_AUTUMN, SECOND_AUTUMN } from "../compare/story";
import { tablesOf } from "./tables-of";

const PICTURES = new Map([
  [
    "Bells",
    { before: '<svg role="img" aria-label="old"></svg>', after: '<svg role="img" aria-label="new"></svg>' },
  ],
]);

function pageOf(before: string, after: string): string {
  return compareReport({
    comparison: compared(before, after),
    sides: { before: "last year", after: "this <year>" },
    unread: ["a.practice (last year): 1 place cannot be read. The rest is compared."],
    pictures: PICTURES,
    caution: CAUTION,
  });
}

/** The figures are those worked out by hand in `story.ts`. */
describe("a comparison's page", () => {
  const page = pageOf(FIRST_AUTUMN, SECOND_AUTUMN);
  const tables = tablesOf(page);

  test("says what the text says", () => {
    const said = [...page.matchAll(/<li>([^<]*)/g)].map((match) => match[1]);
    expect(said).toEqual(
      expect.arrayContaining([
        "a.practice (last year): 1 place cannot be read. The rest is compared.",
        "new: “March”",
        "gone: “Hymn”",
        "“Fifths” is called “Slow fifths” now",
        "“Bells”: bar 2 rewritten; bar 4 put in; tempo quarter = 88, was quarter = 80",
        "“K. M.”: limit F♯3 to A5, was F♯3 to B♭5",
        "Mon 2026-09-07 to Fri 2026-09-18, was Mon 2025-09-08 to Fri 2025-09-19",
        "goal “by heart” by week 1, was week 2",
        "“March”: weeks 1 to 2, 4 times through, 0:40",
        "“Hymn”: weeks 1 to 2, 4 times through, 1:12",
        "“Slow fifths”: D major in week 2, 1 week later; E major in week 1, 1 week earlier; F major no more (was week 2)",
        "“Slow fifths”: quarter = 80 to 120, was 60 to 80",
      ]),
    );
    expect(said.some((each) => each?.startsWith("gone: warning date-outside"))).toBe(true);
  });

  test("has the weeks before and after in one table and one chart each", () => {
    expect(tables.get("Each week before and after")).toEqual([
      ["Week", "Clock before", "after", "Playing before", "after", "Upper before", "after"],
      ["1", "1:36", "1:04", "1:04", "0:40", "0:08", "0:08"],
      ["2", "1:20", "0:48", "0:56", "0:32", "0:08", "0:08"],
    ]);
    expect(page).toContain("Together 2:56 before and 1:52 after.");
    expect(tables.get("Share of the clock time, before and after")).toEqual([
      ["Area", "Before", "After", "Before, time", "After, time"],
      ["Songs", "39.1 %", "33.3 %", "1:12", "0:40"],
      ["Tones", "60.9 %", "66.7 %", "1:52", "1:20"],
    ]);
  });

  test("has rewritten exercises as notation side by side", () => {
    expect(page).toMatch(
      /“Bells”:[\s\S]*<figcaption>before<\/figcaption><svg role="img" aria-label="old">[\s\S]*<figcaption>after<\/figcaption><svg role="img" aria-label="new">/,
    );
  });

  test("escapes what it is told, and runs nothing", () => {
    expect(page).toContain("this &lt;year&gt;, beside last year");
    expect(page).not.toMatch(/<script|<link|\son\w+=/i);
  });

  test("of plans that mean the same says so", () => {
    expect(pageOf(FIRST_AUTUMN, FIRST_AUTUMN)).toContain("<p>These plans mean the same.</p>");
  });
});
