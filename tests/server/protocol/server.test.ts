import { spawn } from "node:child_process";
import { once } from "node:events";
import { rmSync, unlinkSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import {
  CodeActionRequest,
  type CompletionContext,
  CompletionRequest,
  DefinitionRequest,
  type Diagnostic,
  DidChangeWatchedFilesNotification,
  DidChangeWorkspaceFoldersNotification,
  DidCreateFilesNotification,
  DidSaveTextDocumentNotification,
  DocumentDiagnosticRequest,
  DocumentSymbolRequest,
  HoverRequest,
  InlayHintRequest,
  LSPErrorCodes,
  PrepareRenameRequest,
  RegistrationRequest,
  RenameRequest,
  SemanticTokensRequest,
  WorkspaceDiagnosticRequest,
} from "vscode-languageserver/node";
import { NEW_STUDIO_REQUEST, TERM_VIEW_REQUEST, type TermView } from "../../../server/protocol/requests";
import { Folder, SMALL } from "../cli/command";
import { bundledServer, Editor, uriOf } from "./editor";

const folders: Folder[] = [];
const editors: Editor[] = [];

afterEach(() => {
  for (const editor of editors.splice(0)) editor.child?.kill("SIGKILL");
  for (const folder of folders.splice(0)) folder.remove();
});

const [AREA = "", EXERCISE = "", LEVEL = "", STUDENT = "", TERM = ""] = SMALL.split(/\n(?=\w)/).map(
  (part) => `${part}\n`,
);
const USES = 'use "book.practice"\nuse "players.practice"\n';

/** A studio in three files, so that what is done reaches across them. */
function studio(more: Readonly<Record<string, string | Uint8Array>> = {}) {
  const folder = new Folder({
    "book.practice": `${AREA}${EXERCISE}`,
    "players.practice": `${LEVEL}${STUDENT}`,
    "autumn.practice": `${USES}${TERM}`,
    ...more,
  });
  folders.push(folder);
  const editor = Editor.beside();
  editors.push(editor);
  const uri = (name: string): string => uriOf(join(folder.path, name));
  return {
    folder,
    editor,
    uri,
    root: uriOf(folder.path),
    autumn: uri("autumn.practice"),
    book: uri("book.practice"),
    autumnText: `${USES}${TERM}`,
    bookText: `${AREA}${EXERCISE}`,
  };
}

const codesOf = (diagnostics: readonly { readonly code?: unknown }[]): unknown[] =>
  diagnostics.map(({ code }) => code);
const has =
  (code: string) =>
  (diagnostics: readonly { readonly code?: unknown }[]): boolean =>
    codesOf(diagnostics).includes(code);
const hasNot =
  (code: string) =>
  (diagnostics: readonly { readonly code?: unknown }[]): boolean =>
    !codesOf(diagnostics).includes(code);

/** An editor that can do everything the server asks about. */
const MAXIMAL = {
  general: { positionEncodings: ["utf-8", "utf-16"] },
  workspace: {
    workspaceFolders: true,
    didChangeWatchedFiles: { dynamicRegistration: true },
    workspaceEdit: { documentChanges: true },
    diagnostics: { refreshSupport: true },
  },
  textDocument: {
    completion: { completionItem: { snippetSupport: true, documentationFormat: ["markdown" as const] } },
    hover: { contentFormat: ["markdown" as const] },
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    rename: { prepareSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } },
    diagnostic: { relatedInformation: true },
  },
};

