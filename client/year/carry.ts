import * as vscode from "vscode";
import type { PlaceParams } from "../../server/protocol/requests";
import {
  CARRY_CHECK_REQUEST,
  CARRY_CHOICES_REQUEST,
  CARRY_REQUEST,
  type CarryAnswers,
  type CarryCheckParams,
  type CarryChoicesResult,
  type CarryParams,
  type CarryResult,
} from "../../server/protocol/year-requests";
import { planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";
import { isThere } from "../write-asked";
import type { YearPage } from "./year-page";

/**
 * Begins a term from the one at the cursor: asks for its calendar, opens the new plan unsaved in the old one's folder
 * and shows beside it what was left out. The answers may be given beforehand.
 *
 * @returns the new plan; undefined where the teacher left off, or there was nothing to begin from.
 */
export async function beginTerm(
  keeper: ServerKeeper,
  leftOutPage: YearPage,
  answered?: CarryAnswers,
): Promise<vscode.TextDocument | undefined> {
  const editor = planEditor();
  const place = editor === undefined ? undefined : placeOf(editor);
  const choices =
    place === undefined
      ? null
      : await keeper.ask<NonNullable<CarryChoicesResult>>(CARRY_CHOICES_REQUEST, place);
  if (editor === undefined || place === undefined || choices === null) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open a plan, and put the cursor into the term to begin a new one from."),
    );
    return undefined;
  }
  const answers = answered ?? (await askAll(keeper, choices));
  if (answers === undefined) return undefined;
  const params: CarryParams = { ...place, answers };
  const result = await keeper.ask<CarryResult>(CARRY_REQUEST, params);
  if (result === null) {
    void vscode.window.showWarningMessage(
      vscode.l10n.t("Leadpipe is not ready. Nothing was begun; try again in a moment."),
    );
    return undefined;
  }
  if ("trouble" in result) {
    void vscode.window.showWarningMessage(result.trouble);
    return undefined;
  }
  const document = await openNew(editor.document.uri, result.name, result.text);
  if (result.leftOut !== undefined) leftOutPage.open(result.leftOut, { preserveFocus: true });
  else {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("“{0}” has everything that the old term had. Save it where it is.", result.term),
    );
  }
  return document;
}

function placeOf({ document, selection: { active } }: vscode.TextEditor): PlaceParams {
  return {
    uri: document.uri.toString(),
    position: { line: active.line, character: active.character },
  };
}

/** Opens a new plan with a text, unsaved, under a name that no file in the folder has. */
async function openNew(beside: vscode.Uri, name: string, text: string): Promise<vscode.TextDocument> {
  const target = await freeName(beside, name);
  const uri = target.scheme === "file" ? target.with({ scheme: "untitled" }) : target;
  const edit = new vscode.WorkspaceEdit();
  // An editor keeps a path for plans that were never saved on a disk alone; elsewhere an empty file holds the place.
  if (uri === target) edit.createFile(target, { overwrite: false, ignoreIfExists: false });
  else await vscode.workspace.openTextDocument(uri);
  edit.insert(uri, new vscode.Position(0, 0), text);
  await vscode.workspace.applyEdit(edit);
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document, { preview: false });
  return document;
}

async function freeName(beside: vscode.Uri, name: string): Promise<vscode.Uri> {
  for (let n = 1; ; n++) {
    const file = `${n === 1 ? name : `${name} (${n})`}.practice`;
    const uri = fileBeside(beside, file);
    const isOpen = vscode.workspace.textDocuments.some((document) => document.uri.path === uri.path);
    if (!isOpen && !(await isThere(uri))) return uri;
  }
}

/** A file in the folder of another; a plan that was never saved lies nowhere, and counts as in the open folder. */
function fileBeside(uri: vscode.Uri, name: string): vscode.Uri {
  const open = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (uri.scheme !== "untitled") return vscode.Uri.joinPath(uri, "..", name);
  if (uri.path.includes("/")) return vscode.Uri.joinPath(uri.with({ scheme: "file" }), "..", name);
  return open === undefined ? vscode.Uri.file(`/${name}`) : vscode.Uri.joinPath(open, name);
}

type Choices = NonNullable<CarryChoicesResult>;

async function askAll(keeper: ServerKeeper, choices: Choices): Promise<CarryAnswers | undefined> {
  const steps = choices.bookings > 0 ? 4 : 3;
  const ask = (
    step: number,
    asked: CarryCheckParams["asked"],
    prompt: string,
    value: string,
    before: Partial<CarryAnswers>,
  ): Thenable<string | undefined> =>
    vscode.window.showInputBox({
      title: titleOf(choices.term, step, steps),
      prompt,
      value,
      ignoreFocusOut: true,
      validateInput: async (text) => {
        const answers = { ...NONE, ...before, [asked]: text };
        const params: CarryCheckParams = { asked, answers };
        return keeper.ask<string>(CARRY_CHECK_REQUEST, params);
      },
    });
  const { was } = choices;
  const first = await ask(
    1,
    "first",
    vscode.l10n.t("Its first day? Year, month, day. The old term began on {0}.", was.first),
    choices.first,
    {},
  );
  if (first === undefined) return undefined;
  const last = await ask(
    2,
    "last",
    vscode.l10n.t("Its last day? The old term ended on {0}.", was.last),
    choices.last,
    { first },
  );
  if (last === undefined) return undefined;
  const closures = await ask(3, "closures", closuresPrompt(choices), "", { first, last });
  if (closures === undefined) return undefined;
  const bookings = choices.bookings === 0 ? false : await askBookings(choices, steps);
  return bookings === undefined ? undefined : { first, last, closures, bookings };
}

const NONE: CarryAnswers = { first: "", last: "", closures: "", bookings: false };

function titleOf(term: string, step: number, steps: number): string {
  return vscode.l10n.t("A new term from “{0}”, {1} of {2}", term, step, steps);
}

function closuresPrompt({ closures }: Choices): string {
  const how = vscode.l10n.t(
    "When is it closed? Such as 2027-10-25 to 2027-10-30 half-term, light 2027-11-11. Empty for never.",
  );
  return closures === "" ? how : `${how} ${vscode.l10n.t("The old term: {0}.", closures)}`;
}

async function askBookings({ term, bookings }: Choices, step: number): Promise<boolean | undefined> {
  const along = vscode.l10n.t("Move them along, by taught week");
  const picked = await vscode.window.showQuickPick([vscode.l10n.t("Leave them out"), along], {
    title: titleOf(term, step, step),
    placeHolder: vscode.l10n.t("Concerts, bookings and lessons on single days: {0} lines", bookings),
    ignoreFocusOut: true,
  });
  return picked === undefined ? undefined : picked === along;
}
