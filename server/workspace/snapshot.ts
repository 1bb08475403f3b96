import type { Piece, SourceTree } from "../../grammar/piece";
import { buildPlan, type Plan } from "../plan/plan";
import type { Record } from "../plan/record";
import { sameList } from "../plan/same-list";
import { checkingPlan } from "../rules/check";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import type { Surroundings } from "../rules/surroundings";
import type { Checked, CheckedFile } from "./checked";
import { atSeverities, fileFinding, syntaxFindings } from "./file-finding";
import { Homes, startsOf } from "./homes";
import { mergedFindings } from "./merge-findings";
import { recordsByTerm, recordsIn } from "./records";
import { keptFindings } from "./same-findings";
import { type SourceSet, unreadTree, wholeFile } from "./source";
import { seenBy, surroundingsOf } from "./surroundings-of";
import { type ResolvedUse, UseGraph } from "./uses";

/**
 * A set of files at one moment, and all that follows from it. Everything is worked out when it is asked for, and
 * whatever hangs on nothing that changed is taken over from the moment before.
 */
export class Snapshot implements Checked {
  readonly files: readonly SnapshotFile[];
  readonly homes: Homes<SnapshotFile>;
  private readonly byPath: ReadonlyMap<string, SnapshotFile>;
  private readonly graph: UseGraph;
  /** For each file, those that may find something in it, in the order of the files. */
  private readonly finders: ReadonlyMap<string, readonly string[]>;
  private around: Surroundings | undefined;
  private readonly moreToCome: boolean;

  constructor(set: SourceSet, before?: Snapshot) {
    this.graph = before?.graph.serves(set) === true ? before.graph : new UseGraph(set);
    this.moreToCome = set.moreToCome === true;
    const records = recordsByTerm(set, this.graph);
    const asked = new Set(set.asked);
    const paths = [...new Set([...set.asked, ...set.sources.keys()])];
    const files = paths.map((path) => {
      const source = set.sources.get(path);
      const old = before?.byPath.get(path);
      return new SnapshotFile(
        this,
        path,
        source?.text ?? "",
        treeOf(source?.tree, old?.tree),
        asked.has(path),
        this.graph.usedBy(path).map((each) => set.sources.get(each)!.tree.pieces),
        records.get(path) ?? [],
        set.failures.get(path),
        source !== undefined,
        old?.handedOn,
      );
    });
    this.files = files;
    this.byPath = new Map(files.map((file) => [file.path, file]));
    this.homes = new Homes(this.byPath);
    const sameFiles =
      before !== undefined &&
      before.graph === this.graph &&
      before.files.length === files.length &&
      before.files.every(
        ({ path, asked, holdsRecord }, i) =>
          files[i]?.path === path && files[i].asked === asked && files[i].holdsRecord === holdsRecord,
      );
    this.finders = sameFiles ? before.finders : findersOf(files, this.graph);
  }

  file(path: string): SnapshotFile | undefined {
    return this.byPath.get(path);
  }

  /** What all files say of each other; every plan is built for it. */
  get surroundings(): Surroundings {
    this.around ??= surroundingsOf(this.files, this.moreToCome);
    return this.around;
  }

  /** The same as far as it is known without building another plan than those that are built. */
  get surroundingsSoFar(): Surroundings {
    return (
      this.around ??
      surroundingsOf(
        this.files.flatMap(({ tree, planSoFar }) =>
          planSoFar === undefined ? [] : [{ tree, plan: planSoFar }],
        ),
        this.moreToCome,
      )
    );
  }

  usesOf(path: string): readonly ResolvedUse[] {
    return this.graph.usesOf(path);
  }

  usesFindings(path: string): readonly Finding[] {
    return this.graph.findings(path);
  }

  /** The files that may find something in a file: itself, and those that use it. */
  findersOf(path: string): readonly SnapshotFile[] {
    return (this.finders.get(path) ?? []).map((each) => this.byPath.get(each)!);
  }
}

