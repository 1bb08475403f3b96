import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";

/**
 * The order of the house: data goes one way, and a stage asks only those before it. Read from the imports of
 * every source file, so that it cannot be broken by mistake.
 */

/** From the lowest to the highest; a folder may import itself and those before it, unless NOT_FOR says so. */
const ORDER = [
  "grammar",
  "server/music",
  "server/plan",
  "server/profile",
  "server/days",
  "server/totals",
  "server/rules",
  "server/fixes",
  "server/record",
  "server/compare",
  "server/carry",
  "server/notation",
  "server/pages",
  // What server and client ask of each other, and agree on: it knows nothing, and features answer in it.
  "server/protocol",
  // Checked files are what output shows and what features are functions of.
  "server/workspace",
  "server/output",
  "server/features",
  // The verbs of the command line: handed a world to speak to, but no process.
  "server/commands",
] as const;

/** What a folder must not import although it comes later. */
const NOT_FOR: Readonly<Record<string, readonly string[]>> = {
  // Music knows no text.
  "server/music": ["grammar"],
};

/** Files that may hold a connection or a process: the entry points, and what wires a connection to the rest. */
const ENTRIES = [
  "server/node.ts",
  "server/worker.ts",
  "server/cli.ts",
  "server/launch.ts",
  "server/engraver.ts",
  "server/engraver-worker.ts",
  "server/join-engraver.ts",
  "server/launch-engraver.ts",
  "server/press.ts",
  "server/launch-press.ts",
  "server/launch-tidying.ts",
];
const WIRING = /^server\/serve(-[a-z-]+)?\.ts$/;

function isEntry(path: string): boolean {
  return ENTRIES.includes(path) || WIRING.test(path);
}

/** Run by hand while building, and asked by nothing: they may write files. */
const TOOLS = ["grammar/write-highlighting.ts"];

const PURE_MODULES = ["chevrotain", "tonal"];
/** Readers and writers of bytes and text that hold nothing; asked only where files of notation are made. */
const NOTATION_MODULES = ["midi-file", "saxes"];
/** Folders that read files: everything else is handed its text. */
const MAY_READ_FILES = ["server/workspace", "server/commands"];
const FILE_MODULES = ["node:fs", "node:fs/promises", "node:path", "node:url"];

