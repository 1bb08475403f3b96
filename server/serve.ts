import {
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type TextDocumentContentChangeEvent,
  WatchKind,
  type WorkDoneProgressReporter,
} from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { RunningEngraver } from "./notation/engrave";
import type { RunningPress } from "./output/press";
import type { Plan } from "./plan/plan";
import { STATE_NOTIFICATION, type StateParams } from "./protocol/requests";
import { type Abilities, abilitiesOf } from "./serve-abilities";
import { Addresses } from "./serve-addresses";
import { Answers } from "./serve-answer";
import { capabilitiesFor } from "./serve-capabilities";
import { FEATURES, type Features } from "./serve-features";
import { Findings, nothingNew } from "./serve-findings";
import { Pictures } from "./serve-pictures";
import { answerPreview } from "./serve-preview";
import { answerPrint } from "./serve-print";
import { JoinedDisk, RemoteDisk } from "./serve-remote-disk";
import { answerRequests } from "./serve-requests";
import { Settings } from "./serve-settings";
import { answerYear } from "./serve-year";
import type { Disk } from "./workspace/disk";
import { acceptable, EXTENSION } from "./workspace/plan-bytes";
import { PlanFiles, type ReadingProgress } from "./workspace/plan-files";
import { Workspace } from "./workspace/workspace";

/** What the server needs of where it runs. */
export interface Host {
  /** Milliseconds from any start. */
  readonly now: () => number;
  /** Lets whatever else waits have its turn, without waiting longer than that takes. */
  readonly turn: () => Promise<void>;
  /** Told when all is checked and nothing is left to do until somebody types or asks. */
  readonly idle?: () => void;
  /** The computer's own disk; undefined in a browser. */
  readonly disk: Disk | undefined;
  /** What draws notation; without one there is none to be seen. */
  readonly engraver?: RunningEngraver;
  /** What sets pages as PDF; without one there are pages for a browser. */
  readonly press?: RunningPress;
}

/** Answers an editor over any connection. The entry points differ in the connection and in where they run. */
export function serve(connection: Connection, host: Host, features: Features = FEATURES): void {
  connection.onInitialize((params) => {
    const can = abilitiesOf(params);
    new Server(connection, host, features, can).begin(params);
    return capabilitiesFor(can);
  });
  connection.listen();
}

class Server {
  private readonly documents = new Map<string, TextDocument>();
  private readonly addresses = new Addresses();
  private readonly settings = new Settings();
  private readonly workspace: Workspace;
  private readonly planFiles: PlanFiles;
  private readonly findings: Findings;
  private readonly answers: Answers;
  /** Files that were closed since all was checked last. */
  private readonly closed = new Set<string>();
  private folders: readonly string[] = [];
  private progress: WorkDoneProgressReporter | undefined;
  private state: StateParams["state"] | undefined;
  /** Whether the plans are still being read in for the first time. */
  private reading = true;
  /** Whether what stands beside the lines may have been answered before that. */
  private answeredEarly = true;
  /** The plans that were last shown of open files, to tell when what is shown beside their lines is out of date. */
  private shown = new Map<string, { readonly text: string; readonly plan: Plan }>();
  /** Failures already told of, so that one that repeats with every letter does not fill the log. */
  private readonly toldFailures = new Set<string>();

  constructor(
    private readonly connection: Connection,
    private readonly host: Host,
    features: Features,
    private readonly can: Abilities,
  ) {
    const { now, turn } = host;
    this.workspace = new Workspace(
      { now, turn, isAsked: () => this.answers.isAsked },
      {
        checked: (file, findings) => this.findings.checked(file, findings),
        settled: () => this.settled(),
        failed: (path, error) => this.failed(`checking ${path}`, error),
      },
    );
    const remote = can.files ? new RemoteDisk(connection, this.addresses) : undefined;
    this.planFiles = new PlanFiles(this.workspace, new JoinedDisk(host.disk, remote), (far) =>
      this.showReading(far),
    );
    const versionOf = (path: string): number | undefined => this.documents.get(path)?.version;
    const failed = (what: string, error: unknown): void => this.failed(what, error);
    this.answers = new Answers({ turn: host.turn, versionOf, failed });
    this.findings = new Findings({
      connection,
      workspace: this.workspace,
      addresses: this.addresses,
      can,
      diagnosticsOf: features.diagnosticsOf,
      versionOf,
      failed,
    });
    const pictures = host.engraver === undefined ? undefined : new Pictures(host.engraver, failed);
    const ground = {
      connection,
      workspace: this.workspace,
      addresses: this.addresses,
      answers: this.answers,
      features,
      can,
      settings: this.settings,
      versionOf,
      pictures,
    };
    answerRequests(ground);
    answerPreview(ground);
    answerYear(ground);
    answerPrint(ground, { engraver: host.engraver, press: host.press, now: host.now, failed });
  }

