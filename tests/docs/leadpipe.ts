import { run } from "../../server/commands/run";
import { NO_PAINT } from "../../server/output/paint";

/** Does what `leadpipe` does with these words in this folder; what it prints, and the number it ends with. */
export async function leadpipe(
  words: readonly string[],
  cwd: string,
): Promise<{ text: string; code: number }> {
  let text = "";
  const print = (more: string): void => {
    text += more;
  };
  const code = await run(words, {
    cwd,
    readInput: async () => new Uint8Array(),
    out: print,
    err: print,
    paint: NO_PAINT,
    watched: false,
    engraver: () => {
      throw new Error("no document shows a picture being engraved");
    },
    press: () => {
      throw new Error("no document shows a page being set");
    },
    interruption: () => new AbortController().signal,
    today: () => new Date(Date.UTC(2026, 8, 1)),
    now: () => 0,
    git: async () => undefined,
  });
  return { text, code };
}
