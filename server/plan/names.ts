/** Names to look up and to go through, each once; a set of them is one. */
export interface Names extends Iterable<string> {
  has(name: string): boolean;
}

/** The names of several sets together. No set is made of them until somebody goes through them all. */
export class JointNames implements Names {
  constructor(private readonly parts: readonly Names[]) {}

  has(name: string): boolean {
    return this.parts.some((part) => part.has(name));
  }

  *[Symbol.iterator](): Iterator<string> {
    const met = new Set<string>();
    for (const part of this.parts) for (const name of part) met.add(name);
    yield* met;
  }
}
