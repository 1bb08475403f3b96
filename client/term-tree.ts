import * as vscode from "vscode";
import type {
  DayView,
  FigureView,
  PlaceParams,
  PlaceView,
  TermView,
  TermViewResult,
  WeekView,
} from "../server/protocol/requests";
import { TERM_VIEW_REQUEST } from "../server/protocol/requests";
import { Latest } from "./latest";
import { PLAN_LANGUAGE, planEditor } from "./plan-editor";
import type { ServerKeeper } from "./server-keeper";
import {
  figureName,
  figureText,
  spokenFigure,
  standingIcon,
  standingWord,
  tightestOf,
  whose,
} from "./standing";

/** The view, as the manifest names it. */
export const TERM_VIEW = "leadpipe.term";

/** A row: a week, one of its days, or a figure of either. */
export type Row =
  | { readonly kind: "week"; readonly week: WeekView }
  | { readonly kind: "day"; readonly day: DayView; readonly week: WeekView }
  | { readonly kind: "figure"; readonly figure: FigureView; readonly of: WeekView | DayView };

/**
 * The side view of a term. It shows the term of the plan that was looked at last, so that a teacher who turns to
 * the book still sees what a change there does to the days.
 */
export class TermTree implements vscode.TreeDataProvider<Row>, vscode.Disposable {
  private readonly changed = new vscode.EventEmitter<undefined>();
  readonly onDidChangeTreeData = this.changed.event;
  private readonly refreshed = new vscode.EventEmitter<TermView | undefined>();
  /** Fires after each refresh, even one that changed nothing. */
  readonly onDidRefresh = this.refreshed.event;
  private readonly tree: vscode.TreeView<Row>;
  private readonly asking = new Latest(() => this.askServer());
  private readonly own: vscode.Disposable[];
  /** Where the term that is shown was found. */
  private place: PlaceParams | undefined;
  /** Where the server was asked last, whether it has answered or not. */
  private asked: PlaceParams | undefined;
  private term: TermView | undefined;
  private shown = "";

  constructor(private readonly keeper: ServerKeeper) {
    this.tree = vscode.window.createTreeView<Row>(TERM_VIEW, {
      treeDataProvider: this,
      showCollapseAll: true,
    });
    this.own = [
      this.tree,
      this.changed,
      this.refreshed,
      vscode.window.onDidChangeActiveTextEditor(() => void this.refresh()),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor === planEditor()) this.follow(textEditor);
      }),
      vscode.languages.onDidChangeDiagnostics(() => void this.refresh()),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.languageId === PLAN_LANGUAGE && contentChanges.length > 0) void this.refresh();
      }),
      vscode.workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration("leadpipe.termView")) this.changed.fire(undefined);
      }),
      this.tree.onDidChangeVisibility(() => void this.refresh()),
      keeper.onDidChangeState(() => void this.refresh()),
      // Once all plans are read in, a term may have players and exercises that it lacked before.
      keeper.onDidTell(() => void this.refresh()),
    ];
    void this.refresh();
  }

  /** The term that is shown. */
  get current(): TermView | undefined {
    return this.term;
  }

  /** Asks the server anew; resolves once the answer is shown. */
  refresh(): Promise<void> {
    return this.asking.ask();
  }

  /** Brings the view up with the week that is asked for at a place, the whole term where none is. */
  async showWeek(place: PlaceParams): Promise<void> {
    await vscode.commands.executeCommand(`${TERM_VIEW}.focus`);
    this.show((await this.ask(place)) ?? undefined);
    const { line } = place.position;
    // A block of several weeks is spoken of by its fullest.
    const weeks = this.term?.weeks.filter((each) => each.place?.range.start.line === line) ?? [];
    const [week] = weeks.toSorted((a, b) => fullness(b) - fullness(a));
    if (week !== undefined) await this.tree.reveal({ kind: "week", week }, { expand: true, focus: true });
  }

  /** Asks anew where the cursor has gone to another line than was asked about: an answer may still be on its way. */
  private follow(editor: vscode.TextEditor): void {
    const before = this.asked;
    const same =
      before?.uri === editor.document.uri.toString() && before.position.line === editor.selection.active.line;
    if (!same) void this.refresh();
  }

  private async askServer(): Promise<void> {
    if (this.keeper.state !== "ready" || !this.tree.visible) return;
    const editor = planEditor();
    const here = editor === undefined ? undefined : placeOf(editor);
    this.asked = here;
    const result = (here === undefined ? null : await this.ask(here)) ?? undefined;
    if (result !== undefined) {
      this.place = here;
      this.show(result);
    } else if (this.place !== undefined) {
      // A book holds no term: the one that was looked at last stays, with today's figures.
      this.show((await this.ask(this.place)) ?? undefined);
    } else this.show(undefined);
  }

  private ask(place: PlaceParams): Promise<TermViewResult> {
    return this.keeper.ask<TermView>(TERM_VIEW_REQUEST, place);
  }

  private show(term: TermView | undefined): void {
    this.term = term;
    const shown = JSON.stringify(term ?? null);
    if (shown !== this.shown) {
      this.shown = shown;
      // Said inside the view, since the room beside its title is short.
      this.tree.message = term === undefined ? "" : headingOf(term);
      this.tree.badge = badgeOf(term);
      this.changed.fire(undefined);
    }
    this.refreshed.fire(term);
  }

  getChildren(row?: Row): Row[] {
    if (row === undefined) {
      return inOrder(this.term?.weeks ?? []).map((week) => ({ kind: "week", week }));
    }
    switch (row.kind) {
      case "week":
        return inOrder(row.week.days).map((day) => ({ kind: "day", day, week: row.week }));
      case "day":
        return row.day.figures.map((figure) => ({ kind: "figure", figure, of: row.day }));
      case "figure":
        return [];
    }
  }

  getParent(row: Row): Row | undefined {
    return row.kind === "day" ? { kind: "week", week: row.week } : undefined;
  }

  getTreeItem(row: Row): vscode.TreeItem {
    switch (row.kind) {
      case "week":
        return weekItem(row.week);
      case "day":
        return dayItem(row.day);
      case "figure":
        return figureItem(row.figure, row.of);
    }
  }

  dispose(): void {
    for (const each of this.own) each.dispose();
  }
}

