import {
  CodeActionKind,
  type Connection,
  DiagnosticSeverity,
  type Range,
  TextDocumentSyncKind,
  TextDocuments,
} from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { findings, placesOf, type Span, wordAt } from "./practice";

/** Answers an editor over any connection; the entry points differ only in how the connection is made. */
export function serve(connection: Connection, host: string): void {
  const documents = new TextDocuments(TextDocument);
  const rangeOf = (document: TextDocument, span: Span): Range => ({
    start: document.positionAt(span.start),
    end: document.positionAt(span.end),
  });

  connection.onInitialize(() => ({
    capabilities: {
      textDocumentSync: TextDocumentSyncKind.Incremental,
      hoverProvider: true,
      renameProvider: true,
      documentSymbolProvider: true,
      codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] },
    },
    serverInfo: { name: "practice-trial", version: "0.0.1" },
  }));

  connection.onHover(({ textDocument, position }) => {
    const document = documents.get(textDocument.uri);
    const found = document && wordAt(document.getText(), document.offsetAt(position));
    if (!document || !found) return null;
    const picture =
      '<svg xmlns="http://www.w3.org/2000/svg" width="120" height="24"><rect width="120" height="24" rx="4" fill="#b08d2f"/></svg>';
    const value = `**${found.word}** from the ${host} host\n\n![bar](data:image/svg+xml;base64,${btoa(picture)})`;
    return { contents: { kind: "markdown", value }, range: rangeOf(document, found) };
  });

  connection.onRenameRequest(({ textDocument, position, newName }) => {
    const document = documents.get(textDocument.uri);
    const found = document && wordAt(document.getText(), document.offsetAt(position));
    if (!document || !found) return null;
    const edits = placesOf(document.getText(), found.word).map((span) => ({
      range: rangeOf(document, span),
      newText: newName,
    }));
    return { changes: { [document.uri]: edits } };
  });

  connection.onDocumentSymbol(({ textDocument }) => {
    const document = documents.get(textDocument.uri);
    if (!document) return [];
    return [...document.getText().matchAll(/^[\p{L}\p{N}_]+/gmu)].map((match) => {
      const range = rangeOf(document, { start: match.index, end: match.index + match[0].length });
      return { name: match[0], kind: 12 as const, range, selectionRange: range };
    });
  });

  connection.onCodeAction(({ textDocument, context }) =>
    context.diagnostics
      .filter((diagnostic) => diagnostic.code === "louder")
      .map((diagnostic) => ({
        title: "Say “fuller” instead",
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnostic],
        isPreferred: true,
        edit: { changes: { [textDocument.uri]: [{ range: diagnostic.range, newText: "fuller" }] } },
      })),
  );

  documents.onDidChangeContent(({ document }) => {
    void connection.sendDiagnostics({
      uri: document.uri,
      version: document.version,
      diagnostics: findings(document.getText()).map((span) => ({
        range: rangeOf(document, span),
        severity: DiagnosticSeverity.Warning,
        source: "practice",
        code: "louder",
        message: "Ask for a fuller sound, not a louder one.",
      })),
    });
  });

  documents.listen(connection);
  connection.listen();
}
