import { describe, expect, test } from "vitest";
import { EDITOR_COLOURS, figureChart } from "../../../server/pages/figure-chart";
import { markSign, withMarks } from "../../../server/pages/notation-marks";

const column = (label: string, share: number | undefined) => ({ label, share, over: (share ?? 0) > 1 });
const chart = (...columns: ReturnType<typeof column>[]): string =>
  figureChart("Clock & all", "Nothing <over>.", columns, EDITOR_COLOURS);

/** Heights of the full columns, in pixels. */
function heights(svg: string): readonly number[] {
  return [...svg.matchAll(/height="([\d.]+)" fill="var/g)].map(([, height]) => Number(height));
}

describe("a chart of figures against what is allowed", () => {
  test("draws columns as high as their shares", () => {
    const [half = 0, whole = 0] = heights(chart(column("Mo", 0.5), column("Tu", 1)));
    expect(half).toBeCloseTo(whole / 2, 0);
  });

  test("says what is over by a shape of its own, above the line", () => {
    expect(chart(column("Mo", 0.9))).not.toContain(' z"');
    const over = chart(column("Mo", 0.9), column("Tu", 1.4));
    expect(over.match(/ z"/g)).toHaveLength(1);
    expect(over.match(/fill="none" stroke="var\(--vscode-charts-red/g)).toHaveLength(1);
    // Far over is cut, not drawn out of the picture.
    expect(Math.max(...heights(chart(column("Mo", 50))))).toBeLessThan(104);
  });

  test("names itself, with every sign of the words escaped, and holds no style", () => {
    const svg = chart(column("<b>", 0.2));
    expect(svg).toContain("<title>Clock &amp; all</title><desc>Nothing &lt;over&gt;.</desc>");
    expect(svg).toContain("&lt;b&gt;");
    expect(svg).not.toMatch(/style|<b>/);
  });

  test("leaves out labels that would touch", () => {
    const weeks = Array.from({ length: 30 }, (_, index) => column(String(index + 1), 0.5));
    expect(chart(...weeks).match(/text-anchor/g)?.length).toBeLessThan(30);
    expect(chart(...weeks.slice(0, 7)).match(/text-anchor/g)).toHaveLength(7);
  });
});

describe("marks on notes", () => {
  const SVG =
    '<svg><g id="e0" class="note"><g><use href="#g1" transform="translate(100, 200) scale(0.72, 0.72)"/></g></g><g id="e1" class="rest"><use transform="translate(5, 5)"/></g></svg>';

  test("give every note a field to point at, and each mark a shape of its own", () => {
    const drawn = withMarks(SVG, new Map([["e0", ["upper", "never", "breath"]]]));
    expect(drawn.match(/class="field"/g)).toHaveLength(1);
    expect(drawn.match(/class="mark (\w+)"/g)).toEqual(['class="mark upper"', 'class="mark never"']);
    expect(drawn).toContain("translate(210 200)");
    const shapes = ["upper", "beyond", "never", "breath"] as const;
    expect(new Set(shapes.map(markSign)).size).toBe(4);
  });
});
