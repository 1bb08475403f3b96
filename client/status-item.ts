import * as vscode from "vscode";
import {
  DAY_STATUS_REQUEST,
  type DayStatusResult,
  type PlaceParams,
  type StateParams,
} from "../server/protocol/requests";
import { Latest } from "./latest";
import { planEditor } from "./plan-editor";
import type { ServerKeeper } from "./server-keeper";
import { figureText, spokenFigure, standingSign, standingWord, tightestOf } from "./standing";

/** The command behind the item. */
export const STATUS_MENU = "leadpipe.statusMenu";

/** The item in the status bar: the totals of the day under the cursor, and how the server is. */
export class StatusItem implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    "leadpipe.day",
    vscode.StatusBarAlignment.Left,
    10,
  );
  private readonly refreshed = new vscode.EventEmitter<string>();
  /** Fires with the item's words after each refresh. */
  readonly onDidRefresh = this.refreshed.event;
  private readonly asking = new Latest(() => this.askServer());
  private readonly own: vscode.Disposable[];
  private told: StateParams = { state: "ready", words: "" };

  constructor(private readonly keeper: ServerKeeper) {
    this.item.name = vscode.l10n.t("Leadpipe: the day under the cursor");
    this.item.command = STATUS_MENU;
    this.own = [
      this.item,
      this.refreshed,
      keeper.onDidTell((told) => {
        this.told = told;
        void this.refresh();
      }),
      keeper.onDidChangeState(() => this.refresh()),
      vscode.window.onDidChangeActiveTextEditor(() => this.refresh()),
      vscode.window.onDidChangeTextEditorSelection(() => this.refresh()),
      vscode.languages.onDidChangeDiagnostics(() => this.refresh()),
    ];
    void this.refresh();
  }

  /** What the item says now. */
  get text(): string {
    return this.item.text;
  }

  refresh(): Promise<void> {
    return this.asking.ask();
  }

  dispose(): void {
    for (const each of this.own) each.dispose();
  }

  private async askServer(): Promise<void> {
    const editor = planEditor();
    if (this.keeper.state === "stopped") this.showStopped();
    else if (editor === undefined) this.item.hide();
    else if (this.keeper.state === "starting")
      this.showPlain("loading~spin", vscode.l10n.t("Leadpipe is starting."));
    else if (this.told.state === "trouble") this.showPlain("warning", this.told.words);
    else await this.showDayAt(editor);
    this.refreshed.fire(this.item.text);
  }

  private async showDayAt(editor: vscode.TextEditor): Promise<void> {
    const found = await this.dayAt(editor);
    if (found !== null) this.showDay(found);
    else if (this.told.state === "busy")
      this.showPlain("loading~spin", this.told.words || vscode.l10n.t("Leadpipe is checking."));
    else this.showPlain("music", vscode.l10n.t("Put the cursor into a term to see what a day asks."));
  }

  private dayAt(editor: vscode.TextEditor): Promise<DayStatusResult> {
    const { line, character } = editor.selection.active;
    const place: PlaceParams = { uri: editor.document.uri.toString(), position: { line, character } };
    return this.keeper.ask<NonNullable<DayStatusResult>>(DAY_STATUS_REQUEST, place);
  }

  private showDay({ day, term }: NonNullable<DayStatusResult>): void {
    const tightest = tightestOf(day.figures);
    const parts = [
      day.label,
      standingWord(day.standing),
      ...(tightest === undefined ? [] : [figureText(tightest)]),
    ];
    this.item.backgroundColor = undefined;
    this.item.text = `$(${standingSign(day.standing)}) ${parts.join(" · ")}`;
    const figures = day.figures.map(spokenFigure);
    const tooltip = new vscode.MarkdownString();
    tooltip.appendText(
      [
        term,
        `${day.label}: ${[standingWord(day.standing), day.remark].filter(Boolean).join(", ")}`,
        ...figures,
      ].join("\n"),
    );
    this.item.tooltip = tooltip;
    this.item.accessibilityInformation = {
      label: [term, ...parts.slice(0, 2), ...figures].join(", "),
      role: "button",
    };
    this.item.show();
  }

  private showPlain(sign: string, words: string): void {
    this.item.backgroundColor = undefined;
    this.item.text = `$(${sign}) Leadpipe`;
    this.item.tooltip = words;
    this.item.accessibilityInformation = { label: `Leadpipe. ${words}`, role: "button" };
    this.item.show();
  }

  private showStopped(): void {
    const words = vscode.l10n.t("Leadpipe has stopped checking. Click to restart it.");
    this.showPlain("debug-disconnect", words);
    this.item.text = `$(debug-disconnect) ${vscode.l10n.t("Leadpipe stopped")}`;
    this.item.backgroundColor = new vscode.ThemeColor("statusBarItem.warningBackground");
  }
}
