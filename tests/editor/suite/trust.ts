import * as vscode from "vscode";
import { same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, codeOf, finding, hoverWith, sample, show } from "./plans";

/**
 * Nothing of a plan is ever run, so its folder need not be trusted. The browser's host is opened with one that nobody
 * has trusted, the workspace's host with one that is.
 */
export async function anyTrust(): Promise<void> {
  await leadpipe();
  same(vscode.workspace.isTrusted, typeof process !== "undefined");
  const { document } = await show(sample("2026-27", "summer.practice"));
  await finding(document.uri, "what a checked plan has", (each) => codeOf(each) === "walk-restarts");
  await hoverWith(document.uri, at(document, '"From the bridge"  in', 3), "Long tones");
}
