import {
  type CancellationToken,
  type Connection,
  type Diagnostic,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import type { Piece } from "../grammar/piece";
import type { Finding } from "./rules/finding";
import type { Abilities } from "./serve-abilities";
import type { Addresses } from "./serve-addresses";
import type { Features } from "./serve-features";
import type { SnapshotFile } from "./workspace/snapshot";
import type { Workspace } from "./workspace/workspace";

interface Told {
  /** What stands for the findings and their places. */
  readonly id: string;
  readonly findings: readonly Finding[];
}

/** What findings need of the rest of the server. */
export interface FindingsGround {
  readonly connection: Connection;
  readonly workspace: Workspace;
  readonly addresses: Addresses;
  readonly can: Abilities;
  readonly diagnosticsOf: Features["diagnosticsOf"];
  readonly versionOf: (path: string) => number | undefined;
  readonly failed: (what: string, error: unknown) => void;
}

/** What was shown last stays. */
export function nothingNew({
  previousResultId,
}: {
  readonly previousResultId?: string | undefined;
}): DocumentDiagnosticReport {
  return previousResultId === undefined
    ? { kind: DocumentDiagnosticReportKind.Full, items: [] }
    : { kind: DocumentDiagnosticReportKind.Unchanged, resultId: previousResultId };
}

/**
 * Brings findings to the editor: it is sent what changed, or where it prefers to ask, told when to ask again and
 * answered with what changed since.
 */
export class Findings {
  /** What the editor was last told of each file. */
  private readonly told = new Map<string, Told>();
  private readonly numbers = new WeakMap<object, number>();
  private readonly related = new WeakMap<readonly Finding[], ReadonlySet<Piece>>();
  private lastNumber = 0;
  /** Those who ask for all files and wait for something new. */
  private waiting: (() => void)[] = [];
  /** Files that are gone and of which the editor was told so. */
  private readonly gone = new Set<string>();

  constructor(private readonly ground: FindingsGround) {}

  /** A file was checked. */
  checked(file: SnapshotFile, findings: readonly Finding[]): void {
    if (this.ground.can.diagnostics.pull) return;
    const { path } = file;
    const last = this.told.get(path);
    const id = this.resultId(file, findings);
    if (last?.id === id) return;
    const open = this.ground.workspace.isOpen(path);
    const silent = findings.length === 0 && (last === undefined || last.findings.length === 0);
    // Of a file that is not open and that there is nothing to say of, nothing is said.
    const shown = silent && !open ? undefined : this.shown(file, findings);
    if (!silent && shown === undefined) return;
    this.told.set(path, { id, findings });
    if (shown !== undefined) this.send(path, shown);
  }

  /** A file was closed. An editor that asks will not ask for it by itself again, so nothing it was told is out of date. */
  closed(path: string): void {
    if (this.ground.can.diagnostics.pull) this.told.delete(path);
  }

  /** All files are checked: those that are gone are cleared away, and who asks is told to ask again. */
  settled(): void {
    const { workspace, can, connection } = this.ground;
    const { checked } = workspace;
    let outdated = false;
    for (const [path, last] of this.told) {
      const file = checked.file(path);
      if (file === undefined) {
        this.told.delete(path);
        outdated = true;
        if (!can.diagnostics.pull && last.findings.length > 0) this.send(path, []);
      } else {
        const findings = this.foundIn(file);
        if (findings === undefined || last.id !== this.resultId(file, findings)) outdated = true;
      }
    }
    if (!can.diagnostics.pull) return;
    for (const wake of this.waiting.splice(0)) wake();
    if (outdated && can.diagnostics.refresh) {
      connection.languages.diagnostics
        .refresh()
        .catch((error: unknown) => this.ground.failed("refresh", error));
    }
  }

  /** The editor asks for the findings of one file. */
  ofDocument({ textDocument, previousResultId }: DocumentDiagnosticParams): DocumentDiagnosticReport {
    const { workspace, addresses } = this.ground;
    const path = addresses.pathOf(textDocument.uri);
    const file = workspace.checked.file(path);
    if (file === undefined) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    const findings = workspace.findingsNow(file);
    const resultId = this.resultId(file, findings);
    this.told.set(path, { id: resultId, findings });
    if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    const items = this.shown(file, findings);
    if (items !== undefined) return { kind: DocumentDiagnosticReportKind.Full, resultId, items };
    return nothingNew({ previousResultId });
  }

  /** The editor asks for what is new in any file; where nothing is, it waits until something is. */
  async ofWorkspace(
    { previousResultIds }: WorkspaceDiagnosticParams,
    token: CancellationToken,
  ): Promise<WorkspaceDiagnosticReport> {
    const before = new Map(
      previousResultIds.map(({ uri, value }) => [this.ground.addresses.pathOf(uri), value]),
    );
    for (;;) {
      await this.ground.workspace.settled();
      const items = this.newSince(before);
      if (items.length > 0 || token.isCancellationRequested) return { items };
      await new Promise<void>((resolve) => {
        this.waiting.push(resolve);
        token.onCancellationRequested(() => resolve());
      });
    }
  }

  private newSince(before: ReadonlyMap<string, string>): WorkspaceDocumentDiagnosticReport[] {
    const { workspace, addresses, versionOf } = this.ground;
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    for (const file of workspace.checked.files) {
      const { path } = file;
      const findings = this.foundIn(file);
      if (findings === undefined) continue;
      const resultId = this.resultId(file, findings);
      const last = before.get(path);
      this.gone.delete(path);
      if (!file.asked || last === resultId || (last === undefined && findings.length === 0)) continue;
      const shown = this.shown(file, findings);
      if (shown === undefined) continue;
      items.push({
        kind: DocumentDiagnosticReportKind.Full,
        uri: addresses.uriOf(path),
        version: versionOf(path) ?? null,
        resultId,
        items: shown,
      });
    }
    for (const path of before.keys()) {
      if (workspace.checked.file(path) !== undefined || !this.wasTold(path)) continue;
      const uri = addresses.uriOf(path);
      items.push({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] });
    }
    return items;
  }

  /** Whether the findings of a file that is gone are still to be taken back; said once. */
  private wasTold(path: string): boolean {
    if (this.gone.has(path)) return false;
    this.gone.add(path);
    return true;
  }

  /** Undefined where a rule failed; the files beside go on, and what is shown of this one stays. */
  private foundIn(file: SnapshotFile): readonly Finding[] | undefined {
    try {
      return file.findings;
    } catch (error) {
      this.ground.failed(`checking ${file.path}`, error);
      return undefined;
    }
  }

  /** Undefined where they could not be put into the editor's form; then what it shows stays. */
  private shown(file: SnapshotFile, findings: readonly Finding[]): Diagnostic[] | undefined {
    const { workspace, can, addresses, diagnosticsOf, failed } = this.ground;
    try {
      return diagnosticsOf(workspace.checked, file.path, can.diagnostics, addresses, findings);
    } catch (error) {
      failed("diagnostics", error);
      return undefined;
    }
  }

  private send(path: string, diagnostics: Diagnostic[]): void {
    const { connection, addresses, versionOf, failed } = this.ground;
    const version = versionOf(path);
    const uri = addresses.uriOf(path);
    connection
      .sendDiagnostics(version === undefined ? { uri, diagnostics } : { uri, version, diagnostics })
      .catch((error: unknown) => failed("diagnostics", error));
  }

  /**
   * The same text for the same findings at the same places, and no other. What a finding points to may lie in another
   * file, and moves with it.
   */
  private resultId({ tree }: SnapshotFile, findings: readonly Finding[]): string {
    const { homes } = this.ground.workspace.checked;
    const trees = new Set<object>([tree]);
    for (const piece of this.relatedPieces(findings)) {
      const home = homes.get(piece);
      if (home !== undefined) trees.add(home.file.tree);
    }
    return [findings, ...trees].map((each) => this.numberOf(each)).join("-");
  }

  /** The pieces that findings point to beside the ones they stand in, each once. */
  private relatedPieces(findings: readonly Finding[]): ReadonlySet<Piece> {
    const known = this.related.get(findings);
    if (known !== undefined) return known;
    const pieces = new Set<Piece>();
    for (const { place: own, related } of findings) {
      for (const { place } of related) if (place.piece !== own.piece) pieces.add(place.piece);
    }
    this.related.set(findings, pieces);
    return pieces;
  }

  private numberOf(thing: object): number {
    const known = this.numbers.get(thing);
    if (known !== undefined) return known;
    this.lastNumber++;
    this.numbers.set(thing, this.lastNumber);
    return this.lastNumber;
  }
}
