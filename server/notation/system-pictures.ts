/**
 * A sheet as a column of pictures, a line of music in each, so that after an edit only the line that changed is
 * engraved anew and a long piece begins to be seen with its first line.
 */
import { type EngravingTask, PIXELS } from "./engrave";
import { slurName } from "./joins";
import { layoutOf } from "./line-breaks";
import { firstIdFrom, musicXmlParts } from "./musicxml";
import type { Sheet, SheetBar } from "./sheet";

/** One picture of the column and the part of the sheet it shows. */
export interface SystemPicture {
  readonly task: EngravingTask;
  /** Bars by their place in the sheet. */
  readonly from: number;
  readonly to: number;
  /** The number of the sheet's event that is called `e0` in the picture. */
  readonly firstId: number;
}

/**
 * The pictures of a sheet at most so many pixels wide. `titleOf` says what stretch of bars a picture shows. Where a
 * slur, a tie, a hairpin or an ending reaches over the end of a line, the lines it joins share a picture.
 */
export function systemPictures(
  sheet: Sheet,
  look: { readonly width: number; readonly fingerings: boolean },
  titleOf: (from: number, to: number) => string,
): readonly SystemPicture[] {
  const { bars } = sheet;
  if (bars.length === 0) return [];
  const layout = layoutOf(sheet, look.width / PIXELS, look.fingerings);
  const joined = joinedBars(bars);
  const lines = bars.flatMap((bar, index) =>
    index > 0 && (layout.breaks.has(index) || bar.opens !== undefined) ? [index] : [],
  );
  const cuts = lines.filter((index) => joined[index] !== true);
  const texts = musicXmlParts(sheet, {
    fingerings: look.fingerings ? "line" : "none",
    ids: true,
    breaks: layout.breaks,
    parts: new Set(cuts),
  });
  return [0, ...cuts].map((from, index) => {
    const to = cuts[index] ?? bars.length;
    return {
      from,
      to,
      firstId: firstIdFrom(bars, from),
      task: {
        musicXml: texts[index] ?? "",
        width: layout.width,
        // A single line is as long as it must be; several are as long as each other.
        broken: lines.length > 0,
        title: titleOf(from, to),
      },
    };
  });
}

/** For each bar whether something reaches into it from the one before that must be drawn in one picture. */
export function joinedBars(bars: readonly SheetBar[]): readonly boolean[] {
  let slur: string | undefined;
  let dynamic: string | undefined;
  let hairpin = false;
  return bars.map((bar, index) => {
    const before = bars[index - 1];
    if (bar.opens !== undefined) hairpin = false;
    const [first] = bar.events;
    const into =
      hairpin ||
      (first?.kind === "note" && (first.tied || (slur !== undefined && slurName(first) === slur))) ||
      (bar.role.kind === "ending" &&
        before?.role.kind === "ending" &&
        before.role.number === bar.role.number &&
        before.repeat === bar.repeat);
    for (const event of bar.events) {
      if (event.kind === "rest") continue;
      if (event.dynamic !== dynamic) hairpin = false;
      dynamic = event.dynamic;
      if (event.hairpin !== undefined) hairpin = true;
      slur = slurName(event);
    }
    return into;
  });
}
