import { describe, expect, test, vi } from "vitest";
import {
  type CancellationToken,
  CancellationTokenSource,
  type ClientCapabilities,
  type Diagnostic,
  DocumentDiagnosticRequest,
  DocumentSymbolRequest,
  FoldingRangeRequest,
  HoverRequest,
  LSPErrorCodes,
  PublishDiagnosticsNotification,
  WorkspaceDiagnosticRequest,
} from "vscode-languageserver/node";
import {
  FILES_REQUEST,
  STATE_NOTIFICATION,
  TEXT_REQUEST,
  type TextParams,
  type TextResult,
} from "../../../server/protocol/requests";
import type { Host } from "../../../server/serve";
import { FEATURES } from "../../../server/serve-features";
import { SnapshotFile } from "../../../server/workspace/snapshot";
import { SMALL } from "../cli/command";
import { Editor } from "./editor";

const HOST: Host = {
  now: () => performance.now(),
  turn: () => new Promise((resolve) => setImmediate(resolve)),
  disk: undefined,
};
const URI = "memfs:/studio/plan.practice";

describe("a feature that throws", () => {
  test("is logged once, answered with the last good result, and the others go on", async () => {
    let broken = false;
    const fail = (): never => {
      throw new Error("the reed is split");
    };
    const editor = Editor.inMemory(HOST, {
      ...FEATURES,
      hoverAt: fail,
      documentSymbols: (checked, path) => (broken ? fail() : FEATURES.documentSymbols(checked, path)),
    });
    await editor.initialize([]);
    await editor.open(URI, SMALL);
    const textDocument = { uri: URI };
    const good = await editor.connection.sendRequest(DocumentSymbolRequest.type, { textDocument });
    expect(good?.length).toBeGreaterThan(0);
    broken = true;
    const after = await editor.connection.sendRequest(DocumentSymbolRequest.type, { textDocument });
    expect(after).toEqual(good);
    const position = { line: 0, character: 2 };
    for (let i = 0; i < 3; i++) {
      expect(await editor.connection.sendRequest(HoverRequest.type, { textDocument, position })).toBeNull();
    }
    expect(await editor.log(/hover/)).toContain("the reed is split");
    expect(editor.logged.filter((line) => line.includes("hover"))).toHaveLength(1);
    const folds = await editor.connection.sendRequest(FoldingRangeRequest.type, { textDocument });
    expect(folds?.length).toBeGreaterThan(0);
  });

  test("in the findings leaves the marks as they were", async () => {
    let broken = false;
    const editor = Editor.inMemory(HOST, {
      ...FEATURES,
      diagnosticsOf: (...args) => {
        if (broken) throw new Error("the valve sticks");
        return FEATURES.diagnosticsOf(...args);
      },
    });
    await editor.initialize([]);
    await editor.open(URI, SMALL.replace("twice", "40 times"));
    await editor.findings(URI, (found) => found.length > 0);
    const before = editor.sent.get(URI);
    broken = true;
    await editor.replace(URI, "40 times", "41 times");
    await editor.log(/the valve sticks/);
    expect(editor.sent.get(URI)).toBe(before);
    broken = false;
    await editor.replace(URI, "41 times", "once");
    await editor.findings(URI, (found) => found.every(({ code }) => code !== "session-minutes"));
  });
});

describe("a rule that throws", () => {
  test("leaves the other files' findings to be asked for and told", async () => {
    const found = Object.getOwnPropertyDescriptor(SnapshotFile.prototype, "findings")?.get;
    vi.spyOn(SnapshotFile.prototype, "findings", "get").mockImplementation(function (this: SnapshotFile) {
      if (this.path.endsWith("broken.practice")) throw new Error("the slide is stuck");
      return found?.call(this) ?? [];
    });
    try {
      const editor = Editor.inMemory(HOST);
      await editor.initialize([], { textDocument: { diagnostic: {} } });
      await editor.open("memfs:/studio/broken.practice", "");
      await editor.open(URI, SMALL.replace("twice", "40 times"));
      const { items } = await editor.connection.sendRequest(WorkspaceDiagnosticRequest.type, {
        previousResultIds: [],
      });
      expect(items.map(({ uri }) => uri)).toEqual([URI]);
      expect(await editor.log(/broken/)).toContain("the slide is stuck");
    } finally {
      vi.restoreAllMocks();
    }
  });
});

