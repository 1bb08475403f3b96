import * as vscode from "vscode";
import type { PageView } from "../../server/protocol/year-requests";
import type { FromYearPage, ToYearPage } from "./messages";
import { yearPageHtml } from "./page-html";

/** What a page told of itself, and what it is of. */
export type ToldOfPage = Exclude<FromYearPage, { kind: "ready" }> & { readonly page: string };

/** A page about a term, in a tab of its own. It is filled anew without being loaded anew. */
export class YearPage implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private ready = false;
  private shown: Pick<PageView, "title" | "style" | "body"> | undefined;
  private readonly tellings = new vscode.EventEmitter<ToldOfPage>();
  /** Fires with what the page tells of itself. */
  readonly onDidTell = this.tellings.event;
  private readonly closings = new vscode.EventEmitter<void>();
  readonly onDidClose = this.closings.event;

  /** `kind` is what the manifest calls the panel. */
  constructor(
    readonly kind: string,
    private readonly extensionUri: vscode.Uri,
  ) {}

  get isOpen(): boolean {
    return this.panel !== undefined;
  }

  /** Opens the page beside the editor, or brings it to the front. */
  open(page: PageView, options: { readonly preserveFocus: boolean }): void {
    if (this.panel === undefined) this.make(page, options.preserveFocus);
    else this.panel.reveal(undefined, options.preserveFocus);
    this.fill(page);
  }

  /** Fills the page anew, where it is open. */
  fill(page: PageView): void {
    const { panel, shown } = this;
    if (panel === undefined) return;
    this.shown = page;
    if (panel.title !== page.title) panel.title = page.title;
    if (shown === undefined) this.load(panel, page.style);
    else if (this.ready && shown.body !== page.body) this.post(page.body);
  }

  dispose(): void {
    this.panel?.dispose();
    this.tellings.dispose();
    this.closings.dispose();
  }

  private make({ title }: PageView, preserveFocus: boolean): void {
    const panel = vscode.window.createWebviewPanel(
      this.kind,
      title,
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus },
      {
        enableScripts: true,
        localResourceRoots: [this.root],
        // Who comes back to it finds it as it was left.
        retainContextWhenHidden: true,
        enableFindWidget: true,
      },
    );
    const icon = (theme: string): vscode.Uri =>
      vscode.Uri.joinPath(this.extensionUri, "media", `plan-${theme}.svg`);
    panel.iconPath = { light: icon("light"), dark: icon("dark") };
    const own = [
      panel.webview.onDidReceiveMessage((message: FromYearPage) => this.heard(message)),
      panel.onDidDispose(() => {
        for (const each of own) each.dispose();
        this.panel = undefined;
        this.shown = undefined;
        this.ready = false;
        this.closings.fire();
      }),
    ];
    this.panel = panel;
  }

  private get root(): vscode.Uri {
    return vscode.Uri.joinPath(this.extensionUri, "dist", "year");
  }

  private load({ webview }: vscode.WebviewPanel, style: string): void {
    const at = (name: string): string =>
      webview.asWebviewUri(vscode.Uri.joinPath(this.root, name)).toString();
    webview.html = yearPageHtml({
      script: at("page.js"),
      theme: at("page.css"),
      style,
      source: webview.cspSource,
    });
  }

  private heard(message: FromYearPage): void {
    if (message.kind === "ready") {
      this.ready = true;
      if (this.shown !== undefined) this.post(this.shown.body);
    } else this.tellings.fire({ ...message, page: this.kind });
  }

  private post(body: string): void {
    const message: ToYearPage = { kind: "body", body };
    void this.panel?.webview.postMessage(message);
  }
}
