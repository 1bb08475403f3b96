import * as vscode from "vscode";
import type { CarryAnswers } from "../../server/protocol/year-requests";
import type { ServerKeeper } from "../server-keeper";
import type { MayReplace } from "../write-asked";
import { beginTerm } from "./carry";
import { ComparisonView } from "./comparison";
import { TermReport } from "./report";
import { type ToldOfPage, YearPage } from "./year-page";

/** The panel of what was left out, as the editor names it. */
const LEFT_OUT = "leadpipe.leftOut";

/** Pages about a term as a whole, and what a person can ask of them. Titles of commands stand in the manifest. */
export class YearPages implements vscode.Disposable {
  private readonly report: TermReport;
  private readonly comparison: ComparisonView;
  private readonly leftOut: YearPage;
  private readonly tellings = new vscode.EventEmitter<ToldOfPage>();
  /** Fires with what any of the pages tells of itself. */
  readonly onDidTell = this.tellings.event;
  private readonly own: vscode.Disposable[];

  constructor(
    extensionUri: vscode.Uri,
    private readonly keeper: ServerKeeper,
  ) {
    this.report = new TermReport(extensionUri, keeper);
    this.comparison = new ComparisonView(extensionUri, keeper);
    this.leftOut = new YearPage(LEFT_OUT, extensionUri);
    // Folders are compared as well; where there is no studio at all, their menus stay as they are.
    void vscode.commands.executeCommand("setContext", "leadpipe.active", true);
    const pages = [this.report.page, this.comparison.page, this.leftOut];
    this.own = [
      this.report,
      this.comparison,
      this.leftOut,
      this.tellings,
      ...pages.map((page) => page.onDidTell((told) => this.tellings.fire(told))),
      ...this.commands(),
    ];
  }

  dispose(): void {
    for (const each of this.own) each.dispose();
  }

  /** What comes from a menu may be anything, so only what was meant is taken. */
  private commands(): vscode.Disposable[] {
    const { report, comparison, leftOut, keeper } = this;
    const register = (command: string, work: (...args: readonly unknown[]) => unknown): vscode.Disposable =>
      vscode.commands.registerCommand(command, async (...args: readonly unknown[]) => {
        await keeper.start();
        return work(...args);
      });
    return [
      register("leadpipe.showReport", () => report.open()),
      register("leadpipe.choosePlayers", (names) => report.choosePlayers(textsIn(names))),
      register("leadpipe.saveReport", (target, may) => report.save(...named(target, may))),
      register("leadpipe.saveComparison", (target, may) => comparison.save(...named(target, may))),
      register("leadpipe.compareLastCommit", (uri) => comparison.withRevision(uriIn(uri), "HEAD")),
      register("leadpipe.compareRevision", (uri, revision) =>
        comparison.withRevision(uriIn(uri), typeof revision === "string" ? revision : undefined),
      ),
      register("leadpipe.compareOther", (uri, other) =>
        comparison.withOther(uriIn(uri), otherOf(uri, other)),
      ),
      register("leadpipe.beginTerm", (answers) =>
        beginTerm(keeper, leftOut, isAnswers(answers) ? answers : undefined),
      ),
    ];
  }
}

function uriIn(value: unknown): vscode.Uri | undefined {
  return value instanceof vscode.Uri ? value : undefined;
}

/** The other of two that are chosen in the explorer, or the one that is named. */
function otherOf(uri: unknown, other: unknown): vscode.Uri | undefined {
  if (!Array.isArray(other)) return uriIn(other);
  if (other.length !== 2) return undefined;
  return uriIn(other.find((each) => String(each) !== String(uri)));
}

function textsIn(value: unknown): readonly string[] | undefined {
  return Array.isArray(value) && value.every((each) => typeof each === "string") ? value : undefined;
}

/** From a menu the editor hands over its own address, which is nothing to be written to. */
function named(target: unknown, may: unknown): [vscode.Uri?, MayReplace?] {
  if (!(target instanceof vscode.Uri) || typeof may !== "function") return [];
  return [target, async (file) => (await may(file)) === true];
}

function isAnswers(value: unknown): value is CarryAnswers {
  if (typeof value !== "object" || value === null) return false;
  const { first, last, closures, bookings } = Object.fromEntries(Object.entries(value));
  return (
    typeof first === "string" &&
    typeof last === "string" &&
    typeof closures === "string" &&
    typeof bookings === "boolean"
  );
}
