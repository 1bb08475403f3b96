import * as vscode from "vscode";
import {
  type BaseLanguageClient,
  CodeLensRequest,
  InlayHintRequest,
  type Middleware,
} from "vscode-languageclient";

/** A switch of the settings: `leadpipe.inlayHints.enabled`. What is off is not even asked for. */
function isOn(name: "inlayHints" | "codeLens"): boolean {
  return vscode.workspace.getConfiguration("leadpipe").get<boolean>(`${name}.enabled`) ?? true;
}

/**
 * Documents that only show what another one holds or held, such as the left side of a comparison. To check them
 * again would say everything twice.
 */
function isShadow({ uri }: vscode.TextDocument): boolean {
  return /^(git|chat-|vscode-scm|vscode-local-history|output)/.test(uri.scheme);
}

/** Leaves out what the settings switch off, and documents that are shadows of others. */
export const presentation: Middleware = {
  provideInlayHints: (document, range, token, next) =>
    isOn("inlayHints") ? next(document, range, token) : undefined,
  provideCodeLenses: (document, token, next) => (isOn("codeLens") ? next(document, token) : undefined),
  didOpen: async (document, next) => {
    if (!isShadow(document)) await next(document);
  },
  didChange: async (event, next) => {
    if (!isShadow(event.document)) await next(event);
  },
  didClose: async (document, next) => {
    if (!isShadow(document)) await next(document);
  },
  provideDiagnostics: (document, previousResultId, token, next) =>
    document instanceof vscode.Uri || !isShadow(document)
      ? next(document, previousResultId, token)
      : undefined,
};

/** Shows a change of the settings at once. */
export function followSettings(client: BaseLanguageClient): vscode.Disposable {
  return vscode.workspace.onDidChangeConfiguration((event) => {
    for (const document of vscode.workspace.textDocuments) {
      if (event.affectsConfiguration("leadpipe.inlayHints"))
        client.getFeature(InlayHintRequest.method).getProvider(document)?.onDidChangeInlayHints.fire();
      if (event.affectsConfiguration("leadpipe.codeLens"))
        client.getFeature(CodeLensRequest.method).getProvider(document)?.onDidChangeCodeLensEmitter.fire();
    }
  });
}
