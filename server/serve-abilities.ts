import type { ClientCapabilities, InitializeParams } from "vscode-languageserver";
import type { CodeLensAbility } from "./features/code-lens";
import type { CompletionAbility } from "./features/completion";
import type { DiagnosticAbility } from "./features/diagnostics";
import type { HoverAbility } from "./features/hover";
import { isThemeKind, type ThemeKind } from "./pages/ink";
import type { LeadpipeOptions } from "./protocol/requests";

/** What the editor at the other end can do. What it does not say it can is not asked of it. */
export interface Abilities {
  readonly diagnostics: DiagnosticAbility & {
    /** It asks for findings when it wants them; otherwise they are sent as they come. */
    readonly pull: boolean;
    readonly refresh: boolean;
  };
  readonly completion: CompletionAbility;
  readonly hover: HoverAbility;
  readonly codeLens: CodeLensAbility & { readonly refresh: boolean };
  readonly inlayHints: { readonly refresh: boolean };
  readonly semanticTokens: { readonly refresh: boolean };
  readonly links: boolean;
  readonly tree: boolean;
  readonly prepareRename: boolean;
  /** Edits come as changes of documents of a version. */
  readonly documentChanges: boolean;
  readonly codeActionObjects: boolean;
  readonly folders: boolean;
  readonly configuration: boolean;
  readonly configurationChanges: boolean;
  readonly watching: boolean;
  readonly progress: boolean;
  readonly positionEncodings: boolean;
  /** The extension of this house is at the other end, and answers for files. */
  readonly files: boolean;
  readonly state: boolean;
  /** The kind of theme its hovers show pictures on; undefined where they show none. */
  readonly theme: ThemeKind | undefined;
}

/** What an editor says of itself when it starts, as far as this server asks. */
export function abilitiesOf(params: InitializeParams): Abilities {
  const capabilities: Partial<ClientCapabilities> = params.capabilities;
  const { textDocument, workspace, window, general } = capabilities;
  const options = optionsIn(params.initializationOptions);
  const shown = textDocument?.publishDiagnostics;
  const pulled = textDocument?.diagnostic;
  const shared = textDocument?.completion?.completionList?.itemDefaults;
  const formats = textDocument?.completion?.completionItem?.documentationFormat;
  return {
    diagnostics: {
      relatedInformation: (pulled?.relatedInformation ?? shown?.relatedInformation) === true,
      tags: (pulled?.tagSupport ?? shown?.tagSupport) !== undefined,
      pull: pulled !== undefined,
      refresh: workspace?.diagnostics?.refreshSupport === true,
    },
    completion: {
      snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
      markdown: formats?.includes("markdown") === true,
      shared: ["editRange", "data"].every((each) => shared?.includes(each) === true),
    },
    hover: { markdown: textDocument?.hover?.contentFormat?.includes("markdown") === true },
    codeLens: { commands: options.state === true, refresh: workspace?.codeLens?.refreshSupport === true },
    inlayHints: { refresh: workspace?.inlayHint?.refreshSupport === true },
    semanticTokens: { refresh: workspace?.semanticTokens?.refreshSupport === true },
    links: textDocument?.definition?.linkSupport === true,
    tree: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    prepareRename: textDocument?.rename?.prepareSupport === true,
    documentChanges: workspace?.workspaceEdit?.documentChanges === true,
    codeActionObjects: textDocument?.codeAction?.codeActionLiteralSupport !== undefined,
    folders: workspace?.workspaceFolders === true,
    configuration: workspace?.configuration === true,
    configurationChanges: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    watching: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    progress: window?.workDoneProgress === true,
    positionEncodings: general?.positionEncodings !== undefined,
    files: options.files === true,
    state: options.state === true,
    theme: options.theme,
  };
}

function optionsIn(value: unknown): LeadpipeOptions {
  if (typeof value !== "object" || value === null) return {};
  return {
    files: "files" in value && value.files === true,
    state: "state" in value && value.state === true,
    ...("theme" in value && isThemeKind(value.theme) ? { theme: value.theme } : {}),
  };
}
