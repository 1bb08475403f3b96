import { dirname, relative, resolve } from "node:path";
import { comparePlans } from "../compare/compare-plans";
import { type Both, type Comparison, withoutNotes } from "../compare/comparison";
import type { PlanSide } from "../compare/plan-side";
import { inColour } from "../notation/clean-svg";
import { EngravingError } from "../notation/engrave";
import { compareJson } from "../output/compare-json";
import { compareText } from "../output/compare-text";
import { safeText } from "../output/safe-text";
import { CAUTION } from "../output/totals-text";
import { compareReport } from "../pages/compare-report";
import { rewrittenPictures } from "../pages/rewritten-pictures";
import { type Settings, STARTING_SETTINGS } from "../plan/settings";
import { checkSources } from "../workspace/check-sources";
import { planSideOf } from "../workspace/plan-side-of";
import { revisionFiles } from "../workspace/revision-files";
import { sharedSources } from "../workspace/shared-sources";
import type { SourceSet } from "../workspace/source";
import { unreadIn } from "../workspace/unread-in";
import { LazyEngraver } from "./lazy-engraver";
import { readOptions, type Typed } from "./options";
import { loadAsked, pathShower } from "./read-plans";
import { CLEAN, FOUND, Misuse, type World } from "./world";
import { isFolder, isThere, UnwrittenError, writeWhole } from "./write-file";

interface Side {
  readonly set: SourceSet;
  /** What it is called in a sentence. */
  readonly called: string;
}

/** `leadpipe compare`: how one plan differs from another, or from what it was at a revision of git. */
export async function compare(args: readonly string[], world: World): Promise<number> {
  const typed = readOptions("compare", args, {
    since: "value",
    until: "value",
    json: "switch",
    quiet: "switch",
    html: "value",
    force: "switch",
  });
  const [before, after] = await sidesOf(typed, world);
  const sides = [
    { ...before, checked: checkSources(before.set) },
    { ...after, checked: checkSources(sharedSources(before.set, after.set)) },
  ] as const;
  const showPath = pathShower(world.cwd);
  const unread = sides.flatMap(({ checked, set, called }) =>
    unreadIn(checked.files, set.failures).map((each) => ({
      side: called,
      path: showPath(each.path),
      why: each.why,
    })),
  );
  const plans = { before: planSideOf(sides[0].checked), after: planSideOf(sides[1].checked) };
  const all = comparePlans(plans);
  const comparison = typed.switches.has("quiet") ? withoutNotes(all) : all;
  const html = typed.values.get("html");
  if (html !== undefined) {
    const sentences = unread.map(({ side, path, why }) => `${path} (${side}): ${why} The rest is compared.`);
    return await writePage(html, typed.switches.has("force"), world, {
      comparison,
      plans,
      settings: sides[1].checked.files[0]?.plan.settings ?? STARTING_SETTINGS,
      sides: { before: before.called, after: after.called },
      unread: sentences,
    });
  }
  if (typed.switches.has("json")) {
    world.out(`${compareJson(comparison, { unread })}\n`);
    return CLEAN;
  }
  for (const { side, path, why } of unread) {
    world.out(`${safeText(path)} (${safeText(side)}): ${why} The rest is compared.\n`);
  }
  world.out(`${unread.length > 0 ? "\n" : ""}${compareText(comparison, world.paint)}\n`);
  return CLEAN;
}

/** What goes onto a page beside its pictures. */
interface Page {
  readonly comparison: Comparison;
  readonly plans: Both<PlanSide>;
  readonly settings: Settings;
  readonly sides: Both<string>;
  readonly unread: readonly string[];
}

async function writePage(
  to: string,
  force: boolean,
  world: World,
  { comparison, plans, settings, sides, unread }: Page,
): Promise<number> {
  const path = resolve(world.cwd, to);
  const shown = safeText(relative(world.cwd, path));
  if (isThere(path) && !force) {
    throw new Misuse(`“${shown}” is there already. Nothing is written; --force writes it anew.`);
  }
  const engraver = new LazyEngraver(world);
  try {
    const pictures = await rewrittenPictures(comparison, plans, settings, async (task) =>
      inColour(await engraver.engrave(task), "black"),
    );
    writeWhole(path, compareReport({ comparison, sides, unread, pictures, caution: CAUTION }));
  } catch (error) {
    if (!(error instanceof UnwrittenError || error instanceof EngravingError)) throw error;
    world.err(`${safeText(error.message)}\n`);
    return FOUND;
  } finally {
    await engraver.stop();
  }
  world.out(`${shown} is written.\n`);
  return CLEAN;
}

async function sidesOf({ words, values }: Typed, world: World): Promise<readonly [Side, Side]> {
  const since = values.get("since");
  const until = values.get("until");
  if (since === undefined) {
    if (until !== undefined) throw new Misuse("“--until” goes with “--since”: the revision to begin from.");
    const [before, after, ...more] = words;
    if (before === undefined || after === undefined || more.length > 0) {
      throw new Misuse(
        "Name two files or folders to compare, or a revision: leadpipe compare --since HEAD~1 samples",
      );
    }
    return [await onDisk(before, world), await onDisk(after, world)];
  }
  const paths = words.length === 0 ? ["."] : words;
  const before = await atRevision(since, paths, world);
  const after =
    until === undefined
      ? { set: (await loadAsked(words, world)).set, called: "as it is now" }
      : await atRevision(until, paths, world);
  if (before.set.asked.length + after.set.asked.length === 0) {
    throw new Misuse("On neither side is there a plan file (ending in .practice) of this name.");
  }
  return [before, after];
}

async function onDisk(word: string, world: World): Promise<Side> {
  const { set } = await loadAsked([word], world);
  const [only] = set.asked;
  const failure = only === undefined ? undefined : set.failures.get(only);
  // A name mistyped would otherwise be compared as if everything had been taken out.
  if (set.asked.length === 1 && failure?.code === "file-unreadable") {
    throw new Misuse(`“${word}”: ${failure.message}`);
  }
  return { set, called: word };
}

async function atRevision(revision: string, paths: readonly string[], world: World): Promise<Side> {
  const whole = paths.map((path) => resolve(world.cwd, path));
  const found = await revisionFiles({
    git: world.git,
    cwd: folderThere(whole[0] ?? world.cwd).replaceAll("\\", "/"),
    revision,
    paths: whole.map((path) => path.replaceAll("\\", "/")),
  });
  if ("why" in found) throw new Misuse(found.why);
  return { set: found.set, called: revision };
}

/** The nearest folder that is there today: what is asked about may be gone, and its folder too. */
function folderThere(path: string): string {
  let folder = path;
  while (!isFolder(folder) && dirname(folder) !== folder) folder = dirname(folder);
  return folder;
}
