#!/usr/bin/env node
import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { createRequire, wrap } from "node:module";
import { dirname, join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { constants, Script } from "node:vm";

/**
 * Starts the command line quickly. Most calls are over before the engine's optimizing compiler earns back what
 * it costs, so it is asked to wait longer; and the compiled code of one call is kept for the next, as an
 * editor's host keeps that of its extensions. The code kept belongs to one version of the engine and of the
 * command line; the engine refuses any other, and it is written anew.
 */

const [, , verb, ...words] = process.argv;
if (verb === "serve" && !words.includes("--help") && !words.includes("-h")) serve();
else start();

/**
 * `leadpipe serve` is the language server for any editor, over standard input and output. It runs as long as the
 * editor does, so it is neither hurried along like the command line nor ever loaded by it.
 */
function serve(): void {
  if (!words.some((word) => /^--(stdio|node-ipc|socket|pipe)/.test(word))) process.argv.push("--stdio");
  createRequire(join(__dirname, "leadpipe.cjs"))("./server.cjs");
}

function start(): void {
  // Bytes of bytecode run before a function is thought worth optimizing; the engine's own default is an eighth.
  setFlagsFromString("--interrupt-budget=500000");
  setFlagsFromString("--always-sparkplug");

  const main = join(__dirname, "cli.cjs");
  const kept = join(__dirname, "cli.cache");

  const source = wrap(readFileSync(main, "utf8"));
  const cachedData = keptCode(kept);
  const script = new Script(source, {
    filename: main,
    ...(cachedData === undefined ? {} : { cachedData }),
    importModuleDynamically: constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
  });
  if (cachedData === undefined || script.cachedDataRejected === true)
    process.once("exit", () => keepCode(kept, script));

  const begin: unknown = script.runInThisContext();
  if (typeof begin === "function") {
    const module = { exports: {} };
    begin.call(module.exports, module.exports, createRequire(main), module, main, dirname(main));
  }
}

function keptCode(kept: string): Buffer | undefined {
  try {
    return readFileSync(kept);
  } catch {
    // The first call has none.
    return undefined;
  }
}

/** Written at the end, when the functions that this call needed have been compiled. */
function keepCode(kept: string, script: Script): void {
  const draft = `${kept}.${process.pid}`;
  try {
    writeFileSync(draft, script.createCachedData());
    renameSync(draft, kept);
  } catch {
    // A folder that cannot be written to costs the next call some milliseconds, and nothing else.
    rmSync(draft, { force: true });
  }
}
