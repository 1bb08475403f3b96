import { type TextDocument, Uri } from "vscode";
import type { Middleware } from "vscode-languageclient";

/**
 * Documents that only show what another one holds or held, such as the left side of a comparison. To check them
 * again would say everything twice.
 */
function isShadow({ uri }: TextDocument): boolean {
  // Whole names where others begin alike: a studio may lie on a file system called `github` or `gitlab-remote`.
  return /^(git|gitfs|gitlens|chat-.*|vscode-scm|vscode-local-history|output)$/.test(uri.scheme);
}

/** Keeps shadows of other documents from the server. */
export const withoutShadows: Middleware = {
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
    document instanceof Uri || !isShadow(document) ? next(document, previousResultId, token) : undefined,
};