/** An empty file has no piece either, and what is said of it needs one to hang on. */
function treeOf(tree: SourceTree | undefined, old: SourceTree | undefined): SourceTree {
  if (tree !== undefined && tree.pieces.length > 0) return tree;
  return old?.pieces[0]?.text === "" ? old : unreadTree();
}

function findersOf(files: readonly SnapshotFile[], graph: UseGraph): ReadonlyMap<string, readonly string[]> {
  const finders = new Map<string, string[]>(files.map(({ path }) => [path, []]));
  for (const file of files) {
    if (!file.asked) continue;
    const places = new Set([file.path, ...graph.usedBy(file.path)]);
    for (const path of places) finders.get(path)?.push(file.path);
    for (const other of files) {
      // A plan may speak of what another file recorded of its terms.
      if (other.holdsRecord && !places.has(other.path) && graph.usedBy(other.path).includes(file.path)) {
        finders.get(other.path)?.push(file.path);
      }
    }
  }
  return finders;
}

/** What one moment hands on to the next of each file. */
interface HandedOn {
  readonly planned?: Planned | undefined;
  readonly reported?: Reported | undefined;
  readonly said?: Said | undefined;
  readonly merged?: Merged | undefined;
}

interface Planned {
  readonly own: readonly Piece[];
  readonly used: readonly (readonly Piece[])[];
  readonly records: readonly Record[];
  readonly plan: Plan;
}

/** What the rules found in a plan. */
interface Reported {
  readonly plan: Plan;
  readonly seen: string;
  readonly findings: readonly Finding[];
}

/** What one file has to say, by the file it is said of. */
interface Said {
  readonly reported: Reported;
  readonly tree: SourceTree;
  readonly uses: readonly Finding[];
  readonly failure: object | undefined;
  readonly byFile: ReadonlyMap<string, readonly Finding[]>;
}

interface Merged {
  readonly tree: SourceTree;
  readonly parts: readonly (readonly Finding[])[];
  readonly findings: readonly Finding[];
}

const NOTHING: readonly Finding[] = [];

/** One file of a snapshot. */
export class SnapshotFile implements CheckedFile {
  private planned: Planned | undefined;
  private reported: Reported | undefined;
  private said: Said | undefined;
  private merged: Merged | undefined;

  constructor(
    private readonly snapshot: Snapshot,
    readonly path: string,
    readonly text: string,
    readonly tree: SourceTree,
    readonly asked: boolean,
    readonly used: readonly (readonly Piece[])[],
    private readonly records: readonly Record[],
    private readonly failure: SourceSet["failures"] extends ReadonlyMap<string, infer F>
      ? F | undefined
      : never,
    private readonly wasRead: boolean,
    private readonly before: HandedOn | undefined,
  ) {}

  /** What the next moment may take over: the newest of each that was worked out. */
  get handedOn(): HandedOn {
    return {
      planned: this.planned ?? this.before?.planned,
      reported: this.reported ?? this.before?.reported,
      said: this.said ?? this.before?.said,
      merged: this.merged ?? this.before?.merged,
    };
  }

  get uses(): readonly ResolvedUse[] {
    return this.snapshot.usesOf(this.path);
  }

  get holdsRecord(): boolean {
    return recordsIn(this.tree).length > 0;
  }

  get plan(): Plan {
    if (this.planned !== undefined) return this.planned.plan;
    const old = this.before?.planned;
    const { used, records } = this;
    const own = this.tree.pieces;
    this.planned =
      old !== undefined && old.own === own && sameList(old.used, used) && sameList(old.records, records)
        ? old
        : { own, used, records, plan: buildPlan(own, used, records, old) };
    return this.planned.plan;
  }

  /** The plan, or the one it last had if it was not built yet. */
  get planSoFar(): Plan | undefined {
    return this.planned?.plan ?? this.before?.planned?.plan;
  }

  get ground(): Ground {
    const { used, records } = this;
    return { own: this.tree.pieces, used, records, around: this.snapshot.surroundings };
  }

