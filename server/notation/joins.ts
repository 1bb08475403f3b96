/** Slurs and ties of a sheet, seen from each note. */
import type { SheetBar, SheetNote } from "./sheet";

export interface Joins {
  /** Notes that begin and end a slur or lip slur of at least two notes. */
  readonly slurStarts: ReadonlySet<number>;
  readonly slurEnds: ReadonlySet<number>;
  /** Notes tied to the one after them. */
  readonly tieStarts: ReadonlySet<number>;
}

/** All joins, by the numbers of the notes. */
export function joinsOf(bars: readonly SheetBar[]): Joins {
  const slurs = new Map<string, { readonly first: number; last: number }>();
  const tieStarts = new Set<number>();
  let before: SheetNote | undefined;
  for (const bar of bars) {
    for (const event of bar.events) {
      if (event.kind === "rest") continue;
      const name = slurName(event);
      if (name !== undefined) {
        const slur = slurs.get(name);
        if (slur === undefined) slurs.set(name, { first: event.id, last: event.id });
        else slur.last = event.id;
      }
      if (event.tied && before !== undefined) tieStarts.add(before.id);
      before = event;
    }
  }
  const long = [...slurs.values()].filter(({ first, last }) => first !== last);
  return {
    slurStarts: new Set(long.map(({ first }) => first)),
    slurEnds: new Set(long.map(({ last }) => last)),
    tieStarts,
  };
}

/** A name for the slur a note stands under, lip slurs apart from others; undefined where there is none. */
export function slurName(note: SheetNote): string | undefined {
  if (note.lipSlur !== undefined) return `lip ${note.lipSlur}`;
  return note.slur === undefined ? undefined : `slur ${note.slur}`;
}
