import * as vscode from "vscode";
import {
  NEW_STUDIO_REQUEST,
  type NewStudioParams,
  type NewStudioResult,
  STUDIO_CHOICES_REQUEST,
  type StudioChoicesResult,
} from "../server/protocol/requests";
import { tellNotReady } from "./not-ready";
import type { ServerKeeper } from "./server-keeper";
import { tellStudioStands } from "./studio-stands";

/**
 * Starts a new studio from a few questions. Everything may be answered beforehand, as a keybinding's arguments.
 *
 * @returns the files written; undefined where the teacher left off, or nothing could be written.
 */
export async function startNewStudio(
  keeper: ServerKeeper,
  where?: vscode.Uri,
  answered?: NewStudioParams,
): Promise<readonly vscode.Uri[] | undefined> {
  const folder = where ?? (await askFolder());
  if (folder === undefined) return undefined;
  const answers = answered ?? (await askAll(keeper));
  if (answers === undefined) return undefined;
  const result = await keeper.ask<NewStudioResult>(NEW_STUDIO_REQUEST, answers);
  if (result === null) return tellNotReady();
  if ("trouble" in result) {
    void vscode.window.showWarningMessage(result.trouble);
    return undefined;
  }
  const files = result.files.map(({ path, text }) => ({
    uri: vscode.Uri.joinPath(folder, path),
    path,
    text,
  }));
  const there = await firstThere(files);
  if (there !== undefined) {
    void vscode.window.showWarningMessage(
      vscode.l10n.t(
        "There is a {0} in this folder already. Nothing was written; choose an empty folder.",
        there,
      ),
    );
    return undefined;
  }
  try {
    for (const { uri, text } of files)
      await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  } catch (thrown) {
    keeper.output.warn(String(thrown));
    void vscode.window.showWarningMessage(
      vscode.l10n.t("This folder cannot be written to, so there is no studio in it. Choose another folder."),
    );
    return undefined;
  }
  const last = files.at(-1);
  if (last !== undefined) await vscode.window.showTextDocument(last.uri);
  void tellStudioStands(folder);
  return files.map((file) => file.uri);
}

/** The first of these files that exists already. */
async function firstThere(
  files: readonly { readonly uri: vscode.Uri; readonly path: string }[],
): Promise<string | undefined> {
  for (const { uri, path } of files) {
    try {
      await vscode.workspace.fs.stat(uri);
      return path;
    } catch {
      // Not there, as it should be.
    }
  }
  return undefined;
}

/** The folder to write into: the only one that is open, or one that the teacher picks. */
async function askFolder(): Promise<vscode.Uri | undefined> {
  const open = vscode.workspace.workspaceFolders ?? [];
  if (open.length === 1) return open[0]?.uri;
  if (open.length > 1) return (await vscode.window.showWorkspaceFolderPick())?.uri;
  const picked = await vscode.window.showOpenDialog({
    canSelectFiles: false,
    canSelectFolders: true,
    openLabel: vscode.l10n.t("Write the Studio Here"),
    title: vscode.l10n.t("An empty folder for the new studio"),
  });
  return picked?.[0];
}

/** So many questions are asked. */
const STEPS = 7;

async function askAll(keeper: ServerKeeper): Promise<NewStudioParams | undefined> {
  const choices = await keeper.ask<StudioChoicesResult>(STUDIO_CHOICES_REQUEST, {});
  if (choices === null) return tellNotReady();
  const level = await askText(1, vscode.l10n.t("What do you call the level?"), "Seniors", (text) =>
    text.trim() === "" || /["“”„{}]/.test(text)
      ? vscode.l10n.t("A few words on one line, without quotes or braces.")
      : undefined,
  );
  if (level === undefined) return undefined;
  const stage = await askOne(
    2,
    vscode.l10n.t("How far are they?"),
    choices.stages.map((each) => each.stage),
  );
  const usual = choices.stages.find((each) => each.stage === stage);
  if (stage === undefined || usual === undefined) return undefined;
  const instrument = await askOne(3, vscode.l10n.t("Which instrument do they play?"), choices.instruments);
  if (instrument === undefined) return undefined;
  const days = await askNumber(
    4,
    vscode.l10n.t("On how many days a week do they practise?"),
    usual.daysPerWeek,
    choices.days,
  );
  if (days === undefined) return undefined;
  const minutes = await askNumber(
    5,
    vscode.l10n.t("How many minutes a day?"),
    usual.minutes,
    choices.minutes,
  );
  if (minutes === undefined) return undefined;
  const from = await askText(
    6,
    vscode.l10n.t("Which is the first day of the term? Year, month, day."),
    nextMonday(new Date()),
    (text) => (isDate(text) ? undefined : vscode.l10n.t("A date such as 2026-09-07.")),
  );
  if (from === undefined) return undefined;
  const weeks = await askNumber(7, vscode.l10n.t("How many weeks does it have?"), 12, choices.weeks);
  if (weeks === undefined) return undefined;
  return { level, stage, instrument, daysPerWeek: days, minutes, from, weeks };
}

function titleOf(step: number): string {
  return vscode.l10n.t("A new studio, {0} of {1}", step, STEPS);
}

async function askText(
  step: number,
  prompt: string,
  value: string,
  validateInput: (text: string) => string | undefined,
): Promise<string | undefined> {
  return vscode.window.showInputBox({
    title: titleOf(step),
    prompt,
    value,
    validateInput,
    ignoreFocusOut: true,
  });
}

async function askNumber(
  step: number,
  prompt: string,
  usual: number,
  { least, most }: { readonly least: number; readonly most: number },
): Promise<number | undefined> {
  const text = await askText(step, prompt, String(usual), (typed) =>
    /^\d+$/.test(typed.trim()) && Number(typed) >= least && Number(typed) <= most
      ? undefined
      : vscode.l10n.t("A whole number from {0} to {1}.", least, most),
  );
  return text === undefined ? undefined : Number(text);
}

async function askOne(
  step: number,
  placeHolder: string,
  choices: readonly string[],
): Promise<string | undefined> {
  return vscode.window.showQuickPick(choices, { title: titleOf(step), placeHolder, ignoreFocusOut: true });
}

/** Whether a text is a day of the calendar, year-month-day. */
function isDate(text: string): boolean {
  const date = new Date(`${text}T00:00:00Z`);
  return (
    /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text)
  );
}

/** The Monday after this day, where the teacher is. */
function nextMonday(today: Date): string {
  const ahead = (8 - today.getDay()) % 7 || 7;
  const monday = new Date(Date.UTC(today.getFullYear(), today.getMonth(), today.getDate() + ahead));
  return monday.toISOString().slice(0, 10);
}
