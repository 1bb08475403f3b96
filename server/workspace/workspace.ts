import { readSource } from "../../grammar/pieces";
import type { Surroundings } from "../rules/surroundings";
import { Snapshot, type SnapshotFile } from "./snapshot";
import type { Failure, Source, SourceSet } from "./source";

/** What the workspace needs of the world around it; the entry point supplies it. */
export interface WorkspaceWorld {
  /** Milliseconds from any start. */
  readonly now: () => number;
  /** Lets whatever else waits have its turn, without waiting longer than that takes. */
  readonly turn: () => Promise<void>;
  /** Whether somebody waits for an answer: checking goes on when nobody does. */
  readonly isAsked?: () => boolean;
}

/** Told of what comes of the work. None of it is called while a method of the workspace runs. */
export interface WorkspaceListener {
  /** Findings of a file that was checked again. The same list as before where nothing was found differently. */
  readonly checked: (file: SnapshotFile, findings: SnapshotFile["findings"]) => void;
  /** All files are checked as they stand now. */
  readonly settled: () => void;
  /** Checking a file, or whatever the words say, failed; it keeps what was found last. */
  readonly failed: (path: string, error: unknown) => void;
}

/** Milliseconds that background work holds on to before others have their turn. */
const SLICE = 4;

/**
 * The plan files of an editor: what is open, and what else lies on the disk. Texts come in, findings come out.
 * Work is done in small steps: the file that was edited first, then the other open ones, then the rest; a new
 * edit drops what is out of date.
 */
export class Workspace {
  /** What the disk holds, as far as it was read. */
  private readonly disk = new Map<string, Source | Failure>();
  private readonly open = new Map<string, Source | Failure>();
  /** Files that lie in the editor's folders; others are here because these use them. */
  private readonly inFolders = new Set<string>();
  private failures: ReadonlyMap<string, Failure> = new Map();
  private aliases: ReadonlyMap<string, string> = new Map();
  private known: ReadonlySet<string> = new Set();
  private moreToCome = false;
  private snapshot: Snapshot | undefined;
  private outdated = true;
  /** Counts changes; work that began at another count is out of date. */
  private moment = 0;
  /** Open files, the one edited last first. */
  private urgent: string[] = [];
  private working: Promise<void> | undefined;
  private paused = 0;
  /** Those who wait for files to be read in. */
  private waiting: (() => void)[] = [];

  constructor(
    private readonly world: WorkspaceWorld,
    private readonly listener: WorkspaceListener,
  ) {}

  /** All files as they stand now. Nothing is worked out by asking; plan and findings come when they are read. */
  get checked(): Snapshot {
    if (this.snapshot === undefined || this.outdated) {
      this.snapshot = new Snapshot(this.sources(), this.snapshot);
      this.outdated = false;
    }
    return this.snapshot;
  }

  /** Whether all files are checked as they stand now. */
  get isSettled(): boolean {
    return this.working === undefined && this.paused === 0;
  }

  /**
   * What is found in a file as far as it is known without checking others for it: everything, once all are checked
   * as they stand.
   */
  findingsNow(file: SnapshotFile): SnapshotFile["findings"] {
    return this.isSettled ? file.findings : file.findingsSoFar;
  }

  isOpen(path: string): boolean {
    return this.open.has(path);
  }

  /** The text of an open file, when it is opened or edited. */
  setOpen(path: string, content: string | Failure): void {
    const before = this.lastOf(path);
    this.open.set(path, typeof content === "string" ? this.read(path, content, before) : content);
    this.urgent = [path, ...this.urgent.filter((each) => each !== path)];
    this.changed();
  }

  /** From now on the file is what the disk holds; one that the disk does not hold is gone. */
  close(path: string): void {
    const last = this.open.get(path);
    if (last === undefined) return;
    this.open.delete(path);
    const disk = sourceIn(this.disk.get(path));
    if (disk !== undefined) this.disk.set(path, this.read(path, disk.text, sourceIn(last)));
    this.urgent = this.urgent.filter((each) => each !== path);
    this.changed();
  }

  /** What the disk holds under a path. `inFolders` says whether its findings are wanted while it is not open. */
  setDisk(path: string, content: string | Failure, inFolders: boolean): void {
    const wasInFolders = this.inFolders.has(path);
    if (inFolders) this.inFolders.add(path);
    const before = this.disk.get(path);
    if (typeof content !== "string") this.disk.set(path, content);
    else if (before !== undefined && "text" in before && before.text === content) {
      if (!inFolders || wasInFolders) return;
    } else this.disk.set(path, this.read(path, content, this.lastOf(path)));
    this.changed();
  }

  /** The disk holds nothing under this path any more. */
  removeDisk(path: string): void {
    this.inFolders.delete(path);
    if (this.disk.delete(path)) this.changed();
  }

  /** Other names of files, and plan files that are known to exist whether they are read or not. */
  setNames(aliases: ReadonlyMap<string, string>, known: ReadonlySet<string>): void {
    this.aliases = aliases;
    this.known = known;
    this.changed();
  }

