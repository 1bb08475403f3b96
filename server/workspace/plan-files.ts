import type { UseDeclaration } from "../../grammar/tree";
import type { Disk, Listing } from "./disk";
import { alikeIn, composed, fileName, folderOf, foldersUp, joined, resolved } from "./paths";
import { STUDIO_FILE, usesOf } from "./source";
import type { Workspace } from "./workspace";

/** Files that are read before others have their turn. */
const BATCH = 8;

/** How far reading in is: folders that were looked into so far, then files that were read. */
export type ReadingProgress = { readonly folders: number } | { readonly done: number; readonly all: number };

/**
 * Keeps a workspace in step with where its files lie: the plan files of the opened folders, and what they use
 * beyond. Every method may be called at any time. They are done one after the other, but none waits while folders are
 * looked through: of a whole home folder that may take long.
 */
export class PlanFiles {
  private folders: readonly string[] = [];
  /** Whether all folders were looked through once. */
  private wasScanned = false;
  /** Files that were looked for because others use them, whether they were found or not. */
  private readonly lookedFor = new Set<string>();
  private readonly wanted = new Set<string>();
  private readonly followed = new WeakSet<UseDeclaration>();
  /** Whether all that was followed before still holds. */
  private allFollowed = false;
  private readonly studiosFor = new Set<string>();
  private readonly known = new Set<string>();
  private aliases: ReadonlyMap<string, string> = new Map();
  private last: Promise<unknown> = Promise.resolve();
  private lastScan: Promise<unknown> = Promise.resolve();
  /** What was told of while folders were looked through: they may have been passed already. */
  private readonly changedMeanwhile = new Set<string>();

  constructor(
    private readonly workspace: Workspace,
    private readonly disk: Disk,
    /** Called while many files are looked for and read. */
    private readonly progress: (far: ReadingProgress) => void = () => {},
  ) {}

  /**
   * Reads everything anew, in these folders. Until all is found once, what is open is checked with what it uses, and
   * nothing is called unused.
   */
  scan(folders: readonly string[] = this.folders): Promise<void> {
    this.folders = folders;
    if (!this.wasScanned) this.workspace.setMoreToCome(true);
    const next = this.lastScan.then(async () => {
      this.changedMeanwhile.clear();
      try {
        const listing = await this.disk.list(folders, (looked) => this.progress({ folders: looked }));
        await this.inTurn(() => this.workspace.whilePaused(() => this.readAll(listing)));
      } finally {
        // Who waits for all to be read waits no longer, even where nothing could be.
        this.wasScanned = true;
        await this.workspace.whilePaused(async () => this.workspace.setMoreToCome(false));
      }
    });
    this.lastScan = next.catch(() => undefined);
    return next;
  }

  /** A file that the editor has opened: it is checked when what it uses is read. */
  opened(): Promise<void> {
    return this.workspace.whilePaused(() => this.follow());
  }

  /** Files that came, changed or went on the disk. */
  changed(paths: readonly string[]): Promise<void> {
    for (const path of paths) this.changedMeanwhile.add(path);
    return this.inTurn(async () => {
      for (const path of paths) await this.reread(path);
      // A file that comes may be the one that others looked for in vain.
      this.forgetLooks();
      await this.followUses();
    });
  }

  /**
   * A file that the editor has closed. Nobody watches those beyond the folders: what is kept of one may be older than
   * what was saved, or it was never read, being open. Where others use it, it is read now.
   */
  async closed(path: string): Promise<void> {
    if (this.isInFolders(path)) return;
    await this.inTurn(() =>
      this.workspace.whilePaused(async () => {
        this.workspace.removeDisk(path);
        this.forgetLooks();
        await this.followUses();
      }),
    );
  }

  /** Reads the files that are used and were not read yet; cheap where there are none. */
  follow(): Promise<void> {
    this.gatherWanted();
    return this.inTurn(() => this.followUses());
  }

  private inTurn(work: () => Promise<void>): Promise<void> {
    const next = this.last.then(work, work);
    this.last = next.catch(() => undefined);
    return next;
  }

  private async readAll({ paths, aliases }: Listing): Promise<void> {
    this.aliases = aliases;
    this.known.clear();
    for (const path of [...paths, ...aliases.keys()]) this.known.add(path);
    this.workspace.setNames(new Map(aliases), new Set(this.known));
    const listed = new Set(paths);
    for (const path of this.workspace.diskPaths) if (!listed.has(path)) this.workspace.removeDisk(path);
    for (let at = 0; at < paths.length; at += BATCH) {
      this.progress({ done: at, all: paths.length });
      const batch = paths.slice(at, at + BATCH);
      const contents = await Promise.all(batch.map((path) => this.disk.read(path)));
      for (const [i, content] of contents.entries()) {
        if (content !== undefined) this.workspace.setDisk(batch[i]!, content, true);
      }
    }
    for (const path of this.changedMeanwhile) await this.reread(path);
    this.workspace.setMoreToCome(false);
    this.forgetLooks();
    await this.followUses();
  }

  private async reread(path: string): Promise<void> {
    const content = await this.disk.read(path);
    if (content === undefined) {
      this.workspace.removeDisk(path);
      if (this.known.delete(path)) this.tellNames();
      return;
    }
    const inFolders = this.isInFolders(path);
    if (inFolders && !this.known.has(path)) {
      this.known.add(path);
      this.tellNames();
    }
    this.workspace.setDisk(this.aliases.get(path) ?? path, content, inFolders);
  }

  private isInFolders(path: string): boolean {
    return this.folders.some((folder) => path.startsWith(folder.endsWith("/") ? folder : `${folder}/`));
  }

  private tellNames(): void {
    this.workspace.setNames(new Map(this.aliases), new Set(this.known));
  }

  private forgetLooks(): void {
    this.lookedFor.clear();
    this.studiosFor.clear();
    this.allFollowed = false;
  }

  private async followUses(): Promise<void> {
    for (;;) {
      this.gatherWanted();
      const [...paths] = this.wanted;
      if (paths.length === 0) return;
      this.wanted.clear();
      for (const path of paths) await this.look(path);
    }
  }

  /** Notes paths that some file uses, or studio files above one, that are neither read nor were looked for. */
  private gatherWanted(): void {
    const { files } = this.workspace.checked;
    const there = new Set(files.map(({ path }) => composed(path)));
    const want = (path: string): void => {
      if (!there.has(composed(path)) && !this.lookedFor.has(path) && !this.aliases.has(path))
        this.wanted.add(path);
    };
    for (const { path, tree } of files) {
      const folder = folderOf(path);
      for (const { declaration } of usesOf(tree)) {
        if (this.allFollowed && this.followed.has(declaration)) continue;
        this.followed.add(declaration);
        want(resolved(folder, declaration.path.text));
      }
      if (this.studiosFor.has(folder)) continue;
      this.studiosFor.add(folder);
      for (const above of foldersUp(folder)) want(joined(above, STUDIO_FILE));
    }
    this.allFollowed = true;
  }

  /** Reads a file that is used, under the name it has on the disk. */
  private async look(path: string): Promise<void> {
    this.lookedFor.add(path);
    const content = await this.disk.read(path);
    if (content !== undefined) {
      this.workspace.setDisk(path, content, false);
      return;
    }
    if (fileName(path) === STUDIO_FILE) return;
    const alike = alikeIn(await this.disk.beside(folderOf(path)), path);
    if (alike === undefined || this.lookedFor.has(alike)) return;
    this.lookedFor.add(alike);
    const found = await this.disk.read(alike);
    if (found !== undefined) this.workspace.setDisk(alike, found, false);
  }
}
