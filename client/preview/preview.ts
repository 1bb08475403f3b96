import * as vscode from "vscode";
import {
  NOTATION_REQUEST,
  PICTURE_REQUEST,
  type PlaceParams,
  type PlaceView,
  PREVIEW_REQUEST,
  SOUND_REQUEST,
} from "../../server/protocol/requests";
import { planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";
import type { FromPage, PageAction, Told, ToPage } from "./messages";
import { pageHtml } from "./page-html";

/** The panel, as the manifest and the editor name it. */
const PANEL = "leadpipe.preview";

/** What the page may ask the server. */
const ASKABLE: readonly string[] = [PREVIEW_REQUEST, NOTATION_REQUEST, PICTURE_REQUEST, SOUND_REQUEST];

/**
 * The preview beside the editor. It follows the cursor, hands the page's questions to the server, and leads from a
 * note to its place in the text. What is shown, and how, is the page's.
 */
export class Preview implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private ready = false;
  private waiting: PageAction[] = [];
  private place: PlaceParams | undefined;
  private column: vscode.ViewColumn | undefined;
  private readonly asked = new Map<number, vscode.CancellationTokenSource>();
  private readonly tellings = new vscode.EventEmitter<Told>();
  /** Fires with what the page tells of itself. */
  readonly onDidTell = this.tellings.event;
  private readonly own: vscode.Disposable[];

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly keeper: ServerKeeper,
  ) {
    this.own = [
      this.tellings,
      vscode.window.registerWebviewPanelSerializer(PANEL, {
        deserializeWebviewPanel: async (panel) => this.take(panel),
      }),
      vscode.window.onDidChangeActiveTextEditor(() => this.follow()),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor === planEditor()) this.follow();
      }),
      // Another file may hold what is shown: the book, while the plan is in front.
      vscode.workspace.onDidChangeTextDocument(({ contentChanges }) => {
        if (contentChanges.length > 0) this.follow();
      }),
      keeper.onDidChangeState((state) => {
        if (state !== "ready") return;
        this.post({ kind: "forget" });
        this.follow();
      }),
      // The plans of the folder were read, so that names mean something.
      keeper.onDidTell(({ state }) => {
        if (state === "ready") this.follow();
      }),
    ];
  }

  /** Opens the preview beside the editor, or brings it to the front. */
  open(): void {
    if (this.panel === undefined) {
      const beside = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      this.take(
        vscode.window.createWebviewPanel(PANEL, vscode.l10n.t("Music"), beside, {
          // The sound goes on while another tab is in front.
          retainContextWhenHidden: true,
        }),
      );
    } else this.panel.reveal(undefined, true);
    this.follow();
  }

  get isOpen(): boolean {
    return this.panel !== undefined;
  }

  /** Has the page do something, once it is there. */
  act(action: PageAction): void {
    if (this.ready) this.post({ kind: "do", action });
    else this.waiting.push(action);
  }

  private take(panel: vscode.WebviewPanel): void {
    this.panel = panel;
    this.ready = false;
    const root = vscode.Uri.joinPath(this.extensionUri, "dist", "preview");
    panel.webview.options = { enableScripts: true, localResourceRoots: [root] };
    panel.iconPath = {
      light: vscode.Uri.joinPath(this.extensionUri, "media", "plan-light.svg"),
      dark: vscode.Uri.joinPath(this.extensionUri, "media", "plan-dark.svg"),
    };
    panel.webview.onDidReceiveMessage((message: FromPage) => this.heard(message), undefined, this.own);
    panel.onDidDispose(
      () => {
        if (this.panel === panel) this.panel = undefined;
        this.ready = false;
        for (const source of this.asked.values()) source.cancel();
        this.asked.clear();
      },
      undefined,
      this.own,
    );
    const at = (name: string): string =>
      panel.webview.asWebviewUri(vscode.Uri.joinPath(root, name)).toString();
    panel.webview.html = pageHtml({
      script: at("page.js"),
      style: at("page.css"),
      source: panel.webview.cspSource,
    });
  }

  private heard(message: FromPage): void {
    switch (message.kind) {
      case "ready":
        this.ready = true;
        this.follow();
        for (const action of this.waiting.splice(0)) this.act(action);
        break;
      case "ask":
        void this.ask(message.number, message.request, message.params);
        break;
      case "leave":
        this.asked.get(message.number)?.cancel();
        break;
      case "goTo":
        void this.goTo(message.place);
        break;
      case "told":
        if (message.told.what === "shown" && this.panel !== undefined) {
          this.panel.title = message.told.view.title;
        }
        this.tellings.fire(message.told);
        break;
    }
  }

  private async ask(number: number, request: string, params: unknown): Promise<void> {
    if (!ASKABLE.includes(request)) return;
    const source = new vscode.CancellationTokenSource();
    this.asked.set(number, source);
    const result = await this.keeper.ask<unknown>(request, params, source.token);
    this.asked.delete(number);
    source.dispose();
    this.post({ kind: "answer", number, result });
  }

  /** Tells the page where the cursor is; where no plan is in front, where it was. */
  private follow(): void {
    const editor = planEditor();
    if (editor !== undefined) {
      const { line, character } = editor.selection.active;
      this.place = { uri: editor.document.uri.toString(), position: { line, character } };
      this.column = editor.viewColumn;
    }
    if (this.place !== undefined && this.keeper.state === "ready")
      this.post({ kind: "place", place: this.place });
  }

  private async goTo({ uri, range: { start } }: PlaceView): Promise<void> {
    const position = new vscode.Position(start.line, start.character);
    await vscode.window.showTextDocument(vscode.Uri.parse(uri), {
      ...(this.column === undefined ? {} : { viewColumn: this.column }),
      selection: new vscode.Range(position, position),
    });
  }

  private post(message: ToPage): void {
    if (this.ready) void this.panel?.webview.postMessage(message);
  }

  dispose(): void {
    this.panel?.dispose();
    for (const each of this.own) each.dispose();
  }
}
