import * as vscode from "vscode";
import type { PrintWhat } from "../../server/protocol/print-requests";
import type { ServerKeeper } from "../server-keeper";
import { type PrintAnswers, printPages } from "./print-pages";
import type { Paper } from "./print-wish";

/** Where the last choice of paper is kept, for all studios of this computer. */
const PAPER = "print.paper";

/** Registers what has to do with printed pages. Titles stand in the manifest. */
export function registerPrintCommands(
  context: vscode.ExtensionContext,
  keeper: ServerKeeper,
): vscode.Disposable[] {
  const register = vscode.commands.registerCommand;
  const memory = {
    last: () => paperIn(context.globalState.get(PAPER)),
    keep: (paper: Paper) => void context.globalState.update(PAPER, paper),
  };
  const printing =
    (what: PrintWhat) =>
    async (answers?: PrintAnswers): Promise<readonly vscode.Uri[] | undefined> => {
      await keeper.start();
      return printPages(keeper, what, memory, isAnswers(answers) ? answers : {});
    };
  return [
    register("leadpipe.printDay", printing("day")),
    register("leadpipe.printWeek", printing("week")),
    register("leadpipe.printPacket", printing("packet")),
  ];
}

/** From a menu the editor hands over its own file, which answers nothing. */
function isAnswers(given: unknown): given is PrintAnswers {
  return typeof given === "object" && given !== null && ("wish" in given || "target" in given);
}

/** What was kept by an older version may look otherwise. */
function paperIn(kept: unknown): Paper | undefined {
  if (typeof kept !== "object" || kept === null || !("paper" in kept) || !("large" in kept)) return undefined;
  const { paper, large } = kept;
  return (paper === "a4" || paper === "letter") && typeof large === "boolean" ? { paper, large } : undefined;
}
