/** What a player should see of single notes in an engraving, each by a shape of its own and not by colour alone. */

/**
 * `upper`: in the player's upper register. `beyond`: outside the comfortable range. `never`: outside the limit, or
 * what the instrument has. `breath`: a breath follows.
 */
export const MARK_NAMES = ["upper", "beyond", "never", "breath"] as const;
export type MarkName = (typeof MARK_NAMES)[number];

/** Inner units of an engraving, 180 to a staff space: the left edge of a note's head to its middle. */
const HEAD = 110;
/** Half the size of the field around a head that can be clicked, and that is filled while the note sounds. */
const FIELD = { across: 200, up: 235 };

/** A roof over the head. */
const ROOF = "M-170 -170 L0 -290 L170 -170";
/** A diamond around it. */
const DIAMOND = "M-250 0 L0 -215 L250 0 L0 215 Z";
/** A box around it. */
const BOX = "M-215 -185 H215 V185 H-215 Z";

const SHAPES: Readonly<Record<Exclude<MarkName, "breath">, string>> = {
  upper: ROOF,
  beyond: DIAMOND,
  never: BOX,
};

const EVENT = /<g id="(e\d+)" class="(note|rest|mRest)">/g;
const PLACE = /translate\((-?\d+(?:\.\d+)?), (-?\d+(?:\.\d+)?)\)/;

/**
 * The picture with a field behind every note and the marks of those that carry some, as groups that a page colours.
 * Notes without a head that could be found are left as they are.
 */
export function withMarks(svg: string, marks: ReadonlyMap<string, readonly MarkName[]>): string {
  return svg.replace(EVENT, (whole, name: string, kind: string, offset: number) => {
    const at = PLACE.exec(svg.slice(offset, offset + 400));
    if (at === null || kind !== "note") return whole;
    const [x, y] = [Number(at[1]) + HEAD, Number(at[2])];
    const field = `<rect class="field" stroke="none" fill-opacity="0" x="${x - FIELD.across}" y="${y - FIELD.up}" width="${2 * FIELD.across}" height="${2 * FIELD.up}" rx="90"/>`;
    const drawn = (marks.get(name) ?? [])
      .map((mark) =>
        mark === "breath"
          ? ""
          : `<g class="mark ${mark}"><path fill="none" stroke-width="38" transform="translate(${x} ${y})" d="${SHAPES[mark]}"/></g>`,
      )
      .join("");
    return `${whole}${field}${drawn}`;
  });
}

/** A comma as engravers draw it, in the units of a legend. */
const COMMA =
  "M-70 -120 a90 90 0 1 1 140 75 q-20 120 -140 190 l-25 -25 q75 -70 85 -150 a90 90 0 0 1 -60 -90 z";

/** The shape of a mark by itself, for a legend: SVG text in `currentColor`. */
export function markSign(mark: MarkName): string {
  const drawn =
    mark === "breath"
      ? `<path fill="currentColor" d="${COMMA}"/>`
      : `<ellipse rx="125" ry="90" fill="currentColor"/><path fill="none" stroke="currentColor" stroke-width="45" d="${SHAPES[mark]}"/>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="22" height="20" viewBox="-330 -310 660 600" aria-hidden="true">${drawn}</svg>`;
}