describe("shaking hands", () => {
  test("with an editor that can do next to nothing", async () => {
    const { editor, root } = studio();
    const { capabilities, serverInfo } = await editor.initialize([root]);
    expect(serverInfo?.name).toBe("leadpipe");
    expect(capabilities.positionEncoding).toBeUndefined();
    expect(capabilities.diagnosticProvider).toBeUndefined();
    expect(capabilities.renameProvider).toBe(true);
    expect(capabilities.codeActionProvider).toBe(false);
    expect(capabilities.textDocumentSync).toMatchObject({ openClose: true, change: 2 });
    expect(await editor.leave()).toBe(0);
  });

  test("with one that can do everything", async () => {
    const { editor, root } = studio();
    const { capabilities } = await editor.initialize([root], MAXIMAL);
    expect(capabilities.positionEncoding).toBe("utf-16");
    expect(capabilities.diagnosticProvider).toMatchObject({ interFileDependencies: true });
    expect(capabilities.renameProvider).toEqual({ prepareProvider: true });
    expect(capabilities.codeActionProvider).toMatchObject({ codeActionKinds: expect.any(Array) });
    expect(await editor.leave()).toBe(0);
  });

  test("files are watched where the editor lets itself be asked", async () => {
    const { editor, root } = studio();
    const asked = new Promise<unknown>((resolve) => {
      editor.connection.onRequest(RegistrationRequest.type, ({ registrations }) => resolve(registrations));
    });
    await editor.initialize([root], MAXIMAL);
    expect(await asked).toMatchObject([
      {
        method: "workspace/didChangeWatchedFiles",
        registerOptions: { watchers: [{ globPattern: "**/*.practice" }, { globPattern: "**", kind: 4 }] },
      },
    ]);
  });
});

