import type * as vscode from "vscode";
import type { TermView } from "../server/protocol/requests";
import { begun } from "./begun";
import { registerCommands } from "./commands";
import type { Host } from "./host";
import type { PageAction, Told } from "./preview/messages";
import { registerMusicCommands } from "./preview/music-commands";
import { Preview } from "./preview/preview";
import { registerPrintCommands } from "./print/print-commands";
import { ServerKeeper } from "./server-keeper";
import { StatusItem } from "./status-item";
import { type Row, TermTree } from "./term-tree";
import { YearPages } from "./year/year-commands";
import type { ToldOfPage } from "./year/year-page";

/** What the extension hands to those who ask for its exports: its own tests, or another extension. */
export interface Leadpipe {
  /**
   * Milliseconds that running its script and putting in place what a person sees have taken. Between the two the host
   * asks its window what the extension once stored, and a window that is still being drawn lets it wait.
   */
  readonly startedIn: number;
  /** Resolves once the server has answered its first request. */
  readonly ready: Promise<void>;
  /** The term that the side view shows. */
  readonly term: () => TermView | undefined;
  /** Fires whenever the side view has been brought up to date. */
  readonly onDidRefreshTerm: vscode.Event<TermView | undefined>;
  /** The rows of the side view, as the editor asks for them. */
  readonly rows: vscode.TreeDataProvider<Row>;
  /** What the status item says, and when it says something new. */
  readonly status: () => string;
  readonly onDidRefreshStatus: vscode.Event<string>;
  /** Ends the server as a crash would. */
  readonly endServer: () => void;
  /** How the server is: starting, ready or stopped. */
  readonly serverState: () => string;
  readonly onDidChangeServerState: vscode.Event<string>;
  /** What the preview tells of itself. */
  readonly onDidTellOfPreview: vscode.Event<Told>;
  /** Does in the preview what a person would by hand. */
  readonly inPreview: (action: PageAction) => void;
  /** What the pages about a term as a whole tell of themselves. */
  readonly onDidTellOfPage: vscode.Event<ToldOfPage>;
}

/** How long it took to run the script; this module is the last of it. */
const scriptRanIn = performance.now() - begun;

/**
 * Puts everything a person sees in place. Nothing here waits for the server: it starts beside, and what needs it
 * asks again when it is ready.
 */
export function activateIn(context: vscode.ExtensionContext, host: Host): Leadpipe {
  const called = performance.now();
  const keeper = new ServerKeeper(host, context.subscriptions);
  const status = new StatusItem(keeper);
  const tree = new TermTree(keeper);
  const preview = new Preview(context.extensionUri, keeper);
  const year = new YearPages(context.extensionUri, keeper);
  context.subscriptions.push(
    keeper,
    status,
    tree,
    preview,
    year,
    ...registerCommands(context, keeper, tree),
    ...registerMusicCommands(keeper, preview),
    ...registerPrintCommands(context, keeper),
  );
  // The editor goes on first; what the client is made of is loaded after.
  const ready = new Promise<void>((resolve) => {
    setTimeout(() => resolve(keeper.start()), 0);
  });
  return {
    startedIn: scriptRanIn + performance.now() - called,
    ready,
    term: () => tree.current,
    onDidRefreshTerm: tree.onDidRefresh,
    rows: tree,
    status: () => status.text,
    onDidRefreshStatus: status.onDidRefresh,
    endServer: () => keeper.endServer(),
    serverState: () => keeper.state,
    onDidChangeServerState: keeper.onDidChangeState,
    onDidTellOfPreview: preview.onDidTell,
    inPreview: (action) => preview.act(action),
    onDidTellOfPage: year.onDidTell,
  };
}
