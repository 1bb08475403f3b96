import { comparePlans } from "../compare/compare-plans";
import type { Both, Comparison } from "../compare/comparison";
import type { PlanSide } from "../compare/plan-side";
import { type Settings, STARTING_SETTINGS } from "../plan/settings";
import type { CompareParams, OldText } from "../protocol/year-requests";
import { type Checked, type CheckedFile, checkSources } from "../workspace/check-sources";
import { fileName, folderOf, relativePath } from "../workspace/paths";
import { acceptable, NOT_UTF8, tooLarge } from "../workspace/plan-bytes";
import { planSideOf } from "../workspace/plan-side-of";
import { sharedSources } from "../workspace/shared-sources";
import type { Failure, SourceSet } from "../workspace/source";
import { isWithin, sourceSetOf, studioPaths, usedPaths } from "../workspace/source-set-of";
import { unreadIn } from "../workspace/unread-in";
import type { Places } from "./lines-of";
import type { Paths } from "./music-ask";

/** What a comparison's page is made of, its pictures apart. */
export interface Compared {
  readonly comparison: Comparison;
  readonly plans: Both<PlanSide>;
  readonly settings: Settings;
  readonly sides: Both<string>;
  readonly unread: readonly string[];
  /** What a file of it would be called, without its ending. */
  readonly name: string;
}

/**
 * Compares a file or a folder with what it was, or with another. Both sides are checked for themselves, so that
 * findings come and go for the same reasons; where texts of the old side are missing, they are asked for.
 */
export function comparedPlans(
  checked: Checked,
  { uri, before }: Omit<CompareParams, "file">,
  paths: Paths,
  places: Places,
): Compared | { readonly wanted: readonly string[] } | { readonly trouble: string } {
  const [now, then] = [paths.pathOf(uri), paths.pathOf(before.uri)];
  const today = todaySet(checked, now);
  const old = oldTexts(before.texts, paths);
  const listed = before.listed.map((each) => paths.pathOf(each));
  const oldSet = sourceSetOf(old.texts, old.failures, (path) => isWithin(then, path));
  const told = new Set(before.texts.map((each) => each.uri));
  const wanted = wantedPaths(oldSet, listed)
    .map((path) => places.uriOf(path))
    .filter((each) => !told.has(each));
  if (wanted.length > 0) return { wanted };
  const shown = now === then ? fileName(now) : fileName(then);
  if (oldSet.asked.length === 0) {
    return {
      trouble:
        today.asked.length === 0
          ? `On neither side is there a plan file (ending in .practice) in “${shown}”.`
          : `${capital(before.called)} has no plan “${shown}”, so there is nothing to compare it with.`,
    };
  }
  if (today.asked.length === 0) {
    return { trouble: `“${fileName(now)}” holds no plan that was read. Open it, and try again.` };
  }
  const oldChecked = checkSources(sharedSources(today, oldSet));
  const newChecked = checkSources(today);
  const plans = { before: planSideOf(oldChecked), after: planSideOf(newChecked) };
  const sides = { before: before.called, after: now === then ? `${shown} as it is now` : fileName(now) };
  const sentences = (files: readonly CheckedFile[], set: SourceSet, called: string): readonly string[] =>
    [...unreadIn(files, set.failures), ...unreadUsed(set)].map(
      ({ path, why }) => `${relativePath(folderOf(now), path)} (${called}): ${why} The rest is compared.`,
    );
  return {
    comparison: comparePlans(plans),
    plans,
    settings: newChecked.files[0]?.plan.settings ?? STARTING_SETTINGS,
    sides,
    unread: [
      ...sentences(oldChecked.files, oldSet, sides.before),
      ...sentences(newChecked.files, today, "now"),
    ],
    name: `${fileName(now).replace(/\.practice$/, "")}, what differs`,
  };
}

/** The files asked for as they are now, with what they use, in the trees that are read already. */
function todaySet(checked: Checked, now: string): SourceSet {
  const texts = new Map<string, string>();
  const failures = new Map<string, Failure>();
  for (const file of checked.files) {
    const failure = failureOf(file);
    if (failure === undefined) texts.set(file.path, file.text);
    else failures.set(file.path, failure);
  }
  const set = sourceSetOf(texts, failures, (path) => isWithin(now, path));
  const sources = new Map(checked.files.map((file) => [file.path, file] as const));
  return sharedSources({ ...set, sources }, set);
}

/** Files that were not asked for themselves, but are used, and could not be read. */
function unreadUsed({ asked, sources, failures }: SourceSet): readonly { path: string; why: string }[] {
  const used = new Set([...sources.values()].flatMap(usedPaths));
  return [...failures].flatMap(([path, { message }]) =>
    used.has(path) && !asked.includes(path) ? [{ path, why: message }] : [],
  );
}

/** Why a file has no text, where it was found to have none. */
function failureOf({ text, findings }: CheckedFile): Failure | undefined {
  if (text !== "") return undefined;
  for (const { code, message } of findings) {
    if (code === "file-unreadable" || code === "file-too-large" || code === "file-not-text") {
      return { code, message };
    }
  }
  return undefined;
}

interface OldTexts {
  readonly texts: ReadonlyMap<string, string>;
  readonly failures: ReadonlyMap<string, Failure>;
}

function oldTexts(told: readonly OldText[], paths: Paths): OldTexts {
  const texts = new Map<string, string>();
  const failures = new Map<string, Failure>();
  for (const { uri, text, trouble } of told) {
    const path = paths.pathOf(uri);
    const read = text === undefined ? failureFor(trouble ?? "missing") : acceptable(text);
    if (typeof read === "string") texts.set(path, read);
    else if (read !== undefined) failures.set(path, read);
  }
  return { texts, failures };
}

function failureFor(trouble: NonNullable<OldText["trouble"]>): Failure | undefined {
  switch (trouble) {
    case "missing":
      return undefined;
    case "too-large":
      return tooLarge();
    case "not-text":
      return NOT_UTF8;
    case "unreadable":
      return { code: "file-unreadable", message: "This file cannot be opened." };
  }
}

/** What was listed, what the old files use, and where their studio file may lie. */
function wantedPaths({ sources }: SourceSet, listed: readonly string[]): readonly string[] {
  const wanted = new Set(listed);
  for (const source of sources.values()) {
    for (const path of usedPaths(source)) wanted.add(path);
    // Above the top of a file system there is no folder to look into.
    for (const path of studioPaths(source.path)) if (/^[^:]*\/|^[^:]+:\//.test(path)) wanted.add(path);
  }
  return [...wanted];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
