/** What belongs to the text and not to the meaning. */
const OF_THE_TEXT = new Set([
  "piece",
  "span",
  "place",
  "namePlace",
  "byPlace",
  "areaPlace",
  "datesPlace",
  "first",
  "scope",
  "declaration",
  "tree",
  "trivia",
  "own",
]);

/** A plan, or any part of one, without where its words stand. */
export function bare(value: unknown): unknown {
  if (value instanceof Map) return [...value].map(([key, each]) => [key, bare(each)]);
  if (value instanceof Set) return [...value].map(bare).sort();
  if (Array.isArray(value)) return value.map(bare);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => !OF_THE_TEXT.has(key))
      .map(([key, each]) => [key, bare(each)]),
  );
}
