import * as vscode from "vscode";
import { same } from "./expectations";
import { extension } from "./leadpipe";
import { sample } from "./plans";

/** Milliseconds that starting the extension may take, from the request until everything is in place. */
const ACTIVATION_MS = 150;

/** Nothing runs before a plan is opened; then the extension is there quickly, and its server comes beside. */
export async function starts(): Promise<void> {
  same(extension().isActive, false);
  const begun = performance.now();
  const worked = workedMs();
  const exports = await extension().activate();
  const took = performance.now() - begun;
  const work = workedMs() - worked;
  await exports.ready;
  const ready = performance.now() - begun;
  console.log(
    `        started in ${took.toFixed(0)} ms, ${exports.startedIn.toFixed(0)} of them its own; its server answered after ${ready.toFixed(0)} ms`,
  );
  // In a browser the script comes over the network, and its host waits for a window that may still be drawn. On a
  // machine that others use too, the clock runs on while nobody here works.
  const counted = typeof process === "undefined" ? exports.startedIn : Math.min(took, work);
  if (counted > ACTIVATION_MS) throw new Error(`starting took ${counted.toFixed(0)} ms of ${ACTIVATION_MS}`);
  const document = await vscode.workspace.openTextDocument(sample("book.practice"));
  same(document.languageId, "practice");
}

/** Milliseconds that the host's process has worked so far, on whatever; nothing where it has no process. */
function workedMs(): number {
  if (typeof process === "undefined") return 0;
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
