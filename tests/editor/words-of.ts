/** The words of whatever was thrown. */
export function wordsOf(thrown: unknown): string {
  return thrown instanceof Error ? thrown.message : String(thrown);
}
