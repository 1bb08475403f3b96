/**
 * What the tongue says: syllables under the notes where a way of starting them, or double or triple tonguing,
 * is asked for. The syllables are common practice without a source.
 */
import { Memory } from "../../grammar/memory";
import type { SheetBar, SheetNote } from "./sheet";

const ATTACKS = { air: "hoo", lip: "poo", tongue: "too" } as const;
const PATTERNS = { double: ["t", "k"], triple: ["t", "t", "k"] } as const;

/** The syllables by the number of the note. Plainly tongued music has none. */
export function syllablesOf(bars: readonly SheetBar[]): ReadonlyMap<number, string> {
  // The widths of bars, their notation and the words of notes all ask.
  const before = known.get(bars);
  if (before !== undefined) return before;
  const found = readSyllables(bars);
  known.set(bars, found);
  return found;
}

const known = new Memory<readonly SheetBar[], ReadonlyMap<number, string>>();

function readSyllables(bars: readonly SheetBar[]): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  let attack: SheetNote["attack"] = "tongue";
  let turn = 0;
  let tonguing: SheetNote["tonguing"] = "single";
  for (const bar of bars) {
    for (const event of bar.events) {
      if (event.kind === "rest") {
        turn = 0;
        continue;
      }
      if (event.tied) continue;
      if (event.attack !== attack) {
        attack = event.attack;
        found.set(event.id, ATTACKS[attack]);
      }
      if (event.tonguing !== tonguing) turn = 0;
      tonguing = event.tonguing;
      if (tonguing === "single" || !event.tongued) {
        turn = 0;
        continue;
      }
      const pattern = PATTERNS[tonguing];
      found.set(event.id, pattern[turn % pattern.length] ?? "t");
      turn++;
    }
  }
  return found;
}
