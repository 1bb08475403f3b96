import * as vscode from "vscode";
import { EXPORT_REQUEST, type ExportParams, type ExportResult } from "../../server/protocol/requests";
import { tellNotReady } from "../not-ready";
import { planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";
import { type MayReplace, writeAsked } from "../write-asked";

const NAMES: Readonly<
  Record<ExportParams["form"], { readonly kind: string; readonly endings: readonly string[] }>
> = {
  musicxml: { kind: "MusicXML", endings: ["musicxml"] },
  midi: { kind: "MIDI", endings: ["mid"] },
  svg: { kind: "SVG", endings: ["svg"] },
};

/**
 * Writes the exercise under the cursor to a file: to the one that a person picks, or to `target`. Resolves with the
 * file, or undefined where nothing was written.
 */
export async function exportMusic(
  keeper: ServerKeeper,
  form: ExportParams["form"],
  target?: vscode.Uri,
  mayReplace?: MayReplace,
): Promise<vscode.Uri | undefined> {
  const editor = planEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open a plan, and put the cursor into an exercise."),
    );
    return undefined;
  }
  const { line, character } = editor.selection.active;
  const params: ExportParams = {
    uri: editor.document.uri.toString(),
    position: { line, character },
    form,
  };
  const exported = await keeper.ask<ExportResult>(EXPORT_REQUEST, params);
  if (exported === null) return tellNotReady();
  if ("trouble" in exported) {
    void vscode.window.showWarningMessage(exported.trouble);
    return undefined;
  }
  return writeAsked(decoded(exported.bytes), {
    target,
    mayReplace,
    fileName: exported.fileName,
    beside: editor.document.uri,
    ...NAMES[form],
    title: vscode.l10n.t("Write the Music"),
  });
}

function decoded(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
}
