import {
  type FileOperationRegistrationOptions,
  type InitializeResult,
  PositionEncodingKind,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import { version } from "../package.json";
import { CODE_ACTION_KINDS } from "./features/code-actions";
import { COMPLETION_TRIGGERS } from "./features/completion";
import { ON_TYPE_TRIGGERS } from "./features/on-type-formatting";
import { SEMANTIC_TOKENS_LEGEND } from "./features/semantic-tokens";
import type { Abilities } from "./serve-abilities";

/** Files that come and go by the editor's own hand; a folder takes its plans along, so folders count as well. */
const FILES_AND_FOLDERS: FileOperationRegistrationOptions = {
  filters: [
    { pattern: { glob: "**/*.practice", matches: "file" } },
    { pattern: { glob: "**", matches: "folder" } },
  ],
};

/** What the server offers this editor. */
export function capabilitiesFor(can: Abilities): InitializeResult {
  return {
    serverInfo: { name: "leadpipe", version },
    capabilities: {
      ...(can.positionEncodings ? { positionEncoding: PositionEncodingKind.UTF16 } : {}),
      textDocumentSync: {
        openClose: true,
        change: TextDocumentSyncKind.Incremental,
        save: { includeText: false },
      },
      codeActionProvider: can.codeActionObjects ? { codeActionKinds: [...CODE_ACTION_KINDS] } : false,
      codeLensProvider: { resolveProvider: false },
      completionProvider: { triggerCharacters: [...COMPLETION_TRIGGERS], resolveProvider: true },
      definitionProvider: true,
      documentFormattingProvider: true,
      documentHighlightProvider: true,
      documentLinkProvider: { resolveProvider: false },
      documentOnTypeFormattingProvider: {
        firstTriggerCharacter: ON_TYPE_TRIGGERS.first,
        moreTriggerCharacter: [...ON_TYPE_TRIGGERS.more],
      },
      documentRangeFormattingProvider: true,
      documentSymbolProvider: true,
      foldingRangeProvider: true,
      hoverProvider: true,
      inlayHintProvider: { resolveProvider: false },
      referencesProvider: true,
      renameProvider: can.prepareRename ? { prepareProvider: true } : true,
      selectionRangeProvider: true,
      semanticTokensProvider: { legend: SEMANTIC_TOKENS_LEGEND, full: true, range: true },
      workspaceSymbolProvider: true,
      ...(can.diagnostics.pull
        ? {
            diagnosticProvider: {
              identifier: "leadpipe",
              interFileDependencies: true,
              workspaceDiagnostics: true,
            },
          }
        : {}),
      workspace: {
        workspaceFolders: { supported: true, changeNotifications: can.folders },
        fileOperations: {
          didCreate: FILES_AND_FOLDERS,
          didRename: FILES_AND_FOLDERS,
          didDelete: FILES_AND_FOLDERS,
        },
      },
    },
  };
}