function placeOf(editor: vscode.TextEditor): PlaceParams {
  const { line, character } = editor.selection.active;
  return { uri: editor.document.uri.toString(), position: { line, character } };
}

/** The term and who plays it. */
function headingOf({ title, players }: TermView): string {
  return players.length === 0 ? title : `${title} · ${players.join(", ")}`;
}

/** How many days are over, beside the view's sign, so that it is seen while the view is folded. */
function badgeOf(term: TermView | undefined): vscode.ViewBadge | undefined {
  const over = (term?.weeks ?? [])
    .flatMap((week) => week.days)
    .filter((day) => day.standing === "over").length;
  if (over === 0) return undefined;
  const tooltip =
    over === 1 ? vscode.l10n.t("1 day over its budget") : vscode.l10n.t("{0} days over their budget", over);
  return { value: over, tooltip };
}

interface Full {
  readonly figures: readonly FigureView[];
  readonly days?: readonly DayView[];
}

/** By the calendar, or the fullest first, as the settings say. */
function inOrder<T extends Full>(rows: readonly T[]): readonly T[] {
  const order = vscode.workspace.getConfiguration("leadpipe").get<string>("termView.order");
  return order === "fullestFirst" ? rows.toSorted((a, b) => fullness(b) - fullness(a)) : rows;
}

/** The largest share of an allowance that a week, one of its days, or a day uses. */
function fullness(row: Full): number {
  const figures = [row, ...(row.days ?? [])].flatMap((each) => each.figures);
  return Math.max(0, ...figures.map((figure) => figure.share ?? 0));
}

function weekItem(week: WeekView): vscode.TreeItem {
  const item = new vscode.TreeItem(
    week.label,
    week.days.length === 0
      ? vscode.TreeItemCollapsibleState.None
      : week.standing === "over"
        ? vscode.TreeItemCollapsibleState.Expanded
        : vscode.TreeItemCollapsibleState.Collapsed,
  );
  // The same week keeps its fold through a refresh, whatever its figures.
  item.id = `${week.label} ${week.dates}`;
  item.description = briefly([
    week.remark === "" ? wordWorthSaying(week) : week.remark,
    tightestText(week.figures),
    week.dates,
  ]);
  return completed(item, week, [week.label, week.dates]);
}

function dayItem(day: DayView): vscode.TreeItem {
  const item = new vscode.TreeItem(
    day.label,
    day.figures.length === 0
      ? vscode.TreeItemCollapsibleState.None
      : vscode.TreeItemCollapsibleState.Collapsed,
  );
  item.id = day.date;
  const idle = day.standing === "closed" || day.standing === "ill";
  item.description = briefly([wordWorthSaying(day), idle ? "" : tightestText(day.figures), day.remark]);
  return completed(item, day, [day.label]);
}

/** The room beside a row's label is short, so that nothing is said there of what is as it should be. */
function wordWorthSaying({ standing }: WeekView | DayView): string {
  return standing === "within" ? "" : standingWord(standing);
}

function tightestText(figures: readonly FigureView[]): string {
  const tightest = tightestOf(figures);
  return tightest === undefined ? "" : figureText(tightest);
}

function briefly(parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join(" · ");
}

/** Sign, tooltip, words for a screen reader and the way to the text: alike for weeks and days. */
function completed(
  item: vscode.TreeItem,
  of: WeekView | DayView,
  heading: readonly string[],
): vscode.TreeItem {
  item.iconPath = standingIcon(of.standing);
  const parts = [standingWord(of.standing), of.remark, ...of.figures.map(spokenFigure)].filter(
    (part) => part !== "",
  );
  item.tooltip = [heading.join(", "), ...parts].join("\n");
  item.accessibilityInformation = { label: [...heading, ...parts].join(", ") };
  item.contextValue = of.standing;
  if (of.place !== undefined) item.command = goTo(of.place);
  return item;
}

function figureItem(figure: FigureView, of: WeekView | DayView): vscode.TreeItem {
  const item = new vscode.TreeItem(figureName(figure.name));
  const used = figure.share === undefined ? "" : ` · ${Math.round(figure.share * 100)} %`;
  item.description = `${figure.text}${whose(figure.players)}${used}`;
  item.iconPath = standingIcon(figure.standing);
  item.accessibilityInformation = { label: `${figureName(figure.name)} ${item.description}` };
  if (of.place !== undefined) item.command = goTo(of.place);
  return item;
}

/** Leads to the text, as a click on the row and Enter do. */
function goTo({ uri, range: { start } }: PlaceView): vscode.Command {
  const at = new vscode.Position(start.line, start.character);
  return {
    title: vscode.l10n.t("Go to the Line"),
    command: "vscode.open",
    arguments: [vscode.Uri.parse(uri), { selection: new vscode.Range(at, at) }],
  };
}
