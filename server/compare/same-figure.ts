/** Whether two figures are the same but for what the computer's arithmetic loses. */
export function sameFigure(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a), Math.abs(b));
}
