import type { Term } from "./term";
import { namesIn } from "./term-names";

/** Names to look up and to go through, each once; a set of them is one. */
export interface Names extends Iterable<string> {
  has(name: string): boolean;
}

/** The names of several sets together. No set is made of them until somebody goes through them all. */
export class JointNames implements Names {
  private readonly parts: ReadonlySet<Names>;

  constructor(
    parts: Iterable<Names>,
    /** Where each name was found last: nearly always where it still is. */
    private readonly foundIn = new Map<string, Names>(),
  ) {
    this.parts = new Set(parts);
  }

  has(name: string): boolean {
    const last = this.foundIn.get(name);
    if (last !== undefined && this.parts.has(last) && last.has(name)) return true;
    for (const part of this.parts) {
      if (!part.has(name)) continue;
      this.foundIn.set(name, part);
      return true;
    }
    return false;
  }

  /** The same with other parts in the place of these, each for each. */
  replacing(these: readonly Names[], others: readonly Names[]): JointNames {
    const parts = Array.from(this.parts, (part) => {
      const other = others[these.indexOf(part)];
      if (other === undefined) return part;
      // What was found in the one is nearly always in the other: without this, it would be looked for in all of them.
      for (const name of other) if (this.foundIn.get(name) === part) this.foundIn.set(name, other);
      return other;
    });
    return new JointNames(parts, this.foundIn);
  }

  *[Symbol.iterator](): Iterator<string> {
    const met = new Set<string>();
    for (const part of this.parts) for (const name of part) met.add(name);
    yield* met;
  }
}

/** The names of exercises and routines that a term asks for. */
export function askedBy(term: Term): readonly Names[] {
  const { exercises, routines } = namesIn(term);
  return [exercises, routines];
}
