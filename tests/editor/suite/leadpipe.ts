import * as vscode from "vscode";
import type { Leadpipe } from "../../../client/activate";
import { extensionId } from "../extension-id";

/** The extension under test, whether it runs yet or not. */
export function extension(): vscode.Extension<Leadpipe> {
  const found = vscode.extensions.getExtension<Leadpipe>(extensionId);
  if (found === undefined) throw new Error("the extension is not installed");
  return found;
}

/** What the extension exports, once its server has answered. */
export async function leadpipe(): Promise<Leadpipe> {
  const exports = await extension().activate();
  await exports.ready;
  return exports;
}
