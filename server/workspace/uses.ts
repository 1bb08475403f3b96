import { nearest } from "../plan/nearest";
import type { Finding } from "../rules/finding";
import { fileFinding } from "./file-finding";
import { composed, fileName, folded, folderOf, foldersUp, joined, relativePath, resolved } from "./paths";
import { type SourceSet, STUDIO_FILE, type Use, usesOf } from "./source";

/** What a `use` line came to. */
export interface ResolvedUse {
  readonly use: Use;
  /** The file it means; undefined where there is none. */
  readonly path: string | undefined;
  /** The file has this name but for capitals. */
  readonly caseDiffers: boolean;
}

/**
 * The files of a set and how they use each other. It holds no text: while no file comes or goes and no `use`
 * line changes, it serves for the next set as well.
 */
export class UseGraph {
  private readonly resolvedUses = new Map<string, readonly ResolvedUse[]>();
  private readonly usedFiles = new Map<string, readonly string[]>();
  private readonly found = new Map<string, readonly Finding[]>();
  private readonly byFolded = new Map<string, string[]>();
  /** The `use` lines of every file that was read. */
  private readonly uses: ReadonlyMap<string, readonly Use[]>;
  private readonly failures: SourceSet["failures"];
  private readonly aliases: SourceSet["aliases"];
  private readonly known: SourceSet["known"];

  constructor(set: SourceSet) {
    this.uses = new Map([...set.sources].map(([path, { tree }]) => [path, usesOf(tree)]));
    this.failures = set.failures;
    this.aliases = set.aliases;
    this.known = set.known;
    for (const path of new Set([...set.known, ...set.sources.keys(), ...set.failures.keys()])) {
      const alike = this.byFolded.get(folded(path));
      if (alike === undefined) this.byFolded.set(folded(path), [path]);
      else alike.push(path);
    }
  }

  /** Whether this is what the graph of another set would be. */
  serves(set: SourceSet): boolean {
    if (set.failures !== this.failures || set.aliases !== this.aliases || set.known !== this.known)
      return false;
    if (set.sources.size !== this.uses.size) return false;
    for (const [path, { tree }] of set.sources) {
      const before = this.uses.get(path);
      const now = usesOf(tree);
      if (before === undefined || before.length !== now.length) return false;
      if (before !== now && before.some((use, i) => use.declaration !== now[i]?.declaration)) return false;
    }
    return true;
  }

  /** The `use` lines of a file with what they mean. */
  usesOf(path: string): readonly ResolvedUse[] {
    const known = this.resolvedUses.get(path);
    if (known !== undefined) return known;
    const uses = (this.uses.get(path) ?? []).map((use) => this.resolve(path, use));
    this.resolvedUses.set(path, uses);
    return uses;
  }

  /**
   * Every file that one file uses, directly or through another, farthest first, each once. The studio's own
   * file is the farthest: what a plan says itself comes after the house rules.
   */
  usedBy(path: string): readonly string[] {
    const known = this.usedFiles.get(path);
    if (known !== undefined) return known;
    const seen = new Set([path]);
    const order: string[] = [];
    const visit = (at: string): void => {
      if (seen.has(at) || !this.uses.has(at)) return;
      seen.add(at);
      for (const use of this.usesOf(at)) if (use.path !== undefined) visit(use.path);
      order.push(at);
    };
    const studio = this.studioOf(path);
    if (studio !== undefined) visit(studio);
    for (const use of this.usesOf(path)) if (use.path !== undefined) visit(use.path);
    this.usedFiles.set(path, order);
    return order;
  }

  /** The nearest studio file in the folder of a file or above it. */
  studioOf(path: string): string | undefined {
    if (fileName(path) === STUDIO_FILE) return undefined;
    for (const folder of foldersUp(folderOf(path))) {
      const studio = this.aliases.get(joined(folder, STUDIO_FILE)) ?? joined(folder, STUDIO_FILE);
      if (this.uses.has(studio) && studio !== path) return studio;
    }
    return undefined;
  }