describe("at the start", () => {
  const book = "memfs:/studio/book.practice";
  const plan = `use "book.practice"\n${SMALL.slice(SMALL.indexOf("level"))}`;

  const errorsOf = (diagnostics: readonly Diagnostic[]): unknown[] =>
    diagnostics.filter(({ severity }) => severity === 1).map(({ code }) => code);

  /** A server whose editor hands over the files only when it is let. */
  async function held(capabilities: ClientCapabilities) {
    const editor = Editor.inMemory(HOST);
    let release = (): void => {};
    const gate = new Promise<void>((resolve) => {
      release = resolve;
    });
    editor.connection.onRequest(FILES_REQUEST, async () => {
      await gate;
      return [book, URI];
    });
    editor.connection.onRequest<TextResult, void>(TEXT_REQUEST, ({ uri }: TextParams) =>
      uri === book
        ? { text: SMALL.slice(0, SMALL.indexOf("level")) }
        : uri === URI
          ? { text: plan }
          : { trouble: "missing" },
    );
    await editor.initialize(["memfs:/studio"], capabilities, { files: true });
    await editor.open(URI, plan);
    return { editor, release };
  }

  test("an editor that asks is told nothing to be missing that is only still being read", async () => {
    const { editor, release } = await held({ textDocument: { diagnostic: {} } });
    const asked = editor.connection.sendRequest(DocumentDiagnosticRequest.type, {
      textDocument: { uri: URI },
    });
    // What is asked for besides is answered from what is there.
    const outline = await editor.connection.sendRequest(DocumentSymbolRequest.type, {
      textDocument: { uri: URI },
    });
    expect(outline?.length).toBeGreaterThan(0);
    release();
    const report = await asked;
    expect(report.kind === "full" && errorsOf(report.items)).toEqual([]);
  });

  test("nor is one that is told; and it asks anew for what stands beside the lines", async () => {
    const refresh = { refreshSupport: true };
    const { editor, release } = await held({ workspace: { inlayHint: refresh, semanticTokens: refresh } });
    const told: unknown[] = [];
    editor.connection.onNotification(PublishDiagnosticsNotification.type, ({ diagnostics }) => {
      told.push(errorsOf(diagnostics));
    });
    const asked = ["workspace/inlayHint/refresh", "workspace/semanticTokens/refresh"].map(
      (method) =>
        new Promise<void>((resolve) => {
          editor.connection.onRequest(method, () => {
            resolve();
            return null;
          });
        }),
    );
    await editor.connection.sendRequest(DocumentSymbolRequest.type, { textDocument: { uri: URI } });
    release();
    await Promise.all(asked);
    expect(told.length).toBeGreaterThan(0);
    expect(told.flat()).toEqual([]);
  });

  test("an editor that refuses whatever it is asked for keeps nothing from being read", async () => {
    const { editor, release } = await held({
      window: { workDoneProgress: true },
      workspace: {
        configuration: true,
        didChangeConfiguration: { dynamicRegistration: true },
        didChangeWatchedFiles: { dynamicRegistration: true },
      },
    });
    release();
    expect(errorsOf(await editor.findings(URI, () => true))).toEqual([]);
    expect(editor.sent.get(URI)?.diagnostics.map(({ code }) => code)).toContain("walk-restarts");
  });

  test("an editor that names no folder at all is served", async () => {
    const editor = Editor.inMemory(HOST);
    await editor.connection.sendRequest("initialize", { processId: null, capabilities: {} });
    await editor.connection.sendNotification("initialized", {});
    await editor.open(URI, SMALL.replace("twice", "40 times"));
    await editor.findings(URI, (found) => found.some(({ code }) => code === "session-minutes"));
  });
});

