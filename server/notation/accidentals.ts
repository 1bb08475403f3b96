/** Which notes need an accidental in front of them. */
import { Memory } from "../../grammar/memory";
import { type Key, signatureAlter } from "../music/key";
import type { SheetBar } from "./sheet";

export interface Accidental {
  readonly alter: number;
  /** A reminder: the rules do not ask for it, a reader may. */
  readonly reminder: boolean;
}

/**
 * The accidentals of a sheet by the number of the note. An accidental holds to the end of its bar, on its own
 * line or space; a note tied over the bar line needs none. A reminder stands where the bar before, or another
 * octave in this bar, had the step otherwise.
 */
export function accidentalsOf(bars: readonly SheetBar[]): ReadonlyMap<number, Accidental> {
  // Both the widths of bars and their notation ask.
  const before = known.get(bars);
  if (before !== undefined) return before;
  const found = readAccidentals(bars);
  known.set(bars, found);
  return found;
}

const known = new Memory<readonly SheetBar[], ReadonlyMap<number, Accidental>>();

function readAccidentals(bars: readonly SheetBar[]): ReadonlyMap<number, Accidental> {
  const found = new Map<number, Accidental>();
  let before = new Map<number, number>();
  for (const bar of bars) {
    if (bar.opens !== undefined) before = new Map();
    const here = new Map<string, number>();
    const steps = new Map<number, number>();
    for (const event of bar.events) {
      if (event.kind === "rest") continue;
      const { step, octave, alter } = event.pitch;
      const place = `${step} ${octave}`;
      const signature = inSignature(bar.key, step);
      const holds = here.get(place) ?? signature;
      if (event.tied) {
        // A tie carries the accidental over; a note struck later in the bar has to say it again.
        if (!here.has(place) && alter !== signature) before.set(step, alter);
        continue;
      }
      const elsewhere = steps.get(step) ?? before.get(step);
      if (alter !== holds) found.set(event.id, { alter, reminder: false });
      else if (!here.has(place) && elsewhere !== undefined && elsewhere !== alter)
        found.set(event.id, { alter, reminder: true });
      here.set(place, alter);
      steps.set(step, alter);
      before.delete(step);
    }
    before = new Map([...steps].filter(([step, alter]) => alter !== inSignature(bar.key, step)));
  }
  return found;
}

function inSignature(key: Key | undefined, step: number): number {
  return key === undefined ? 0 : signatureAlter(key, step);
}