  /** What is to be said about the `use` lines of a file. */
  findings(path: string): readonly Finding[] {
    const known = this.found.get(path);
    if (known !== undefined) return known;
    const findings: Finding[] = [];
    this.found.set(path, findings);
    const firsts = new Map<string, Use>();
    for (const { use, path: used, caseDiffers } of this.usesOf(path)) {
      const written = use.declaration.path.text;
      if (used === undefined) {
        findings.push(this.missing(path, use));
        continue;
      }
      const failure = this.failures.get(used);
      if (failure !== undefined) {
        findings.push(
          fileFinding("use-missing", use.place, `“${written}” cannot be used. ${failure.message}`),
        );
      }
      const first = firsts.get(used);
      if (first !== undefined) {
        findings.push(
          fileFinding("use-twice", use.place, `“${written}” is used twice in this file; once is enough.`, {
            related: [{ place: first.place, message: "used here first" }],
          }),
        );
        continue;
      }
      firsts.set(used, use);
      findings.push(...this.caseFindings(path, use, used, caseDiffers));
      if (used === path) {
        findings.push(
          fileFinding("use-circle", use.place, "This file uses itself; the line can go.", {
            severity: "warning",
          }),
        );
      } else if (this.usedBy(used).includes(path)) {
        const message = `“${written}” uses this file in turn. Each is read once, so nothing is lost.`;
        findings.push(fileFinding("use-circle", use.place, message));
      }
    }
    return findings;
  }

  private resolve(path: string, use: Use): ResolvedUse {
    const wanted = resolved(folderOf(path), use.declaration.path.text);
    const exact = this.aliases.get(wanted) ?? wanted;
    if (this.isThere(exact)) return { use, path: exact, caseDiffers: false };
    const alike = this.byFolded.get(folded(wanted)) ?? [];
    // The same letters in other signs are no other name.
    const same = alike
      .filter((each) => composed(each) === composed(wanted))
      .map((each) => this.aliases.get(each) ?? each)
      .find((each) => this.isThere(each));
    if (same !== undefined) return { use, path: same, caseDiffers: false };
    const other = alike.find((each) => this.isThere(each));
    return { use, path: other, caseDiffers: other !== undefined };
  }

  private isThere(path: string): boolean {
    return this.uses.has(path) || this.failures.has(path);
  }

  private missing(path: string, use: Use): Finding {
    const written = use.declaration.path.text;
    const folder = folderOf(path);
    const wanted = fileName(resolved(folder, written));
    const near = this.nearestFile(path, resolved(folder, written), wanted);
    const there = near === undefined ? undefined : relativePath(folder, near);
    return fileFinding(
      "use-missing",
      use.place,
      there === undefined
        ? `There is no file “${written}”. The path starts from the folder of this file.`
        : `There is no file “${written}”. Did you mean “${there}”?`,
      {
        mend: there === undefined ? undefined : { title: `Use “${there}”`, text: `"${there}"` },
      },
    );
  }

  /** A file of the same name elsewhere, or else of the nearest spelling, those in the folder meant first. */
  private nearestFile(from: string, wanted: string, name: string): string | undefined {
    const others = [...new Set([...this.known, ...this.uses.keys()])].filter((each) => each !== from).sort();
    const same = others.find((each) => composed(fileName(each)) === composed(name));
    if (same !== undefined) return same;
    const beside = others.filter((each) => folderOf(each) === folderOf(wanted));
    const spelt = nearest(name, beside.map(fileName)) ?? nearest(name, others.map(fileName));
    if (spelt === undefined) return undefined;
    return [...beside, ...others].find((each) => fileName(each) === spelt);
  }

  private caseFindings(path: string, use: Use, used: string, caseDiffers: boolean): readonly Finding[] {
    const written = use.declaration.path.text;
    if (caseDiffers) {
      const there = relativePath(folderOf(path), used);
      const message = `The file is called “${there}”, not “${written}”: on some computers it will not be found.`;
      const mend = { title: `Use “${there}”`, text: `"${there}"` };
      return [fileFinding("use-case", use.place, message, { mend })];
    }
    const other = this.byFolded.get(folded(used))?.find((each) => composed(each) !== composed(used));
    if (other === undefined) return [];
    const message = `“${fileName(other)}” lies beside “${fileName(used)}” and differs only in capitals: on some computers one of them overwrites the other.`;
    return [fileFinding("use-case", use.place, message)];
  }
}