describe("findings", () => {
  test("are sent of the file that is open and of those that are not, and taken back", async () => {
    const { editor, root, autumn, autumnText, book } = studio({ "spare.practice": "term\n" });
    await editor.initialize([root]);
    const spare = `${root}/spare.practice`;
    await editor.findings(spare, (found) => found.length > 0);
    await editor.open(autumn, autumnText);
    await editor.findings(autumn, hasNot("unknown-name"));
    await editor.replace(autumn, '"Fifths" keys', '"Fifth" keys');
    const [found] = await editor.findings(autumn, has("unknown-name"));
    expect(found?.message).toContain("Fifths");
    expect(found?.range.start).toEqual(editor.positionOf(autumn, '"Fifth"'));
    await editor.replace(autumn, '"Fifth"', '"Fifths"');
    await editor.findings(autumn, hasNot("unknown-name"));
    expect(editor.sent.get(autumn)?.version).toBe(3);
    expect(editor.sent.has(book)).toBe(false);
  });

  test("reach from one open file into another", async () => {
    const { editor, root, autumn, autumnText, book, bookText } = studio();
    await editor.initialize([root]);
    await editor.open(autumn, autumnText);
    await editor.open(book, bookText);
    await editor.findings(autumn, hasNot("unknown-name"));
    await editor.replace(book, 'exercise "Fifths"', 'exercise "Sixths"');
    await editor.findings(autumn, has("unknown-name"));
    await editor.close(book);
    await editor.findings(autumn, hasNot("unknown-name"));
  });

  test("are answered where the editor asks, and unchanged ones are not sent again", async () => {
    const { editor, root, autumn, autumnText, book, bookText } = studio();
    let refreshed = 0;
    const refresh = new Promise<void>((resolve) => {
      editor.connection.onRequest("workspace/diagnostic/refresh", () => {
        refreshed++;
        resolve();
        return null;
      });
    });
    editor.connection.onRequest(RegistrationRequest.type, () => {});
    await editor.initialize([root], MAXIMAL);
    // The first answer for all files comes when all are read.
    const all = await editor.connection.sendRequest(WorkspaceDiagnosticRequest.type, {
      previousResultIds: [],
    });
    expect(all.items.length).toBeGreaterThan(0);
    await editor.open(autumn, autumnText.replace("twice", "40 times"));
    const textDocument = { uri: autumn };
    const first = await editor.connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument });
    if (first.kind !== "full") return expect.fail("a first answer must be whole");
    expect(codesOf(first.items)).toContain("session-minutes");
    const again = await editor.connection.sendRequest(DocumentDiagnosticRequest.type, {
      textDocument,
      previousResultId: first.resultId ?? "",
    });
    expect(again).toEqual({ kind: "unchanged", resultId: first.resultId });
    // What another file does to this one, the editor is told to ask for.
    await editor.open(book, bookText.replace("Fifths", "Sixths"));
    await refresh;
    const after = await editor.connection.sendRequest(DocumentDiagnosticRequest.type, {
      textDocument,
      previousResultId: first.resultId ?? "",
    });
    expect(after.kind === "full" && codesOf(after.items)).toContain("unknown-name");
    expect(refreshed).toBeGreaterThan(0);
    expect(editor.sent.size).toBe(0);
  });

  test("point to where another file has what they speak of now, asked for or sent", async () => {
    const can = { textDocument: { publishDiagnostics: { relatedInformation: true } } };
    const places = (found: readonly Diagnostic[]) =>
      found.flatMap(({ relatedInformation }) =>
        (relatedInformation ?? []).map(({ message, location }) => `${message} ${location.range.start.line}`),
      );
    for (const asks of [true, false]) {
      const { editor, root, autumn, autumnText, uri, folder } = studio();
      const players = uri("players.practice");
      editor.connection.onRequest(RegistrationRequest.type, () => {});
      editor.connection.onRequest("workspace/diagnostic/refresh", () => null);
      await editor.initialize([root], asks ? MAXIMAL : can);
      const playersText = `${LEVEL.replace("playing at most 28 min", "playing at most 1 min")}${STUDENT}`;
      folder.write("players.practice", playersText);
      await editor.open(players, playersText);
      await editor.open(autumn, autumnText.replace("twice", "40 times"));
      const pull = async (previousResultId?: string) => {
        const report = await editor.connection.sendRequest(DocumentDiagnosticRequest.type, {
          textDocument: { uri: autumn },
          ...(previousResultId === undefined ? {} : { previousResultId }),
        });
        return report.kind === "full" ? report : expect.fail("an answer that says nothing new");
      };
      const before = asks ? await pull() : undefined;
      const found = before?.items ?? (await editor.findings(autumn, (each) => places(each).length > 0));
      const [budget = ""] = places(found).filter((each) => each.startsWith("the budget"));
      expect(budget).toMatch(/\d/);
      await editor.replace(players, "level", 'area "More"\nlevel');
      const moved = `the budget ${Number(budget.replace(/\D/g, "")) + 1}`;
      if (asks) expect(places((await pull(before?.resultId)).items)).toContain(moved);
      else await editor.findings(autumn, (each) => places(each).includes(moved));
    }
  });

  test("of all files: who asks again waits until there is something new", async () => {
    const { editor, root, autumn, autumnText } = studio();
    editor.connection.onRequest(RegistrationRequest.type, () => {});
    editor.connection.onRequest("workspace/diagnostic/refresh", () => null);
    await editor.initialize([root], MAXIMAL);
    const ask = (known: readonly { readonly uri: string; readonly value: string }[]) =>
      editor.connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [...known] });
    const first = await ask([]);
    const known = first.items.map(({ uri, resultId }) => ({ uri, value: resultId ?? "" }));
    let answered = false;
    const second = ask(known).then((report) => {
      answered = true;
      return report;
    });
    // Another request is answered in between: the one that waits keeps nobody.
    await editor.open(autumn, autumnText);
    await editor.connection.sendRequest(DocumentSymbolRequest.type, { textDocument: { uri: autumn } });
    await editor.replace(autumn, "twice", "40 times");
    const report = await second;
    expect(answered).toBe(true);
    const changed = report.items.find(({ uri }) => uri === autumn);
    expect(changed?.kind === "full" && codesOf(changed.items)).toContain("session-minutes");
  });
});