  begin({ workspaceFolders, rootUri }: InitializeParams): void {
    // Some editors leave the address out where there is no folder.
    this.folders = workspaceFolders?.map(({ uri }) => uri) ?? (typeof rootUri === "string" ? [rootUri] : []);
    this.addresses.setFolders(this.folders);
    const { connection, can } = this;
    connection.onInitialized(() => this.initialized());
    connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) => {
      this.take(TextDocument.create(uri, languageId, version, text));
      // Without what it uses, a plan would be said to lack it.
      this.run("reading files", () => this.planFiles.opened());
    });
    connection.onDidChangeTextDocument(({ textDocument, contentChanges }) => {
      const document = this.documents.get(this.addresses.pathOf(textDocument.uri));
      if (document !== undefined) this.take(changed(document, contentChanges, textDocument.version));
    });
    connection.onDidCloseTextDocument(({ textDocument }) => {
      const path = this.addresses.pathOf(textDocument.uri);
      this.documents.delete(path);
      this.answers.forget(path);
      this.shown.delete(path);
      this.workspace.close(path);
      this.findings.closed(path);
      this.closed.add(path);
      this.run("reading files", () => this.planFiles.closed(path));
    });
    connection.onDidSaveTextDocument(({ textDocument }) => {
      // Editors that watch nothing for us at least say what they save.
      if (!can.watching) this.filesChanged([textDocument.uri]);
    });
    connection.onDidChangeWatchedFiles(({ changes }) => this.watched(changes.map(({ uri }) => uri)));
    connection.workspace.onDidCreateFiles(() => this.rescan());
    connection.workspace.onDidRenameFiles(() => this.rescan());
    connection.workspace.onDidDeleteFiles(() => this.rescan());
    connection.onDidChangeConfiguration(({ settings }: { settings: unknown }) =>
      this.run("settings", async () => {
        if (can.configuration) await this.settings.pull(connection);
        else this.settings.take(settings);
        this.refreshShown();
      }),
    );
    if (can.diagnostics.pull) {
      connection.languages.diagnostics.on(async (params, token) => {
        await this.workspace.readSoFar();
        return this.answers.about(
          "findings",
          this.addresses.pathOf(params.textDocument.uri),
          token,
          () => this.findings.ofDocument(params),
          nothingNew(params),
          false,
        );
      });
      connection.languages.diagnostics.onWorkspace((params, token) =>
        this.findings.ofWorkspace(params, token),
      );
    }
  }

  /** Everything here is done side by side: what an editor refuses must keep nothing else from beginning. */
  private initialized(): void {
    const { connection, can } = this;
    if (can.folders) {
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => uri));
        this.folders = [...this.folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
        this.addresses.setFolders(this.folders);
        this.rescan();
      });
    }
    if (can.watching) {
      this.run("watching files", () =>
        connection.client.register(DidChangeWatchedFilesNotification.type, {
          // A folder that goes is all that is told of it; its plans go without a word.
          watchers: [{ globPattern: `**/*${EXTENSION}` }, { globPattern: "**", kind: WatchKind.Delete }],
        }),
      );
    }
    if (can.configurationChanges) {
      this.run("watching the settings", () =>
        connection.client.register(DidChangeConfigurationNotification.type, { section: "leadpipe" }),
      );
    }
    if (can.configuration) this.run("settings", () => this.settings.pull(connection));
    this.run("reading the plans", () => this.firstScan());
  }

  private async firstScan(): Promise<void> {
    this.tell("busy", "Reading the plans");
    if (this.can.progress) {
      this.run("showing how far it is", async () => {
        const progress = await this.connection.window.createWorkDoneProgress();
        // Reading does not wait for the editor's answer, and may be through before it.
        if (!this.reading) return progress.done();
        progress.begin("Leadpipe", 0, "reading the plans", false);
        this.progress = progress;
      });
    }
    try {
      await this.planFiles.scan(this.addresses.folders);
    } finally {
      this.reading = false;
      this.progress?.done();
      this.progress = undefined;
    }
  }

  private showReading(far: ReadingProgress): void {
    if ("folders" in far) this.progress?.report(`${far.folders} folders looked through`);
    else this.progress?.report((100 * far.done) / Math.max(far.all, 1), `${far.done} of ${far.all} files`);
  }

  private take(document: TextDocument): void {
    const path = this.addresses.pathOf(document.uri);
    this.documents.set(path, document);
    this.workspace.setOpen(path, acceptable(document.getText()));
  }

  private watched(uris: readonly string[]): void {
    const plans = uris.filter((uri) => uri.endsWith(EXTENSION));
    if (plans.length > 0) this.filesChanged(plans);
    const gone = uris.filter((uri) => !uri.endsWith(EXTENSION));
    if (gone.length === 0) return;
    const inside = gone.map((uri) => `${this.addresses.plainPath(uri)}/`);
    const { diskPaths } = this.workspace;
    if (inside.some((folder) => diskPaths.some((path) => path.startsWith(folder)))) this.rescan();
  }

  private filesChanged(uris: readonly string[]): void {
    const paths = uris.map((uri) => this.addresses.pathOf(uri));
    this.run("reading files", () => this.planFiles.changed(paths));
  }

  private rescan(): void {
    this.run("reading files", () => this.planFiles.scan(this.addresses.folders));
  }

  private settled(): void {
    try {
      this.findings.settled();
      this.forgetAddresses();
      const outdated = this.othersChanged();
      if (outdated || (this.answeredEarly && !this.reading)) this.refreshShown();
      this.answeredEarly &&= this.reading;
    } catch (error) {
      this.failed("findings", error);
    }
    // A `use` line that was just written may bring a file in.
    this.run("reading files", () => this.planFiles.follow());
    if (this.state !== "ready" && !this.reading) this.tell("ready", "");
    this.host.idle?.();
  }

  /** What was closed and is on no disk is spoken of no more, once its findings have been taken back. */
  private forgetAddresses(): void {
    for (const path of this.closed) {
      if (this.workspace.checked.file(path) === undefined) this.addresses.forget(path);
    }
    this.closed.clear();
  }

  /** Whether an open file means something else than before although its own text is the same. */
  private othersChanged(): boolean {
    const { checked } = this.workspace;
    let outdated = false;
    for (const path of this.documents.keys()) {
      const file = checked.file(path);
      if (file === undefined) continue;
      const { text, plan } = file;
      const last = this.shown.get(path);
      if (last !== undefined && last.text === text && last.plan !== plan) outdated = true;
      this.shown.set(path, { text, plan });
    }
    return outdated;
  }

  /** Lets the editor ask anew for what stands beside the lines. */
  private refreshShown(): void {
    const { connection, can } = this;
    if (can.inlayHints.refresh) this.run("refreshing", () => connection.languages.inlayHint.refresh());
    if (can.semanticTokens.refresh)
      this.run("refreshing", async () => connection.languages.semanticTokens.refresh());
    if (can.codeLens.refresh)
      this.run("refreshing", () => connection.sendRequest(CodeLensRefreshRequest.type));
  }

  /** Does something that may fail without anything else failing. */
  private run(what: string, work: () => Promise<unknown>): void {
    // What is thrown before anything is awaited is caught alike.
    const working = async (): Promise<unknown> => work();
    working().catch((error: unknown) => this.failed(what, error));
  }

  private failed(what: string, error: unknown): void {
    const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
    const told = `${what}: ${error instanceof Error ? error.message : why}`;
    if (this.toldFailures.has(told)) return;
    this.toldFailures.add(told);
    this.connection.console.error(`Leadpipe could not finish ${what}; what it showed last stays. ${why}`);
    this.tell("trouble", "Something went wrong; the output says what.");
  }

  private tell(state: StateParams["state"], words: string): void {
    if (this.state === state) return;
    this.state = state;
    if (!this.can.state) return;
    const params: StateParams = { state, words };
    this.connection
      .sendNotification(STATE_NOTIFICATION, params)
      .catch((error: unknown) => this.connection.console.error(String(error)));
  }
}

function changed(
  document: TextDocument,
  changes: readonly TextDocumentContentChangeEvent[],
  version: number,
): TextDocument {
  return TextDocument.update(document, [...changes], version);
}
