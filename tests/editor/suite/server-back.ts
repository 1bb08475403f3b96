import * as vscode from "vscode";
import type { Leadpipe } from "../../../client/activate";
import { has } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, hoverWith, sample, show } from "./plans";
import { when } from "./when";

/** Ends the server as a crash would, and waits for what becomes of it. */
async function ends(pipe: Leadpipe, state: "ready" | "stopped"): Promise<void> {
  const states: string[] = [];
  const listening = pipe.onDidChangeServerState((each) => states.push(each));
  pipe.endServer();
  await when(
    pipe.onDidChangeServerState,
    () => (states.at(-1) === state ? true : undefined),
    `a server that is ${state}`,
    () => states,
  );
  listening.dispose();
}

/** A server that ended is started anew; after the fourth end a person is asked, and the command starts it again. */
export async function serverBack(): Promise<void> {
  const pipe = await leadpipe();
  const { document } = await show(sample("2026-27", "summer.practice"));
  const answers = async (): Promise<unknown> =>
    hoverWith(document.uri, at(document, '"From the bridge"  in', 3), "Long tones");
  await answers();
  await ends(pipe, "ready");
  await answers();
  await ends(pipe, "ready");
  await ends(pipe, "ready");
  await answers();
  await ends(pipe, "stopped");
  has(pipe.serverState(), "stopped");
  await vscode.commands.executeCommand("leadpipe.restart");
  has(pipe.serverState(), "ready");
  await answers();
}
