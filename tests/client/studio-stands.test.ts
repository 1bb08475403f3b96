import { beforeEach, expect, test, vi } from "vitest";
import * as vscode from "vscode";
import { tellStudioStands } from "../../client/studio-stands";

const editor = vi.hoisted(() => ({
  open: undefined as string | undefined,
  chosen: undefined as string | undefined,
  shown: [] as string[],
  opened: [] as unknown[],
}));

vi.mock("vscode", () => ({
  Uri: { file: (path: string) => ({ path }) },
  l10n: { t: (words: string) => words },
  workspace: {
    getWorkspaceFolder: ({ path }: { path: string }) =>
      path === editor.open ? { uri: { path } } : undefined,
  },
  window: {
    showInformationMessage: async (_words: string, ...buttons: string[]) => {
      editor.shown = buttons;
      return editor.chosen;
    },
  },
  commands: { executeCommand: async (...asked: unknown[]) => void editor.opened.push(asked) },
}));

beforeEach(() => Object.assign(editor, { open: undefined, chosen: undefined, shown: [], opened: [] }));

const folder = vscode.Uri.file("/studio");

test("a studio in a folder that is not open comes with the offer to open it", async () => {
  await tellStudioStands(folder);
  expect(editor.shown).toEqual(["Open the Folder"]);
  expect(editor.opened).toEqual([]);
});

test("which is opened where the teacher takes the offer", async () => {
  editor.chosen = "Open the Folder";
  await tellStudioStands(folder);
  expect(editor.opened).toEqual([["vscode.openFolder", folder]]);
});

test("one in the folder that is open needs no offer", async () => {
  editor.open = folder.path;
  await tellStudioStands(folder);
  expect(editor.shown).toEqual([]);
});
