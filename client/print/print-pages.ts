import * as vscode from "vscode";
import {
  PRINT_CHOICES_REQUEST,
  PRINT_REQUEST,
  type PrintChoicesParams,
  type PrintChoicesResult,
  type PrintParams,
  type PrintResult,
  type PrintWhat,
} from "../../server/protocol/print-requests";
import { planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";
import { askWish, type PaperMemory, type PrintWish } from "./print-wish";
import { tellOfPages } from "./show-pages";
import { type MayReplaceAll, writePages } from "./write-pages";

/** What may be answered beforehand: what is wanted, where it goes, and whether what is there may be replaced. */
export interface PrintAnswers {
  readonly wish?: PrintWish | undefined;
  readonly target?: vscode.Uri | undefined;
  readonly mayReplace?: MayReplaceAll | undefined;
}

let jobs = 0;

/**
 * Prints from the plan in front: asks what is wanted, has the pages made, and writes them. Resolves with the files;
 * undefined where nothing was written.
 */
export async function printPages(
  keeper: ServerKeeper,
  what: PrintWhat,
  memory: PaperMemory,
  { wish: answered, target, mayReplace }: PrintAnswers,
): Promise<readonly vscode.Uri[] | undefined> {
  const editor = planEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open a plan, and put the cursor into the term you want to print."),
    );
    return undefined;
  }
  const { document, selection } = editor;
  const uri = document.uri.toString();
  const wish = answered ?? (await asked(keeper, what, memory, uri, selection.active));
  if (wish === undefined) return undefined;
  const made = await madePages(keeper, { ...wish, uri, what, html: false });
  if (made === undefined) return undefined;
  const files = made.files.map(({ name, bytes }) => ({ name, bytes: decoded(bytes) }));
  const written = await writePages(files, { target, mayReplace, beside: document.uri });
  // Nobody waits for a person to answer what is only offered.
  if (written !== undefined) void tellOfPages(written, made.remarks);
  return written;
}

async function asked(
  keeper: ServerKeeper,
  what: PrintWhat,
  memory: PaperMemory,
  uri: string,
  { line, character }: vscode.Position,
): Promise<PrintWish | undefined> {
  const params: PrintChoicesParams = { uri, position: { line, character }, what, today: dayOf(new Date()) };
  const choices = await keeper.ask<PrintChoicesResult>(PRINT_CHOICES_REQUEST, params);
  if (choices === null) {
    notReady();
    return undefined;
  }
  if ("trouble" in choices) {
    void vscode.window.showWarningMessage(choices.trouble);
    return undefined;
  }
  return askWish(what, choices.scopes, memory);
}

/** Has pages made, and shows how far they are; undefined where there are none, and then it was said why. */
async function madePages(
  keeper: ServerKeeper,
  wish: Omit<PrintParams, "job">,
): Promise<Extract<PrintResult, { remarks: unknown }> | undefined> {
  const job = ++jobs;
  const title = vscode.l10n.t("Printing");
  const place = { location: vscode.ProgressLocation.Notification, title, cancellable: true };
  const result = await vscode.window.withProgress(place, async (progress, token) => {
    const listening = keeper.onDidPrint((told) => {
      if (told.job === job) progress.report({ message: told.words });
    });
    try {
      const answer = await keeper.ask<PrintResult>(PRINT_REQUEST, { ...wish, job }, token);
      return token.isCancellationRequested ? "cancelled" : answer;
    } finally {
      listening.dispose();
    }
  });
  if (result === "cancelled") return undefined;
  if (result === null) {
    notReady();
    return undefined;
  }
  if (!("trouble" in result)) return result;
  if (!result.web) {
    void vscode.window.showWarningMessage(result.trouble);
    return undefined;
  }
  const web = vscode.l10n.t("Web Pages Instead");
  const chosen = await vscode.window.showWarningMessage(result.trouble, web);
  return chosen === web ? madePages(keeper, { ...wish, html: true }) : undefined;
}

function notReady(): void {
  void vscode.window.showWarningMessage(
    vscode.l10n.t("Leadpipe is not ready. Nothing was printed; try again in a moment."),
  );
}

/** A day where the teacher is, year-month-day. */
function dayOf(date: Date): string {
  return [date.getFullYear(), date.getMonth() + 1, date.getDate()]
    .map((each) => String(each).padStart(2, "0"))
    .join("-");
}

function decoded(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
}