describe("what an editor asks for", () => {
  test("hover, completion, definition, outline, colours, hints, code actions", async () => {
    const { editor, root, autumn, autumnText, book } = studio();
    const { diagnostic: _, ...textDocumentWithout } = MAXIMAL.textDocument;
    const can = { ...MAXIMAL, textDocument: textDocumentWithout };
    editor.connection.onRequest(RegistrationRequest.type, () => {});
    await editor.initialize([root], can);
    await editor.open(autumn, autumnText.replace("twice", "40 times"));
    await editor.findings(autumn, has("session-minutes"));
    const textDocument = { uri: autumn };
    const onName = editor.positionOf(autumn, '"Fifths"', 3);

    const hover = await editor.connection.sendRequest(HoverRequest.type, { textDocument, position: onName });
    expect(JSON.stringify(hover?.contents)).toContain("Fifths");
    const completion = await editor.connection.sendRequest(CompletionRequest.type, {
      textDocument,
      position: editor.positionOf(autumn, '"Fifths"', 1),
    });
    expect(JSON.stringify(completion)).toContain("Fifths");
    const definition = await editor.connection.sendRequest(DefinitionRequest.type, {
      textDocument,
      position: onName,
    });
    expect(definition).toMatchObject([{ targetUri: book }]);
    const outline = await editor.connection.sendRequest(DocumentSymbolRequest.type, { textDocument });
    expect(outline?.at(-1)).toMatchObject({
      name: expect.stringContaining("Autumn"),
      children: expect.any(Array),
    });
    const colours = await editor.connection.sendRequest(SemanticTokensRequest.type, { textDocument });
    expect(colours?.data.length).toBeGreaterThan(0);
    const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const hints = await editor.connection.sendRequest(InlayHintRequest.type, { textDocument, range: whole });
    expect(hints?.length).toBeGreaterThan(0);
    const [finding] = editor.sent.get(autumn)?.diagnostics ?? [];
    if (finding === undefined) return expect.fail("no finding to act upon");
    const actions = await editor.connection.sendRequest(CodeActionRequest.type, {
      textDocument,
      range: finding.range,
      context: { diagnostics: [finding], triggerKind: 1 },
    });
    expect(actions?.length).toBeGreaterThan(0);
    for (const action of actions ?? []) {
      if ("edit" in action)
        expect(action.edit?.documentChanges).toMatchObject([{ textDocument: { version: 1 } }]);
    }
    const view = await editor.connection.sendRequest<TermView | null>(TERM_VIEW_REQUEST, {
      uri: autumn,
      position: onName,
    });
    expect(view?.title).toBe("Autumn");
    const made = await editor.connection.sendRequest(NEW_STUDIO_REQUEST, {
      level: "Seniors",
      stage: "senior",
      instrument: "trumpet in Bb",
      daysPerWeek: 5,
      minutes: 30,
      from: "2026-09-07",
      weeks: 4,
    });
    expect(made).toMatchObject({ files: expect.any(Array) });
  });

  test("nothing is offered unasked behind a line that is complete", async () => {
    const { editor, root, autumn, autumnText } = studio();
    await editor.initialize([root]);
    await editor.open(autumn, autumnText.replace("twice", "twice "));
    await editor.findings(autumn, hasNot("unknown-name"));
    const ask = (context: CompletionContext) =>
      editor.connection.sendRequest(CompletionRequest.type, {
        textDocument: { uri: autumn },
        position: editor.positionOf(autumn, "twice ", "twice ".length),
        context,
      });
    expect(await ask({ triggerKind: 2, triggerCharacter: " " })).toMatchObject({ items: [] });
    expect(await ask({ triggerKind: 1 })).toMatchObject({
      items: expect.arrayContaining([expect.anything()]),
    });
  });

  test("an editor without levels, links and versions is answered without them", async () => {
    const { editor, root, autumn, autumnText, book } = studio();
    await editor.initialize([root]);
    await editor.open(autumn, autumnText);
    await editor.findings(autumn, hasNot("unknown-name"));
    const textDocument = { uri: autumn };
    const position = editor.positionOf(autumn, '"Fifths"', 3);
    const outline = await editor.connection.sendRequest(DocumentSymbolRequest.type, { textDocument });
    expect(outline?.[0]).toMatchObject({ location: { uri: autumn } });
    const definition = await editor.connection.sendRequest(DefinitionRequest.type, {
      textDocument,
      position,
    });
    expect(definition).toMatchObject([{ uri: book }]);
    const renamed = await editor.connection.sendRequest(RenameRequest.type, {
      textDocument,
      position,
      newName: "Slow fifths",
    });
    expect(Object.keys(renamed?.changes ?? {}).sort()).toEqual([autumn, book].sort());
    const hover = await editor.connection.sendRequest(HoverRequest.type, { textDocument, position });
    expect(hover?.contents).toMatchObject({ kind: "plaintext" });
  });

  test("a rename that cannot be is refused in words", async () => {
    const { editor, root, autumn, autumnText } = studio();
    await editor.initialize([root], MAXIMAL);
    await editor.open(autumn, autumnText);
    const textDocument = { uri: autumn };
    const nowhere = editor.connection.sendRequest(PrepareRenameRequest.type, {
      textDocument,
      position: editor.positionOf(autumn, "practice Mon"),
    });
    await expect(nowhere).rejects.toMatchObject({ code: LSPErrorCodes.RequestFailed, message: /\w/ });
  });
});

