/** What a run inside one editor came to. */
export interface Outcome {
  readonly passed: number;
  readonly failed: number;
}

/** What a run's closing line says, or undefined where a text holds none. */
export function closingIn(text: string): Outcome | undefined {
  const closing = /^(\d+) passed, (\d+) failed$/m.exec(text);
  return closing ? { passed: Number(closing[1]), failed: Number(closing[2]) } : undefined;
}