describe("a request that is out of date is not worked on", () => {
  /** A server that turns to its answers only when it is let. */
  async function held() {
    let release = (): void => {};
    const gate = new Promise<void>((resolve) => {
      release = resolve;
    });
    let hovered = 0;
    const editor = Editor.inMemory(
      { ...HOST, turn: () => gate },
      {
        ...FEATURES,
        hoverAt: (...args) => {
          hovered++;
          return FEATURES.hoverAt(...args);
        },
      },
    );
    await editor.initialize([]);
    await editor.open(URI, SMALL);
    const ask = (token?: CancellationToken) =>
      editor.connection.sendRequest(
        HoverRequest.type,
        { textDocument: { uri: URI }, position: editor.positionOf(URI, '"Fifths"', 3) },
        token,
      );
    /** Comes back when the server has heard all that was sent before. */
    const heard = async (): Promise<void> => {
      await editor.connection.sendRequest("nobody/knows").catch(() => {});
    };
    return { editor, ask, heard, release, hovered: () => hovered };
  }

  test("since its text has changed", async () => {
    const { editor, ask, heard, release, hovered } = await held();
    const asked = expect(ask()).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
    await editor.replace(URI, "twice", "3 times");
    await heard();
    release();
    await asked;
    expect(hovered()).toBe(0);
    expect(await ask()).not.toBeNull();
  });

  test("since it was cancelled", async () => {
    const { ask, heard, release, hovered } = await held();
    const source = new CancellationTokenSource();
    const asked = expect(ask(source.token)).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    await heard();
    source.cancel();
    await heard();
    release();
    await asked;
    expect(hovered()).toBe(0);
  });
});

describe("a server without a disk", () => {
  /** An editor that speaks for files in memory. */
  function virtual(files: ReadonlyMap<string, string>): { editor: Editor; states: string[] } {
    const editor = Editor.inMemory(HOST);
    const states: string[] = [];
    editor.connection.onRequest(FILES_REQUEST, ({ folders }: { folders: readonly string[] }) =>
      [...files.keys()].filter((uri) => folders.some((folder) => uri.startsWith(`${folder}/`))),
    );
    editor.connection.onRequest<TextResult, void>(TEXT_REQUEST, ({ uri }: TextParams) => {
      const text = files.get(uri);
      return text === undefined ? { trouble: "missing" } : { text };
    });
    editor.connection.onNotification(STATE_NOTIFICATION, ({ state }: { state: string }) => {
      states.push(state);
    });
    return { editor, states };
  }

  const [AREA = "", EXERCISE = "", LEVEL = "", STUDENT = "", TERM = ""] = SMALL.split(/\n(?=\w)/).map(
    (part) => `${part}\n`,
  );

  test.each(["memfs:/studio", "vscode-vfs://host/owner/studio", "memfs:/st%C3%BCdio%20eins"])(
    "asks the editor for what lies in %s",
    async (root) => {
      const files = new Map([
        [`${root}/studio.practice`, AREA],
        [`${root}/lib/book.practice`, EXERCISE],
        [`${root}/terms/autumn.practice`, `use "../lib/book.practice"\n${LEVEL}${STUDENT}${TERM}`],
        [`${root}/terms/spare.practice`, "term\n"],
      ]);
      const { editor, states } = virtual(files);
      await editor.initialize([root], {}, { files: true, state: true });
      await editor.findings(`${root}/terms/spare.practice`, (found) => found.length > 0);
      const uri = `${root}/terms/autumn.practice`;
      await editor.open(uri, (files.get(uri) ?? "").replace("Fifths", "Fifth"));
      const found = await editor.findings(uri, (all) => all.some(({ code }) => code === "unknown-name"));
      expect(found.map(({ code }) => code)).not.toContain("use-missing");
      expect(states.slice(0, 2)).toEqual(["busy", "ready"]);
    },
  );

  test("takes no text for a plan that is none", async () => {
    const uri = "memfs:/studio/binary.practice";
    const { editor } = virtual(new Map([[uri, "a\u0000b"]]));
    await editor.initialize(["memfs:/studio"], {}, { files: true });
    await editor.findings(uri, (found) => found.some(({ code }) => code === "file-not-text"));
  });

  test("asks an editor that speaks for no files nothing, and checks what is open", async () => {
    const editor = Editor.inMemory(HOST);
    let asked = false;
    editor.connection.onRequest(FILES_REQUEST, () => {
      asked = true;
      return [];
    });
    await editor.initialize(["memfs:/studio"]);
    await editor.open(URI, SMALL.replace("twice", "40 times"));
    await editor.findings(URI, (found) => found.some(({ code }) => code === "session-minutes"));
    expect(asked).toBe(false);
  });
});
