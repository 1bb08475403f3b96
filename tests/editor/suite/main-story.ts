import * as vscode from "vscode";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, codeOf, finding, gone, put, sample, show, textBecomes } from "./plans";

const LINE = '"From the bridge"  in C  for 10 min';
/** Milliseconds from a key pressed to the day marked: a moment. The bench measures the server more sharply. */
const MOMENT_MS = 2000;

/** What a teacher lives through: a key too high, the mark, the mend, and undo. */
export async function mainStory(): Promise<void> {
  await leadpipe();
  const uri = sample("2026-27", "summer.practice");
  const editor = await show(uri);
  const { document } = editor;
  const before = document.getText();
  await finding(uri, "what a checked plan has", (each) => codeOf(each) === "walk-restarts");
  const tooHigh = (each: vscode.Diagnostic): boolean =>
    codeOf(each) === "day-upper" && each.range.contains(at(document, '"From the bridge"  in'));
  same(vscode.languages.getDiagnostics(uri).some(tooHigh), false);

  // The key of a Tuesday evening is raised from C to F.
  put(editor, LINE, LINE.indexOf("C"));
  const key = new vscode.Range(editor.selection.active, editor.selection.active.translate(0, 1));
  const begun = performance.now();
  await editor.edit((edit) => edit.replace(key, "F"));
  const mark = await finding(uri, "a Tuesday too high", tooHigh);
  const took = performance.now() - begun;
  console.log(`        marked after ${took.toFixed(0)} ms`);
  if (took > MOMENT_MS) throw new Error(`the mark took ${took.toFixed(0)} ms`);
  same(mark.severity, vscode.DiagnosticSeverity.Warning);
  has(mark.message, "Tue 2027-06-29: 5:28 in the upper register for Seniors, of 5:00 at most");
  has(mark.message, "Most of it: “From the bridge” in F major, 4:48");

  // The mend that is offered takes the mark away.
  const raised = document.getText();
  const mend = await mendFor(uri, mark);
  await vscode.workspace.applyEdit(mend);
  if (document.getText() === raised) throw new Error("the mend changed nothing");
  await gone(uri, "the mark", tooHigh);

  // Undo takes the mend back, and the mark is there again; once more, and all is as it was.
  const back = textBecomes(document, raised);
  await vscode.commands.executeCommand("undo");
  await back;
  await finding(uri, "the mark after undo", tooHigh);
  const restored = textBecomes(document, before);
  await vscode.commands.executeCommand("undo");
  await restored;
  await gone(uri, "the mark after a second undo", tooHigh);
}

/** The first mend of a finding that changes the plan, worked out as it is when a teacher opens the menu. */
async function mendFor(uri: vscode.Uri, mark: vscode.Diagnostic): Promise<vscode.WorkspaceEdit> {
  const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
    "vscode.executeCodeActionProvider",
    uri,
    mark.range,
    vscode.CodeActionKind.QuickFix.value,
    20,
  );
  const titles = actions.map((action) => action.title);
  const mend = actions.find((action) => action.title.includes("E major"));
  if (mend?.edit === undefined) throw new Error(`no mend with a lower key among: ${titles.join(" / ")}`);
  console.log(`        offered: ${titles.join(" / ")}`);
  return mend.edit;
}