describe("files", () => {
  test("that come, change and go on the disk", async () => {
    const { editor, root, autumn, autumnText, folder, uri } = studio();
    editor.connection.onRequest(RegistrationRequest.type, () => {});
    await editor.initialize([root], { workspace: MAXIMAL.workspace });
    await editor.open(autumn, autumnText);
    await editor.findings(autumn, hasNot("use-missing"));
    const changed = (name: string, type: 1 | 2 | 3): Promise<void> =>
      editor.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
        changes: [{ uri: uri(name), type }],
      });
    unlinkSync(join(folder.path, "book.practice"));
    await changed("book.practice", 3);
    await editor.findings(autumn, has("use-missing"));
    folder.write("book.practice", `${AREA}${EXERCISE.replace("Fifths", "Sixths")}`);
    await changed("book.practice", 1);
    await editor.findings(autumn, (found) => has("unknown-name")(found) && hasNot("use-missing")(found));
    folder.write("book.practice", `${AREA}${EXERCISE}`);
    await changed("book.practice", 2);
    await editor.findings(autumn, hasNot("unknown-name"));
  });

  test("in a folder that goes as a whole, of which alone is told", async () => {
    const { editor, root, autumn, autumnText, folder, uri } = studio({
      "old/spare.practice": "term\n",
      "older/spare.practice": "term\n",
    });
    editor.connection.onRequest(RegistrationRequest.type, () => {});
    await editor.initialize([root], { workspace: MAXIMAL.workspace });
    await editor.open(autumn, autumnText);
    const spare = uri("old/spare.practice");
    await editor.findings(spare, (found) => found.length > 0);
    rmSync(join(folder.path, "old"), { recursive: true });
    await editor.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
      changes: [{ uri: uri("old"), type: 3 }],
    });
    await editor.findings(spare, (found) => found.length === 0);
    expect(editor.sent.get(uri("older/spare.practice"))?.diagnostics.length).toBeGreaterThan(0);
  });

  test("of an editor that watches nothing: what it saves is read", async () => {
    const { editor, root, autumn, autumnText, folder, book } = studio();
    await editor.initialize([root]);
    await editor.open(autumn, autumnText);
    await editor.findings(autumn, hasNot("unknown-name"));
    folder.write("book.practice", `${AREA}${EXERCISE.replace("Fifths", "Sixths")}`);
    await editor.connection.sendNotification(DidSaveTextDocumentNotification.type, {
      textDocument: { uri: book },
    });
    await editor.findings(autumn, has("unknown-name"));
  });

  test("in several folders, one of which is closed", async () => {
    const one = studio({ "spare.practice": "term\n" });
    const other = new Folder({ "other.practice": "term\n" });
    folders.push(other);
    const { editor } = one;
    editor.connection.onRequest(RegistrationRequest.type, () => {});
    await editor.initialize([one.root, uriOf(other.path)], { workspace: { workspaceFolders: true } });
    const spare = one.uri("spare.practice");
    const there = uriOf(join(other.path, "other.practice"));
    await editor.findings(spare, (found) => found.length > 0);
    await editor.findings(there, (found) => found.length > 0);
    await editor.connection.sendNotification(DidChangeWorkspaceFoldersNotification.type, {
      event: { added: [], removed: [{ uri: uriOf(other.path), name: "other" }] },
    });
    await editor.findings(there, (found) => found.length === 0);
    expect(editor.sent.get(spare)?.diagnostics.length).toBeGreaterThan(0);
  });

  test("never saved lie in the first folder and may use what is there", async () => {
    const { editor, root } = studio();
    await editor.initialize([root]);
    await editor.open("untitled:Untitled-1", `${USES}${TERM.replace("Fifths", "Fifth")}`);
    const found = await editor.findings("untitled:Untitled-1", has("unknown-name"));
    expect(codesOf(found)).not.toContain("use-missing");
  });

  test("closed and never saved: how the editor wrote its address is forgotten", async () => {
    const { editor, root, folder, uri } = studio();
    await editor.initialize([root]);
    const oddly = `${root}/n%65w.practice`;
    await editor.open(oddly, "term\n");
    await editor.findings(oddly, (found) => found.length > 0);
    await editor.close(oddly);
    await editor.findings(oddly, (found) => found.length === 0);
    folder.write("new.practice", "term\n");
    await editor.connection.sendNotification(DidCreateFilesNotification.type, {
      files: [{ uri: uri("new.practice") }],
    });
    await editor.findings(uri("new.practice"), (found) => found.length > 0);
    expect(editor.sent.get(oddly)?.diagnostics).toEqual([]);
  });

  test("that are no plans say so and keep nobody", async () => {
    const { editor, root, autumn, autumnText } = studio({ "binary.practice": new Uint8Array([0, 159, 146]) });
    await editor.initialize([root]);
    const binary = `${root}/binary.practice`;
    await editor.findings(binary, has("file-not-text"));
    await editor.open(autumn, `${autumnText}${"# and so on\n".repeat(400_000)}`);
    await editor.findings(autumn, has("file-too-large"));
    await editor.open(`${root}/pasted.practice`, "a\u0000b");
    await editor.findings(`${root}/pasted.practice`, has("file-not-text"));
  });

  test("in words of any script and with letters beyond the basic plane", async () => {
    const { editor, root, autumn } = studio({ "Übung für 🎺 (neu).practice": `${AREA}${EXERCISE}` });
    await editor.initialize([root]);
    const text = `use "Übung für 🎺 (neu).practice"\nuse "players.practice"\n${TERM}`;
    await editor.open(autumn, text.replace('"Fifths"', '"🎺" # a horn\n      "Fifth"'));
    const found = await editor.findings(autumn, has("unknown-name"));
    expect(codesOf(found)).not.toContain("use-missing");
    const renamed = await editor.connection.sendRequest(DefinitionRequest.type, {
      textDocument: { uri: autumn },
      position: editor.positionOf(autumn, "Übung"),
    });
    expect(JSON.stringify(renamed)).toContain("%C3%9Cbung%20f%C3%BCr%20%F0%9F%8E%BA%20%28neu%29.practice");
  });
});

describe("the end", () => {
  test("without a farewell the number is 1", async () => {
    const { editor, root } = studio();
    await editor.initialize([root]);
    const ended = editor.ended();
    await editor.connection.sendNotification("exit");
    expect(await ended).toBe(1);
  });

  test("with its streams closed the server goes", async () => {
    const { editor, root } = studio();
    await editor.initialize([root]);
    const ended = editor.ended();
    editor.child?.stdin?.end();
    expect(await ended).not.toBeUndefined();
  });

  test("a server whose editor died goes too", async () => {
    // The editor here is a process that says hello for itself and then is killed; the server hears of it by its number.
    const parent = spawn(process.execPath, ["-e", "process.stdin.resume()"], {
      stdio: ["pipe", "ignore", "ignore"],
    });
    const server = spawn(process.execPath, [bundledServer(), "--stdio", `--clientProcessId=${parent.pid}`], {
      stdio: ["pipe", "pipe", "ignore"],
    });
    const ended = once(server, "exit");
    parent.kill("SIGKILL");
    await ended;
    expect(server.exitCode).not.toBeNull();
  });
});
