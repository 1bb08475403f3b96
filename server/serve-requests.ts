import {
  type CancellationToken,
  CodeActionTriggerKind,
  type Connection,
  type DocumentSymbol,
  type HoverParams,
  LSPErrorCodes,
  ResponseError,
  type SymbolInformation,
} from "vscode-languageserver";
import { locationsOf } from "./features/definition";
import { isThemeKind } from "./pages/ink";
import {
  DAY_STATUS_REQUEST,
  type DayStatusResult,
  NEW_STUDIO_REQUEST,
  type NewStudioParams,
  type NewStudioResult,
  type PlaceParams,
  STUDIO_CHOICES_REQUEST,
  type StudioChoicesResult,
  TERM_VIEW_REQUEST,
  type TermViewResult,
  THEME_NOTIFICATION,
  type ThemeParams,
} from "./protocol/requests";
import type { Abilities } from "./serve-abilities";
import type { Addresses } from "./serve-addresses";
import type { Answers } from "./serve-answer";
import { shapedEdit } from "./serve-edits";
import type { Features } from "./serve-features";
import { type Pictures, pictured } from "./serve-pictures";
import type { Settings } from "./serve-settings";
import type { Checked } from "./workspace/checked";
import type { Workspace } from "./workspace/workspace";

/** What answering requests needs of the rest of the server. */
export interface RequestsGround {
  readonly connection: Connection;
  readonly workspace: Workspace;
  readonly addresses: Addresses;
  readonly answers: Answers;
  readonly features: Features;
  readonly can: Abilities;
  readonly settings: Settings;
  readonly versionOf: (path: string) => number | undefined;
  /** What draws notation; undefined where nothing does. */
  readonly pictures: Pictures | undefined;
}

