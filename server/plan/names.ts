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
    /** What has taken the place of parts that names may have been found in. */
    private readonly successors: ReadonlyMap<Names, Names> = NO_SUCCESSORS,
  ) {
    this.parts = new Set(parts);
  }

  has(name: string): boolean {
    const last = this.foundIn.get(name);
    if (last !== undefined) {
      if (this.parts.has(last) && last.has(name)) return true;
      const successor = this.successors.get(last);
      if (successor?.has(name) === true) {
        this.foundIn.set(name, successor);
        return true;
      }
    }
    for (const part of this.parts) {
      if (!part.has(name)) continue;
      this.foundIn.set(name, part);
      return true;
    }
    return false;
  }

  /** The same with other parts in the place of these, each for each. */
  replacing(these: readonly Names[], others: readonly Names[]): JointNames {
    const successors = new Map<Names, Names>();
    for (const [i, part] of these.entries()) {
      const other = others[i];
      if (other !== undefined && this.parts.has(part)) successors.set(part, other);
    }
    const parts = Array.from(this.parts, (part) => successors.get(part) ?? part);
    return new JointNames(parts, this.foundIn, successors);
  }

  *[Symbol.iterator](): Iterator<string> {
    const met = new Set<string>();
    for (const part of this.parts) for (const name of part) met.add(name);
    yield* met;
  }
}

const NO_SUCCESSORS: ReadonlyMap<Names, Names> = new Map();

/** The names of exercises and routines that a term asks for. */
export function askedBy(term: Term): readonly Names[] {
  const { exercises, routines } = namesIn(term);
  return [exercises, routines];
}
