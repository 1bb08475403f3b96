import * as vscode from "vscode";
import type { PlaceParams } from "../../server/protocol/requests";
import {
  TERM_REPORT_REQUEST,
  type TermReportParams,
  type TermReportResult,
} from "../../server/protocol/year-requests";
import { Latest } from "../latest";
import { PLAN_LANGUAGE, planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";
import { type MayReplace, writeAsked } from "../write-asked";
import { YearPage } from "./year-page";

/** The panel, as the manifest names it. */
const REPORT = "leadpipe.report";

/** Milliseconds after a letter that the report waits for the next: it is read between sentences, not while typing. */
const CALM_MS = 150;

/** The report of one term, kept up to date while the plans it comes from are written. */
export class TermReport implements vscode.Disposable {
  readonly page: YearPage;
  private place: PlaceParams | undefined;
  private term: string | undefined;
  private players: readonly string[] | undefined;
  private all: readonly string[] = [];
  private readonly asking = new Latest(() => this.refresh());
  private calm: ReturnType<typeof setTimeout> | undefined;
  private readonly own: vscode.Disposable[];

  constructor(
    extensionUri: vscode.Uri,
    private readonly keeper: ServerKeeper,
  ) {
    this.page = new YearPage(REPORT, extensionUri);
    this.own = [
      this.page,
      // The book may change what a term asks, so any plan counts.
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.languageId === PLAN_LANGUAGE && contentChanges.length > 0) this.followSoon();
      }),
      // A file may have been written by another program.
      vscode.languages.onDidChangeDiagnostics(() => this.followSoon()),
      keeper.onDidChangeState((state) => {
        if (state === "ready") this.follow();
      }),
      // The plans of the folder were read, or read again.
      keeper.onDidTell(({ state }) => {
        if (state === "ready") this.follow();
      }),
    ];
  }

  /** Opens the report of the term at the cursor. */
  async open(): Promise<void> {
    const editor = planEditor();
    if (editor === undefined) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t("Open a plan, and put the cursor into the term whose report you want."),
      );
      return;
    }
    const { line, character } = editor.selection.active;
    const place = { uri: editor.document.uri.toString(), position: { line, character } };
    const result = await this.ask({ ...place, file: false });
    if (result === null) {
      const why =
        this.keeper.state === "ready"
          ? vscode.l10n.t("There is no term with players in this plan to report on.")
          : vscode.l10n.t("Leadpipe is not ready. Try again in a moment.");
      void vscode.window.showInformationMessage(why);
      return;
    }
    // Another term may have other players.
    if (result.term !== this.term) this.players = undefined;
    this.take(result);
    this.page.open(result.page, { preserveFocus: false });
    if (this.players !== undefined) await this.asking.ask();
  }

  /** Lets a person choose whose days are shown; `chosen` answers beforehand. */
  async choosePlayers(chosen?: readonly string[]): Promise<void> {
    if (!this.page.isOpen) return;
    const names = chosen ?? (await this.pickPlayers());
    if (names === undefined) return;
    this.players = names;
    await this.asking.ask();
  }

  /** Writes the report as a page by itself: to where a person picks, or to `target`. */
  async save(target?: vscode.Uri, mayReplace?: MayReplace): Promise<vscode.Uri | undefined> {
    const { place } = this;
    if (place === undefined) return undefined;
    const result = await this.ask({ ...place, term: this.term, players: this.players, file: true });
    const file = result?.page.file;
    if (file === undefined) return undefined;
    return writeAsked(new TextEncoder().encode(file.text), {
      target,
      mayReplace,
      fileName: file.name,
      beside: vscode.Uri.parse(place.uri),
      kind: "HTML",
      endings: ["html"],
      title: vscode.l10n.t("Save the Report"),
    });
  }

  dispose(): void {
    clearTimeout(this.calm);
    for (const each of this.own) each.dispose();
  }

  private followSoon(): void {
    clearTimeout(this.calm);
    this.calm = setTimeout(() => this.follow(), CALM_MS);
  }

  private follow(): void {
    if (this.page.isOpen) void this.asking.ask();
  }

  /** Where there is no answer, what was shown last stays: a term may be half written. */
  private async refresh(): Promise<void> {
    const { place } = this;
    if (place === undefined) return;
    const result = await this.ask({ ...place, term: this.term, players: this.players, file: false });
    if (result === null) return;
    this.take(result);
    this.page.fill(result.page);
  }

  private take({ place, term, players }: NonNullable<TermReportResult>): void {
    this.place = place;
    this.term = term;
    this.all = players;
  }

  private ask(params: TermReportParams): Promise<TermReportResult> {
    return this.keeper.ask<NonNullable<TermReportResult>>(TERM_REPORT_REQUEST, params);
  }

  private async pickPlayers(): Promise<readonly string[] | undefined> {
    const everyone = { label: vscode.l10n.t("All who play it"), names: this.all };
    const one = this.all.map((name) => ({ label: name, names: [name] }));
    const picked = await vscode.window.showQuickPick(one.length > 1 ? [...one, everyone] : one, {
      placeHolder: vscode.l10n.t("Whose days?"),
    });
    return picked?.names;
  }
}