/** Wires every request of the protocol to its feature. */
export function answerRequests(ground: RequestsGround): void {
  const { connection, workspace, addresses, answers, features, can, settings, versionOf } = ground;

  /** A request about a file; `kept` as in `Answers`. */
  function about<P extends { readonly textDocument: { readonly uri: string } }, R>(
    what: string,
    kept: boolean,
    fallback: R,
    work: (checked: Checked, path: string, params: P) => R,
  ): (params: P, token: CancellationToken) => Promise<R | ResponseError<never>> {
    return (params, token) => {
      const path = addresses.pathOf(params.textDocument.uri);
      return answers.about(what, path, token, () => work(workspace.checked, path, params), fallback, kept);
    };
  }

  const at = { once: false, kept: true } as const;

  const { pictures } = ground;
  let { theme } = can;
  connection.onNotification(THEME_NOTIFICATION, ({ kind }: ThemeParams) => {
    if (theme !== undefined && isThemeKind(kind)) theme = kind;
  });
  const hovered = about("hover", at.once, null, (checked, path, { position }: HoverParams) => {
    return features.hoverAt(checked, path, position, can.hover) ?? null;
  });
  const notated = about("hover notation", at.once, null, (checked, path, { position }: HoverParams) => {
    return features.hoverNotation(checked, path, position) ?? null;
  });
  connection.onHover(async (params, token) => {
    if (pictures === undefined || theme === undefined) return hovered(params, token);
    // The engraver is at work while the words are found.
    const notation = await notated(params, token);
    const shown = notation === null || notation instanceof ResponseError ? undefined : notation;
    const images = shown === undefined ? undefined : pictures.images(shown, theme, token);
    const hover = await hovered(params, token);
    if (hover === null || hover instanceof ResponseError || shown === undefined || images === undefined) {
      return hover;
    }
    return pictured(hover, shown, await images);
  });
  // Who types on while an answer is awaited filters it by what was typed. An answer refused would not be asked for
  // again, and nothing be offered.
  connection.onCompletion(({ textDocument, position, context }, token) =>
    answers.plain(
      "completion",
      token,
      () => {
        const path = addresses.pathOf(textDocument.uri);
        const { checked } = workspace;
        return features.completionAt(checked, path, position, can.completion, context?.triggerCharacter);
      },
      null,
    ),
  );
  connection.onCompletionResolve((item, token) =>
    answers.plain(
      "completion details",
      token,
      () => features.resolvedCompletion(workspace.checked, item, can.completion),
      item,
    ),
  );
  connection.onDefinition(
    about("definition", at.once, null, (checked, path, { position }) => {
      const links = features.definition(checked, path, position, addresses);
      return can.links ? links : locationsOf(links);
    }),
  );
  connection.onReferences(
    about("references", at.once, null, (checked, path, { position, context }) =>
      features.references(checked, path, position, context.includeDeclaration, addresses),
    ),
  );
  connection.onDocumentHighlight(
    about("highlights", at.once, null, (checked, path, { position }) =>
      features.documentHighlights(checked, path, position),
    ),
  );
  connection.onDocumentSymbol(
    about("outline", at.kept, null, (checked, path, { textDocument }) => {
      const symbols = features.documentSymbols(checked, path);
      return can.tree ? symbols : flat(symbols, textDocument.uri);
    }),
  );
  connection.onWorkspaceSymbol(({ query }, token) =>
    answers.plain(
      "symbols",
      token,
      () => features.workspaceSymbols(workspace.checked, query, addresses),
      null,
    ),
  );
  connection.onFoldingRanges(
    about("folding", at.kept, null, (checked, path) => features.foldingRanges(checked, path)),
  );
  connection.onSelectionRanges(
    about("selection", at.once, null, (checked, path, { positions }) =>
      features.selectionRanges(checked, path, positions),
    ),
  );
  connection.onDocumentLinks(
    about("links", at.kept, null, (checked, path) => features.documentLinks(checked, path, addresses)),
  );
  connection.onDocumentFormatting(
    about("formatting", at.once, null, (checked, path) => features.formatDocument(checked, path)),
  );
  connection.onDocumentRangeFormatting(
    about("formatting", at.once, null, (checked, path, { range }) =>
      features.formatRange(checked, path, range),
    ),
  );
  connection.onDocumentOnTypeFormatting(
    about("formatting", at.once, null, (checked, path, { position, ch }) =>
      features.formatOnType(checked, path, position, ch),
    ),
  );
  connection.languages.semanticTokens.on(
    about("colours", at.kept, { data: [] }, (checked, path) => features.semanticTokens(checked, path)),
  );
  connection.languages.semanticTokens.onRange(
    about("colours of a range", at.once, { data: [] }, (checked, path, { range }) =>
      features.semanticTokensInRange(checked, path, range),
    ),
  );
  connection.languages.inlayHint.on(
    about("inlay hints", at.once, null, (checked, path, { range }) =>
      settings.inlayHints ? features.inlayHintsIn(checked, path, range) : [],
    ),
  );
  connection.onCodeLens(
    about("code lenses", at.kept, null, (checked, path) =>
      settings.codeLens ? features.codeLensesOf(checked, path, can.codeLens, addresses) : [],
    ),
  );
  connection.onCodeAction(
    about("code actions", at.once, null, (checked, path, { range, context }) => {
      // An editor that does not say why it asks was told to.
      const invoked = context.triggerKind !== CodeActionTriggerKind.Automatic;
      const ask = { range, only: context.only, invoked };
      // An editor asks with every move of the cursor: other files are not checked for it.
      const file = workspace.checked.file(path);
      const known = file === undefined ? undefined : workspace.findingsNow(file);
      const actions = features.codeActionsAt(checked, path, ask, can.diagnostics, addresses, known);
      return actions.map((action) =>
        action.edit === undefined ? action : { ...action, edit: shaped(action.edit) },
      );
    }),
  );
  connection.onPrepareRename(
    about("rename", at.once, null, (checked, path, { position }) => {
      const found = features.prepareRename(checked, path, position);
      return "refused" in found ? refusal(found.refused) : found;
    }),
  );
  connection.onRenameRequest(
    about("rename", at.once, null, (checked, path, { position, newName }) => {
      const renamed = features.rename(checked, path, position, newName, addresses);
      return "refused" in renamed ? refusal(renamed.refused) : shaped(renamed.edit);
    }),
  );

  /** Our own requests name the file beside the position. */
  const inDocument = ({ uri, position }: PlaceParams) => ({ textDocument: { uri }, position });
  connection.onRequest<TermViewResult, void>(
    TERM_VIEW_REQUEST,
    (params: PlaceParams, token: CancellationToken) =>
      about<ReturnType<typeof inDocument>, TermViewResult>(
        "term view",
        at.once,
        null,
        (checked, path, asked) => {
          return features.termView(checked, path, asked.position, addresses) ?? null;
        },
      )(inDocument(params), token),
  );
  connection.onRequest<DayStatusResult, void>(
    DAY_STATUS_REQUEST,
    (params: PlaceParams, token: CancellationToken) =>
      about<ReturnType<typeof inDocument>, DayStatusResult>(
        "day status",
        at.once,
        null,
        (checked, path, asked) => {
          return features.dayStatus(checked, path, asked.position, addresses) ?? null;
        },
      )(inDocument(params), token),
  );
  connection.onRequest<NewStudioResult, void>(
    NEW_STUDIO_REQUEST,
    (params: NewStudioParams, token: CancellationToken) =>
      answers.plain<NewStudioResult>("new studio", token, () => features.newStudio(params), {
        trouble: "The files could not be written out.",
      }),
  );
  connection.onRequest<StudioChoicesResult | null, void>(
    STUDIO_CHOICES_REQUEST,
    (_: unknown, token: CancellationToken) =>
      answers.plain<StudioChoicesResult | null>("new studio", token, () => features.studioChoices(), null),
  );

  function shaped(edit: Parameters<typeof shapedEdit>[0]): ReturnType<typeof shapedEdit> {
    return shapedEdit(edit, can.documentChanges, (uri) => versionOf(addresses.pathOf(uri)) ?? null);
  }
}

/** A request that is refused says why, for the writer to read. */
function refusal(why: string): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.RequestFailed, why);
}

/** An outline for editors that show none with levels. */
function flat(symbols: readonly DocumentSymbol[], uri: string, containerName?: string): SymbolInformation[] {
  return symbols.flatMap(({ name, kind, selectionRange, children }) => [
    {
      name,
      kind,
      location: { uri, range: selectionRange },
      ...(containerName === undefined ? {} : { containerName }),
    },
    ...flat(children ?? [], uri, name),
  ]);
}
