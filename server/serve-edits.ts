import type { TextDocumentEdit, WorkspaceEdit } from "vscode-languageserver";

/** An edit in the form that the editor understands: by version where it keeps account of them, else plain. */
export function shapedEdit(
  edit: WorkspaceEdit,
  documentChanges: boolean,
  versionOf: (uri: string) => number | null,
): WorkspaceEdit {
  const byUri = new Map(Object.entries(edit.changes ?? {}).map(([uri, edits]) => [uri, [...edits]]));
  for (const change of edit.documentChanges ?? []) {
    if (!("edits" in change)) continue;
    const edits = change.edits.flatMap((each) => ("newText" in each ? [each] : []));
    byUri.set(change.textDocument.uri, [...(byUri.get(change.textDocument.uri) ?? []), ...edits]);
  }
  if (!documentChanges) return { ...rest(edit), changes: Object.fromEntries(byUri) };
  const changes = [...byUri].map(
    ([uri, edits]): TextDocumentEdit => ({ textDocument: { uri, version: versionOf(uri) }, edits }),
  );
  return { ...rest(edit), documentChanges: changes };
}

function rest(edit: WorkspaceEdit): WorkspaceEdit {
  return edit.changeAnnotations === undefined ? {} : { changeAnnotations: edit.changeAnnotations };
}
