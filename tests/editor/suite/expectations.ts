/** Fails with both values where they are not the same text or number. */
export function same<T extends string | number | boolean | undefined>(actual: T, expected: T): void {
  if (actual !== expected) throw new Error(`expected ${String(expected)} but got ${String(actual)}`);
}

/** Fails where a text lacks a part. */
export function has(text: string, part: string): void {
  if (!text.includes(part)) throw new Error(`expected ${JSON.stringify(part)} in ${JSON.stringify(text)}`);
}
