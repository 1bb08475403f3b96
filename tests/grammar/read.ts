import { readdirSync, readFileSync } from "node:fs";
import type { Problem, SourceTree } from "../../grammar/piece";
import { readSource } from "../../grammar/pieces";

/** A problem with its place in the file instead of its piece. */
export interface PlacedProblem extends Problem {
  /** The number of the piece it stands in. */
  readonly piece: number;
}

/** The problems of a file in the order of the text. */
export function problemsOf({ pieces, starts }: SourceTree): PlacedProblem[] {
  return pieces.flatMap((piece, i) =>
    piece.problems.map((problem) => ({
      ...problem,
      piece: i,
      span: { start: problem.span.start + starts[i]!, end: problem.span.end + starts[i]! },
    })),
  );
}

/** The messages that reading a text brings. */
export function messagesOf(text: string): string[] {
  return problemsOf(readSource(text)).map(({ message }) => message);
}

/** The practice snippets of the reference, in their order. */
export const SNIPPETS: readonly string[] = [
  ...readFileSync(new URL("../../grammar/REFERENCE.md", import.meta.url), "utf8").matchAll(
    /```practice\n([\s\S]*?)```/g,
  ),
].map(([, snippet = ""]) => snippet);

/** The whole studio of the reference. */
export const STUDIO = SNIPPETS.join("\n");

const samples = new URL("../../samples/", import.meta.url);

/** The texts of the sample studio by their paths. */
export const SAMPLES: readonly (readonly [path: string, text: string])[] = readdirSync(samples, {
  recursive: true,
})
  .map(String)
  .filter((path) => path.endsWith(".practice"))
  .sort()
  .map((path) => [path, readFileSync(new URL(path, samples), "utf8")] as const);

/** A tree without its places and without what only the layout knows, for comparing two readings. */
export function bare(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(bare);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== "span" && key !== "inline")
      .map(([key, inner]) => [key, bare(inner)]),
  );
}
