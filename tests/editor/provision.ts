/**
 * Brings a real VS Code to machines that cannot download one, from the npm registry and Debian alone.
 *
 *     npm run provision -- [oldest] [newest] [chromium] [neovim]
 *
 * Without arguments: all of them. Run again at will: what is ready is left alone, and what an
 * interruption left half done is begun anew, since each part is marked as done only after its last step.
 */
import { existsSync } from "node:fs";
import { copyFile, mkdir, rename, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { type Edition, editions, nodeReleases, ripgrepRelease } from "./editions";
import { ensureProgram } from "./ensure-program";
import { Failure } from "./failure";
import { holdLock } from "./hold-lock";
import { cacheFolder, isReady, nodePackage, type Places, placesOf } from "./places";
import { programs, readers } from "./programs";
import { runAsProgram } from "./run-as-program";
import { runToEnd } from "./run-to-end";
import { wordsOf } from "./words-of";

/** Tells a waiting person what is going on. */
type Tell = (line: string) => void;

/** Runs one step between a line that says what begins and a line that says how long it took. */
async function step(tell: Tell, title: string, work: () => Promise<void>): Promise<void> {
  tell(`${title} …`);
  const begun = performance.now();
  try {
    await work();
  } catch (thrown) {
    throw new Failure(
      `${title}: failed. Nothing half done is kept; run this again to resume.\n${wordsOf(thrown)}`,
    );
  }
  tell(`${title}: done in ${((performance.now() - begun) / 1000).toFixed(1)} s`);
}

/**
 * Makes a folder by filling a neighbour and renaming it at the end, so that the folder either is whole or is
 * not there. Leftovers of an earlier, interrupted attempt are thrown away.
 */
async function fillFolder(folder: string, fill: (draft: string) => Promise<void>): Promise<void> {
  if (existsSync(folder)) return;
  const draft = `${folder}.draft`;
  await rm(draft, { recursive: true, force: true });
  await mkdir(draft, { recursive: true });
  await writeFile(path.join(draft, "package.json"), '{ "private": true }\n');
  await fill(draft);
  await rename(draft, folder);
}

/** The npm switches that keep an install quiet, exact, and free of scripts nobody asked for. */
const quiet = ["--ignore-scripts", "--no-audit", "--no-fund", "--no-save", "--loglevel=error"];

/** Fetches the Node an edition runs on, unless this process's own will do. */
async function provisionNode(edition: Edition, places: Places, tell: Tell): Promise<void> {
  const { nodeHome } = places;
  if (nodeHome === undefined || existsSync(nodeHome)) return;
  const wanted = `${nodePackage()}@${nodeReleases[edition.node]}`;
  await step(tell, `Node ${edition.node}: fetching ${wanted}`, () =>
    fillFolder(nodeHome, async (draft) => {
      await runToEnd("npm", ["install", wanted, ...quiet], { cwd: draft });
    }),
  );
}

/** Fetches one edition and builds what it needs for its Node. */
async function provisionEdition(edition: Edition, tell: Tell): Promise<void> {
  const cache = cacheFolder();
  const places = placesOf(edition);
  const label = `VS Code ${edition.vscode}`;
  if (isReady(places)) {
    tell(`${label}: ready`);
    return;
  }
  for (const tool of [programs.python, programs.make, programs.compiler]) await ensureProgram(tool, () => {});
  await mkdir(cache, { recursive: true });
  const release = await holdLock(path.join(cache, `${edition.name}.lock`));
  try {
    await provisionNode(edition, places, tell);
    const wanted = [`code-server@${edition.codeServer}`];
    if (edition.ripgrepAt !== undefined) wanted.push(`${ripgrepPackage()}@${ripgrepRelease}`);
    await step(tell, `${label}: fetching ${wanted.join(" and ")}`, () =>
      fillFolder(places.home, async (draft) => {
        await runToEnd("npm", ["install", ...wanted, ...quiet], { cwd: draft });
      }),
    );
    // npm and the compiler it calls must run on the edition's own Node, whose native interface they build for.
    const env = { ...process.env, ...buildEnvironment(places) };
    await step(tell, `${label}: fetching its modules`, async () => {
      await rm(path.join(places.vscode, "node_modules"), { recursive: true, force: true });
      await runToEnd("npm", ["install", "--omit=dev", ...quiet], { cwd: places.vscode, env });
      if (edition.ripgrepAt === undefined) return;
      const ripgrep = path.join(places.vscode, edition.ripgrepAt);
      await mkdir(path.dirname(ripgrep), { recursive: true });
      await copyFile(path.join(places.home, "node_modules", ripgrepPackage(), "bin", "rg"), ripgrep);
    });
    await step(tell, `${label}: building ${edition.natives.join(" and ")}`, async () => {
      await runToEnd("npm", ["rebuild", ...edition.natives, "--loglevel=error"], { cwd: places.vscode, env });
    });
    await step(tell, `${label}: asking for its version`, () => checkVersion(edition, places));
    const written = { vscode: edition.vscode, codeServer: edition.codeServer, node: edition.node };
    await writeFile(places.marker, `${JSON.stringify(written)}\n`);
  } finally {
    await release();
  }
}

/** The npm package that carries ripgrep for this machine. */
function ripgrepPackage(): string {
  return `@vscode/ripgrep-${process.platform}-${process.arch}`;
}

/** The environment in which native modules are built: the right Node first, its headers beside it. */
function buildEnvironment(places: Places): NodeJS.ProcessEnv {
  const bin = path.dirname(places.node);
  const headers = path.dirname(bin);
  return { PATH: `${bin}${path.delimiter}${process.env["PATH"] ?? ""}`, npm_config_nodedir: headers };
}

/** Makes sure that the built modules load and that the server is the version it should be. */
async function checkVersion(edition: Edition, places: Places): Promise<void> {
  for (const native of edition.natives) {
    await runToEnd(places.node, ["--eval", `require(${JSON.stringify(native)})`], { cwd: places.vscode });
  }
  const data = path.join(places.home, "version-check");
  const ask = ["out/server-main.js", "--version", "--server-data-dir", data];
  const said = await runToEnd(places.node, ask, { cwd: places.vscode });
  await rm(data, { recursive: true, force: true });
  if (!said.split("\n").includes(edition.vscode)) {
    throw new Failure(`The server should be VS Code ${edition.vscode} but says:\n${said.trim()}`);
  }
}

/** Reads the words of the command line and does what they ask. */
async function main(): Promise<number> {
  const tell: Tell = (line) => process.stdout.write(`${line}\n`);
  const asked = process.argv.slice(2);
  const wanted = asked.length > 0 ? asked : ["oldest", "newest", "chromium", "neovim", "readers"];
  for (const word of wanted) {
    if (word === "oldest" || word === "newest") await provisionEdition(editions[word], tell);
    else if (word === "chromium" || word === "neovim") await ensureProgram(programs[word], tell);
    else if (word === "readers") for (const each of Object.values(readers)) await ensureProgram(each, tell);
    else throw new Failure(`Nothing is called "${word}". Known: oldest, newest, chromium, neovim, readers.`);
  }
  return 0;
}

runAsProgram(main);