  /** Whether files are still being looked for, so that nothing is called unused yet. */
  setMoreToCome(moreToCome: boolean): void {
    if (this.moreToCome === moreToCome) return;
    this.moreToCome = moreToCome;
    this.changed();
  }

  /** Paths that the disk is known to hold a file under. */
  get diskPaths(): readonly string[] {
    return [...this.disk.keys()];
  }

  /** Nothing is checked while files are being read in; what is asked for is answered all the same. */
  async whilePaused<T>(work: () => Promise<T>): Promise<T> {
    this.paused++;
    try {
      return await work();
    } finally {
      this.paused--;
      this.changed();
      if (this.paused === 0) for (const wake of this.waiting.splice(0)) wake();
    }
  }

  /** Resolves when no files are being read in: what is missing before that may only be missing still. */
  async readSoFar(): Promise<void> {
    while (this.paused > 0) await this.somethingRead();
  }

  /** Resolves when all files were found and read in. */
  async readIn(): Promise<void> {
    while (this.paused > 0 || this.moreToCome) await this.somethingRead();
  }

  private somethingRead(): Promise<void> {
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  /** Resolves when all files are checked as they stand then. */
  async settled(): Promise<void> {
    while (!this.isSettled) {
      await this.readSoFar();
      await this.working;
    }
  }

  /** What a file was last, for the sake of its pieces. */
  private lastOf(path: string): Source | undefined {
    return sourceIn(this.open.get(path)) ?? sourceIn(this.disk.get(path));
  }

  private read(path: string, text: string, before: Source | undefined): Source {
    return { path, text, tree: readSource(text, before?.tree) };
  }

  private changed(): void {
    this.moment++;
    this.outdated = true;
    if (this.paused > 0) return;
    this.working ??= this.work();
  }

  private sources(): SourceSet {
    const sources = new Map<string, Source>();
    const failures = new Map<string, Failure>();
    const paths = [...new Set([...this.disk.keys(), ...this.open.keys()])].sort();
    for (const path of paths) {
      const source = this.open.get(path) ?? this.disk.get(path);
      if (source === undefined) continue;
      if ("text" in source) sources.set(path, source);
      else failures.set(path, source);
    }
    // The same map as before where nothing failed differently, so that it need not be compared again.
    const same =
      failures.size === this.failures.size &&
      [...failures].every(([path, failure]) => this.failures.get(path) === failure);
    if (!same) this.failures = failures;
    return {
      asked: paths.filter((path) => this.open.has(path) || this.inFolders.has(path)),
      sources,
      failures: this.failures,
      aliases: this.aliases,
      known: this.known,
      moreToCome: this.moreToCome,
    };
  }

  private async work(): Promise<void> {
    try {
      for (;;) {
        // What has already come in is heard first: of several edits only the last is checked.
        await this.giveWay();
        const { moment } = this;
        if (this.paused > 0) return;
        if ((await this.checkAll(moment)) && moment === this.moment) return;
      }
    } catch (error) {
      // Nobody awaits this work; what escaped its guards must not end the process.
      this.listener.failed("the plans", error);
    } finally {
      this.working = undefined;
      if (this.paused === 0) this.listener.settled();
    }
  }

  /** Others have their turn: what has come in is read in the first and heard in the second, then it is answered. */
  private async giveWay(): Promise<void> {
    await this.world.turn();
    do await this.world.turn();
    while (this.world.isAsked?.() === true);
  }

  /** Checks every file in order of urgency. False if an edit came in between. */
  private async checkAll(moment: number): Promise<boolean> {
    let sliceEnds = this.world.now() + SLICE;
    for (const _ of this.steps()) {
      if (this.world.now() < sliceEnds) continue;
      await this.giveWay();
      if (moment !== this.moment || this.paused > 0) return false;
      sliceEnds = this.world.now() + SLICE;
    }
    return true;
  }

  private *steps(): Generator<undefined> {
    const snapshot = this.checked;
    const urgent = this.urgent.map((path) => snapshot.file(path)).filter((file) => file !== undefined);
    const rest = snapshot.files.filter((file) => !urgent.includes(file));
    for (const file of urgent) {
      yield* this.checking(file, () => snapshot.surroundingsSoFar);
      this.tell(file, () => file.findingsSoFar);
      yield;
    }
    for (const file of rest) {
      this.guard(file, () => file.plan);
      yield;
    }
    const all = [...urgent, ...rest];
    for (const file of all) yield* this.checking(file, () => snapshot.surroundings);
    for (const file of all) {
      this.tell(file, () => file.findings);
      yield;
    }
  }

  private *checking(file: SnapshotFile, around: () => Surroundings): Generator<undefined> {
    try {
      yield* file.checking(around());
    } catch (error) {
      this.listener.failed(file.path, error);
    }
  }

  private tell(file: SnapshotFile, find: () => SnapshotFile["findings"]): void {
    this.guard(file, () => this.listener.checked(file, find()));
  }

  private guard(file: SnapshotFile, work: () => unknown): void {
    try {
      work();
    } catch (error) {
      this.listener.failed(file.path, error);
    }
  }
}

function sourceIn(content: Source | Failure | undefined): Source | undefined {
  return content !== undefined && "text" in content ? content : undefined;
}
