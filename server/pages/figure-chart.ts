/** Columns of figures against what is allowed, as SVG text that stands on a page, on paper or in an editor. */
import { escaped } from "../notation/xml-text";

export interface Column {
  /** What stands under it: `Mon`, `4`. */
  readonly label: string;
  /** Part of what is allowed, 1 being all of it; undefined where nothing limits it, or there is nothing. */
  readonly share: number | undefined;
  readonly over: boolean;
}

/** Colours by what they are for: CSS colours, or variables of an editor. */
export interface ChartColours {
  readonly within: string;
  readonly over: string;
  readonly text: string;
  readonly line: string;
}

/** The colours of charts in VS Code's themes; in themes that have none, those of its text. */
export const EDITOR_COLOURS: ChartColours = {
  within: "var(--vscode-charts-blue, currentColor)",
  over: "var(--vscode-charts-red, currentColor)",
  text: "var(--vscode-foreground, currentColor)",
  line: "var(--vscode-descriptionForeground, currentColor)",
};

const HEIGHT = 104;
const TOP = 16;
const BOTTOM = 20;
const LEFT = 4;
/** Room at the right for the word at the line. */
const RIGHT = 52;
/** Shares beyond this are cut, with a sign that they go on. */
const MOST = 2;
/** Pixels from column to column. */
const STEP = { least: 14, most: 64 };
/** Pixels of a letter, on the whole. */
const LETTER = 6.5;

/**
 * The chart. What is over stands above the line as an empty column under a pointed sign, so that it is told apart
 * without its colour.
 */
export function figureChart(
  title: string,
  description: string,
  columns: readonly Column[],
  colours: ChartColours,
): string {
  const longest = Math.max(1, ...columns.map(({ label }) => label.length));
  // A few columns stand as far apart as their labels need; many share a page's width.
  const wanted = Math.min(Math.max(26, longest * LETTER + 8), 210 / Math.max(1, columns.length));
  const step = Math.max(STEP.least, Math.min(STEP.most, wanted));
  const width = Math.round(LEFT + RIGHT + step * columns.length);
  const most = Math.min(MOST, Math.max(1.15, ...columns.map((each) => each.share ?? 0)));
  const room = HEIGHT - TOP - BOTTOM;
  const y = (share: number): number => round(HEIGHT - BOTTOM - (Math.min(share, most) / most) * room);
  const line = y(1);
  // Every second label, or fewer, where they would touch.
  const every = Math.max(1, Math.ceil((longest * LETTER + 4) / step));
  const bars = columns.map(({ label, share, over }, index) => {
    const w = round(Math.min(22, step * 0.64));
    const x = round(LEFT + step * index + (step - w) / 2);
    const middle = round(x + w / 2);
    const parts: string[] = [];
    if (share !== undefined && share > 0) {
      const within = y(Math.min(share, 1));
      parts.push(
        `<rect x="${x}" y="${within}" width="${w}" height="${round(HEIGHT - BOTTOM - within)}" fill="${over ? colours.over : colours.within}"/>`,
      );
      if (over) {
        const top = Math.min(y(share), line - 4);
        parts.push(
          `<rect x="${round(x + 0.75)}" y="${round(top)}" width="${round(w - 1.5)}" height="${round(line - top)}" fill="none" stroke="${colours.over}" stroke-width="1.5"/>`,
          `<path d="M${round(middle - 5)} ${round(top - 3)} h10 l-5 -8 z" fill="${colours.over}"/>`,
        );
      }
    }
    if (index % every === 0) {
      parts.push(
        `<text x="${middle}" y="${HEIGHT - 6}" text-anchor="middle" fill="${colours.text}">${escaped(label)}</text>`,
      );
    }
    return parts.join("");
  });
  const end = round(LEFT + step * columns.length);
  return `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${width}" height="${HEIGHT}" viewBox="0 0 ${width} ${HEIGHT}" font-size="11" font-family="inherit"><title>${escaped(title)}</title><desc>${escaped(description)}</desc><path d="M0 ${HEIGHT - BOTTOM} H${end}" stroke="${colours.line}"/>${bars.join("")}<path d="M0 ${line} H${end}" stroke="${colours.text}" stroke-dasharray="4 3"/><text x="${end + 3}" y="${line + 4}" fill="${colours.text}">allowed</text></svg>`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