interface SourceFile {
  /** From the root, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

/** Everything wrong with one file's imports and surroundings, in words; empty where nothing is. */
function faultsOf(file: SourceFile): readonly string[] {
  const folder = folderOf(file.path);
  const entry = isEntry(file.path);
  const client = file.path.startsWith("client/");
  const faults: string[] = [];
  const code = withoutComments(file.text);
  for (const asked of importsOf(code)) {
    if (asked.startsWith(".")) {
      const target = normalize(join(dirname(file.path), asked))
        .split(sep)
        .join("/");
      const theirs = folderOf(target);
      if (TOOLS.some((tool) => tool === target || tool === `${target}.ts`))
        faults.push(`${folder} imports a tool`);
      if (!mayImport(folder, theirs, entry, client)) faults.push(`${folder} imports ${theirs}`);
    } else if (TOOLS.includes(file.path) && FILE_MODULES.includes(asked)) continue;
    else if (!entry && !client && !mayRequire(folder, asked)) faults.push(`${folder} imports ${asked}`);
  }
  if (!entry && !client) {
    if (/(?<![\w.$"'-])process\s*[.[]/.test(code)) faults.push("touches the process");
    if (/(?<![\w.$"'-])console\s*[.[]/.test(code)) faults.push("touches the console");
    // What time it is must be handed in.
    if (/\bDate\.now\(|new Date\(\)/.test(code)) faults.push("asks for the time");
  }
  return faults;
}

function mayImport(from: string, to: string, entry: boolean, client: boolean): boolean {
  if (from === to || entry) return true;
  if (client) return to === "grammar" || to === "server/features" || to === "server/protocol";
  // The version is the package's.
  if (to === "package.json") return from === "server/commands";
  const mine = place(from);
  const theirs = place(to);
  if (mine < 0 || theirs < 0) return false;
  return theirs < mine && !NOT_FOR[from]?.includes(to);
}

function place(folder: string): number {
  return (ORDER as readonly string[]).indexOf(folder);
}

function mayRequire(folder: string, module: string): boolean {
  if (PURE_MODULES.includes(module)) return true;
  if (NOTATION_MODULES.includes(module)) return folder === "server/notation";
  // Writes calendars as text; asked only where files for other programs are made.
  if (module === "ical-generator") return folder === "server/output";
  if (module === "node:crypto" || FILE_MODULES.includes(module)) {
    return MAY_READ_FILES.includes(folder);
  }
  // What draws notation is asked in one place.
  if (module.startsWith("verovio/")) return folder === "server/notation";
  // Types of the protocol are data; a connection is not.
  if (module === "vscode-languageserver-types") {
    return folder === "server/features" || folder === "server/protocol";
  }
  return folder === "server/commands" && module === "node:util";
}

function folderOf(path: string): string {
  const parts = path.split("/");
  if (parts[0] === "server") return parts.length > 2 ? `server/${parts[1]}` : path;
  return parts[0] ?? "";
}

function importsOf(code: string): readonly string[] {
  const found: string[] = [];
  const pattern =
    /(?:\bfrom\s*|\bimport\s*\(\s*|\bimport\s+|\brequire\s*\(\s*)(?:"([^"\s]+)"|'([^'\s]+)'|`([^`$\s]+)`)/g;
  for (const match of code.matchAll(pattern)) found.push(match[1] ?? match[2] ?? match[3] ?? "");
  return found;
}

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/^\s*\/\/.*$/gm, "");
}

const ROOT = new URL("../../..", import.meta.url).pathname;

function sources(folder: string): SourceFile[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({
      path: relative(ROOT, path).split(sep).join("/"),
      text: readFileSync(path, "utf8"),
    }));
}

describe("the order of the house", () => {
  // A clone has no folder in which no file was committed.
  const folders = ["grammar", "server", "client"].filter((folder) => existsSync(join(ROOT, folder)));
  const files = folders.flatMap(sources);

  it("reads a house worth reading", () => {
    expect(files.length).toBeGreaterThan(80);
    const asked = files.flatMap((file) => importsOf(withoutComments(file.text)));
    expect(asked.length).toBeGreaterThan(200);
  });

  it("is kept by every file", () => {
    const faults = files.flatMap((file) => faultsOf(file).map((fault) => `${file.path}: ${fault}`));
    expect(faults).toEqual([]);
  });

  it("has a place for every folder of the server", () => {
    const folders = new Set(files.map((file) => folderOf(file.path)));
    const unknown = [...folders].filter(
      (folder) => place(folder) < 0 && folder !== "client" && !isEntry(folder) && !isEntry(`${folder}.ts`),
    );
    expect(unknown).toEqual([]);
  });

  const broken: readonly (readonly [string, string, string])[] = [
    ["grammar/tokens.ts", 'import { midiOf } from "../server/music/pitch";', "grammar imports server/music"],
    ["grammar/tokens.ts", 'import { show } from "../client/view";', "grammar imports client"],
    [
      "server/music/key.ts",
      'import type { Span } from "../../grammar/span";',
      "server/music imports grammar",
    ],
    ["server/music/key.ts", 'export { x } from "../plan/plan";', "server/music imports server/plan"],
    ["server/plan/plan.ts", 'import { x } from "../profile/profile";', "server/plan imports server/profile"],
    [
      "server/profile/profile.ts",
      'import { x } from "../days/day.js";',
      "server/profile imports server/days",
    ],
    ["server/days/day.ts", "import { x } from '../totals/week';", "server/days imports server/totals"],
    ["server/totals/week.ts", 'import { x } from "../rules/check";', "server/totals imports server/rules"],
    ["server/rules/term/a.ts", 'import { x } from "../../fixes/all";', "server/rules imports server/fixes"],
    ["server/fixes/a.ts", 'const x = await import("../output/table");', "server/fixes imports server/output"],
    ["server/pages/a.ts", 'import "../workspace/source";', "server/pages imports server/workspace"],
    ["server/workspace/a.ts", 'import "../output/table";', "server/workspace imports server/output"],
    ["server/workspace/a.ts", 'import "../features/hover";', "server/workspace imports server/features"],
    ["grammar/tokens.ts", 'import "./write-highlighting";', "grammar imports a tool"],
    ["grammar/write-highlighting.ts", 'import { x } from "node:net";', "grammar imports node:net"],
    ["server/rules/check.ts", 'import { x } from "../node";', "server/rules imports server/node"],
    ["server/plan/plan.ts", 'import { x } from "../unheard-of/y";', "server/plan imports server/unheard-of"],
    [
      "server/features/hover.ts",
      'import { createConnection } from "vscode-languageserver/node";',
      "server/features imports vscode-languageserver/node",
    ],
    ["server/workspace/a.ts", 'import { connect } from "node:net";', "server/workspace imports node:net"],
    [
      "server/days/a.ts",
      'import { spawn } from "node:child_process";',
      "server/days imports node:child_process",
    ],
    ["server/output/a.ts", 'import process from "node:process";', "server/output imports node:process"],
    ["server/rules/a.ts", 'const fs = require("node:fs");', "server/rules imports node:fs"],
    ["server/output/a.ts", "const wide = process.stdout.columns;", "touches the process"],
    ["server/rules/a.ts", 'console.log("here");', "touches the console"],
    ["server/days/a.ts", "const today = Date.now();", "asks for the time"],
    ["client/view.ts", 'import { unrollTerm } from "../server/days/unroll";', "client imports server/days"],
    ["server/protocol/a.ts", 'import "../features/hover";', "server/protocol imports server/features"],
    ["server/features/a.ts", 'import create from "verovio/wasm";', "server/features imports verovio/wasm"],
    ["server/features/a.ts", 'import { serve } from "../serve";', "server/features imports server/serve"],
  ];

  it.each(broken)("finds fault with %s: %s", (path, text, fault) => {
    expect(faultsOf({ path, text })).toContain(fault);
  });

  const sound: readonly (readonly [string, string])[] = [
    ["grammar/tokens.ts", 'import { createToken } from "chevrotain";'],
    ["server/plan/plan.ts", 'import type { Piece } from "../../grammar/piece";'],
    [
      "server/days/unroll.ts",
      'import { lasting } from "../profile/profile";\nimport { x } from "../plan/plan";',
    ],
    ["server/features/hover.ts", 'import { x } from "../workspace/workspace";'],
    ["server/cli.ts", 'import { x } from "./workspace/source";\nconsole.log(process.argv);'],
    ["server/rules/a.ts", "// console.log is not for rules\nconst a = word.process.x;"],
    ["client/extension.ts", 'import * as vscode from "vscode";'],
    ["client/view.ts", 'import type { TermView } from "../server/protocol/requests";'],
    ["server/serve-state.ts", 'import type { Connection } from "vscode-languageserver";'],
  ];

  it.each(sound)("has nothing against %s: %s", (path, text) => {
    expect(faultsOf({ path, text })).toEqual([]);
  });
});
