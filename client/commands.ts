import * as vscode from "vscode";
import type { Position } from "vscode-languageclient";
import { type NewStudioParams, SHOW_WEEK } from "../server/protocol/requests";
import { awake } from "./awake";
import { startNewStudio } from "./new-studio";
import type { ServerKeeper } from "./server-keeper";
import { STATUS_MENU } from "./status-item";
import { TERM_VIEW, type TermTree } from "./term-tree";

/** Registers what a person can ask for by name. Titles stand in the manifest. */
export function registerCommands(
  context: vscode.ExtensionContext,
  keeper: ServerKeeper,
  tree: TermTree,
): vscode.Disposable[] {
  const register = vscode.commands.registerCommand;
  const showTerm = (): Thenable<unknown> => vscode.commands.executeCommand(`${TERM_VIEW}.focus`);
  const order = (value: string) => () =>
    vscode.workspace
      .getConfiguration("leadpipe")
      .update("termView.order", value, vscode.ConfigurationTarget.Global);
  const firstSteps = (): Thenable<unknown> =>
    vscode.commands.executeCommand(
      "workbench.action.openWalkthrough",
      `${context.extension.id}#firstSteps`,
      false,
    );
  return [
    register("leadpipe.newStudio", async (where?: vscode.Uri, answers?: NewStudioParams) => {
      await awake(keeper);
      return startNewStudio(keeper, where instanceof vscode.Uri ? where : undefined, answers);
    }),
    register("leadpipe.restart", () => keeper.restart()),
    register("leadpipe.showOutput", () => keeper.output.show()),
    register("leadpipe.showTerm", showTerm),
    register(SHOW_WEEK, (uri: string, position: Position) => tree.showWeek({ uri, position })),
    register("leadpipe.firstSteps", firstSteps),
    register("leadpipe.orderByCalendar", order("calendar")),
    register("leadpipe.orderFullestFirst", order("fullestFirst")),
    register(STATUS_MENU, () => statusMenu(keeper)),
  ];
}

interface Choice extends vscode.QuickPickItem {
  readonly command: string;
}

/** What is sensible to do from the status bar, the likeliest first. */
async function statusMenu(keeper: ServerKeeper): Promise<void> {
  const restart: Choice = {
    label: `$(debug-restart) ${vscode.l10n.t("Restart checking")}`,
    command: "leadpipe.restart",
  };
  const choices: readonly Choice[] = [
    { label: `$(calendar) ${vscode.l10n.t("Show the term")}`, command: "leadpipe.showTerm" },
    {
      label: `$(list-flat) ${vscode.l10n.t("Show all findings")}`,
      command: "workbench.actions.view.problems",
    },
    restart,
    { label: `$(output) ${vscode.l10n.t("Show the output")}`, command: "leadpipe.showOutput" },
    { label: `$(mortar-board) ${vscode.l10n.t("First steps")}`, command: "leadpipe.firstSteps" },
  ];
  // Where nothing is checked any more, restarting is what one has come for.
  const ordered =
    keeper.state === "stopped" ? [restart, ...choices.filter((each) => each !== restart)] : choices;
  const chosen = await vscode.window.showQuickPick(ordered, { placeHolder: "Leadpipe" });
  if (chosen !== undefined) await vscode.commands.executeCommand(chosen.command);
}
