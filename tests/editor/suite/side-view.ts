import * as vscode from "vscode";
import type { Leadpipe } from "../../../client/activate";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { put, sample, show } from "./plans";
import { when } from "./when";

/** Resolves once the side view shows the term of this title. */
async function showing(pipe: Leadpipe, title: string): Promise<void> {
  await when(
    pipe.onDidRefreshTerm,
    // While plans are still read in, a term may lack those who play it.
    () => (pipe.term()?.title === title && (pipe.term()?.weeks.length ?? 0) > 0) || undefined,
    `the term “${title}” in the side view`,
    () => [pipe.term()?.title ?? "nothing"],
  );
}

/** The rows below a row as the editor shows them: what they say, and what Enter does on them. */
async function rowsOf(
  { rows }: Leadpipe,
  parent?: Parameters<NonNullable<Leadpipe["rows"]["getChildren"]>>[0],
) {
  const children = (await rows.getChildren(parent)) ?? [];
  return Promise.all(children.map(async (row) => ({ row, item: await rows.getTreeItem(row) })));
}

/** Every week and day with its figures; Enter leads to the line; another plan brings another term. */
export async function sideView(): Promise<void> {
  const pipe = await leadpipe();
  const editor = await show(sample("2026-27", "summer.practice"));
  put(editor, 'term "Summer 2027, seniors"');
  await vscode.commands.executeCommand("leadpipe.showTerm");
  await showing(pipe, "Summer 2027, seniors");
  const weeks = await rowsOf(pipe);
  has(weeks.map(({ item }) => String(item.label)).join(" / "), "Week 11");
  const eleventh = weeks.find(({ item }) => item.label === "Week 11");
  const days = await rowsOf(pipe, eleventh?.row);
  const tuesday = days.find(({ item }) => item.label === "Tue 29 Jun");
  if (tuesday === undefined) throw new Error("no Tuesday in week 11");
  has(String(tuesday.item.description), "clock 35:50 of 45:00");
  has(tuesday.item.accessibilityInformation?.label ?? "", "Tue 29 Jun, within");
  has(tuesday.item.accessibilityInformation?.label ?? "", "Upper register 0:40 of 5:00");
  const figures = await rowsOf(pipe, tuesday.row);
  same(figures.map(({ item }) => item.label).join(), "Clock,Playing,Upper register,Longest stretch");

  // A concert is told as one, whatever else the day is.
  const tenth = weeks.find(({ item }) => item.label === "Week 10");
  const concert = (await rowsOf(pipe, tenth?.row)).find(({ item }) => item.label === "Sat 26 Jun");
  has(String(concert?.item.description), "concert");
  has(String(concert?.item.description), "Lock fair");

  const { command } = tuesday.item;
  if (command === undefined) throw new Error("a row that leads nowhere");
  await vscode.commands.executeCommand(command.command, ...(command.arguments ?? []));
  // The day begins with the morning's routine.
  await when(
    vscode.window.onDidChangeTextEditorSelection,
    () => {
      const active = vscode.window.activeTextEditor;
      const text = active?.document.lineAt(active.selection.active.line).text;
      return text?.includes('"Morning" routine') === true || undefined;
    },
    "the line of the Tuesday",
  );

  const other = await show(sample("2026-27", "spring.practice"));
  put(other, 'term "Spring 2027, first-years"');
  await showing(pipe, "Spring 2027, first-years");
  put(other, 'term "Spring 2027, seniors"');
  await showing(pipe, "Spring 2027, seniors");
  // A book holds no term: the one that was looked at stays.
  await show(sample("book.practice"));
  await showing(pipe, "Spring 2027, seniors");
}

/** What a day asks stands in the status bar. */
export async function statusItem(): Promise<void> {
  const pipe = await leadpipe();
  const editor = await show(sample("2026-27", "summer.practice"));
  put(editor, '"From the bridge"  in');
  await when(
    pipe.onDidRefreshStatus,
    () => (/Tue (29 Jun|6 Jul) · within · .* of /.test(pipe.status()) ? true : undefined),
    "the Tuesday in the status bar",
    () => [pipe.status()],
  );
}