  get findings(): readonly Finding[] {
    const parts = this.snapshot.findersOf(this.path).map((finder) => finder.saysOf(this.path));
    return this.together(parts);
  }

  /**
   * The findings as far as they are known without checking another file: what the file itself has to say is new,
   * what others say of it is what they said last.
   */
  get findingsSoFar(): readonly Finding[] {
    const starts = startsOf(this.tree);
    const parts = this.snapshot.findersOf(this.path).map((finder) => {
      if (finder === this) return this.saysOf(this.path, this.snapshot.surroundingsSoFar);
      const last = finder.saidLast(this.path);
      return last.every(({ place }) => starts.has(place.piece))
        ? last
        : last.filter(({ place }) => starts.has(place.piece));
    });
    return this.together(parts);
  }

  /** Checks the file's plan in small steps, so that `findings` has little left to do. */
  *checking(around: Surroundings = this.snapshot.surroundings): Generator<undefined, void> {
    if (!this.asked) return;
    const { plan } = this;
    const seen = seenBy(plan, around);
    if (this.isReported(plan, seen)) return;
    yield;
    const findings = yield* checkingPlan(plan, around);
    this.reported = { plan, seen, findings };
  }

  private isReported(plan: Plan, seen: string): boolean {
    for (const known of [this.reported, this.before?.reported]) {
      if (known === undefined || known.plan !== plan || known.seen !== seen) continue;
      this.reported = known;
      return true;
    }
    return false;
  }

  private saidLast(path: string): readonly Finding[] {
    return (this.said ?? this.before?.said)?.byFile.get(path) ?? NOTHING;
  }

  /** What this file's plan finds in a file. */
  private saysOf(path: string, around: Surroundings = this.snapshot.surroundings): readonly Finding[] {
    for (const _ of this.checking(around));
    const { reported, tree, failure } = this;
    if (reported === undefined) return NOTHING;
    const uses = this.snapshot.usesFindings(this.path);
    const old = this.said ?? this.before?.said;
    if (old?.reported === reported && old.tree === tree && old.uses === uses && old.failure === failure) {
      this.said = old;
    } else {
      const byFile = this.byFile([
        ...atSeverities([...this.ownFindings(), ...uses], reported.plan.settings),
        ...reported.findings,
      ]);
      for (const [each, findings] of byFile)
        byFile.set(each, keptFindings(old?.byFile.get(each) ?? NOTHING, findings));
      this.said = { reported, tree, uses, failure, byFile };
    }
    return this.said.byFile.get(path) ?? NOTHING;
  }

  /** What is true of the file before its plan is asked. */
  private ownFindings(): readonly Finding[] {
    const { failure, path, text, tree } = this;
    const place = wholeFile(tree);
    if (failure !== undefined) return [fileFinding(failure.code, place, failure.message)];
    const empty = text.trim() === "" ? [fileFinding("file-empty", place, "This file is empty.")] : [];
    return this.wasRead ? [...empty, ...syntaxFindings({ path, text, tree })] : empty;
  }

  private byFile(findings: readonly Finding[]): Map<string, readonly Finding[]> {
    const byFile = new Map<string, Finding[]>();
    let piece: Piece | undefined;
    let path = this.path;
    for (const finding of findings) {
      // Findings of one piece mostly follow each other.
      if (finding.place.piece !== piece) {
        piece = finding.place.piece;
        path = this.snapshot.homes.get(piece)?.file.path ?? this.path;
      }
      const there = byFile.get(path);
      if (there === undefined) byFile.set(path, [finding]);
      else there.push(finding);
    }
    return byFile;
  }

  private together(parts: readonly (readonly Finding[])[]): readonly Finding[] {
    const { tree } = this;
    const old = this.merged ?? this.before?.merged;
    if (old !== undefined && old.tree === tree && sameList(old.parts, parts)) {
      this.merged = old;
    } else {
      this.merged = { tree, parts, findings: mergedFindings(parts.flat(), startsOf(tree)) };
    }
    return this.merged.findings;
  }
}
