import type * as vscode from "vscode";

/** How long anything inside the editor may take. */
const limitMs = 15_000;

/**
 * Resolves with the first value that `look` finds, looking now and whenever the event fires.
 *
 * @param instead tells what is there, for the message of one that never came.
 */
export function when<E, T>(
  event: vscode.Event<E>,
  look: () => T | undefined,
  what: string,
  instead?: () => readonly string[],
): Promise<T> {
  return new Promise((resolve, reject) => {
    const settle = (): void => {
      const found = look();
      if (found === undefined) return;
      clearTimeout(limit);
      listening.dispose();
      resolve(found);
    };
    const limit = setTimeout(() => {
      listening.dispose();
      const there = instead === undefined ? "" : `; there is: ${instead().join(" / ")}`;
      reject(new Error(`${what} did not come within ${limitMs / 1000} s${there}`));
    }, limitMs);
    const listening = event(settle);
    settle();
  });
}
