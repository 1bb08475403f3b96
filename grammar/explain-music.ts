import type { OddMusic } from "./music-rules";
import type { Problem } from "./piece";
import { endOf } from "./tokens";
import type { MusicElement } from "./tree";
export function musicProblems(_t: string, odd: readonly OddMusic[], _by: string): Problem[] {
  return odd.map(({ token, message }) => ({
    code: "unreadable",
    span: { start: token.startOffset, end: endOf(token) },
    message: message ?? `\`${token.image}\` means nothing inside music.`,
    mend: undefined,
  }));
}
export function slurProblems(_t: string, _e: readonly MusicElement[]): Problem[] {
  return [];
}
