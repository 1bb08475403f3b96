import * as vscode from "vscode";
import type { PrintAnswers } from "../../../client/print/print-pages";
import type { PrintWish } from "../../../client/print/print-wish";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, hoverWith, put, sample, show } from "./plans";
import { SampleFiles } from "./sample-files";

/** Where there are processes pages are PDF; a browser prints web pages itself. */
const ENDING = typeof process === "undefined" ? "html" : "pdf";

/** A first-year's days are short, and soon made. */
const MONDAY: PrintWish = {
  of: "term",
  term: "Summer 2027, first-years",
  player: "L. F.",
  apart: false,
  date: "2027-06-28",
  keys: "travelled",
  paper: "a4",
  large: false,
};

type Printing = readonly vscode.Uri[] | undefined;

function print(command: string, answers: PrintAnswers): Thenable<Printing> {
  return vscode.commands.executeCommand<Printing>(command, answers);
}

/** The text of a page file: all of a web page; of PDF what is not compressed, which its tree of pages is not. */
async function read(file: vscode.Uri): Promise<string> {
  return new TextDecoder("latin1").decode(await vscode.workspace.fs.readFile(file));
}

/** Fails where a file holds no pages; says how many it holds. */
function pagesIn(text: string): number {
  if (ENDING === "html") {
    has(text.slice(0, 40).toLowerCase(), "<!doctype html>");
    has(text, "<svg ");
    return text.split('class="sheet').length - 1;
  }
  same(text.slice(0, 5), "%PDF-");
  has(text.slice(-10), "%%EOF");
  return Number(/\/Type \/Pages\s+\/Count (\d+)/.exec(text)?.[1]);
}

/** A day goes into a file; what is there already is asked about; a locked place or an empty day leaves nothing. */
export async function printsDay(): Promise<void> {
  await leadpipe();
  const plan = sample("2026-27", "summer.practice");
  const { document } = await show(plan);
  await hoverWith(plan, at(document, '"From the bridge"  in', 3), "Long tones");
  const target = sample(`monday.${ENDING}`);
  const asked: string[] = [];
  const answers = (wish: PrintWish, may: boolean): PrintAnswers => ({
    wish,
    target,
    mayReplace: async (there) => {
      asked.push(...there.map((each) => each.toString()));
      return may;
    },
  });
  same((await print("leadpipe.printDay", answers(MONDAY, false)))?.length, 1);
  same(asked.length, 0);
  const monday = await read(target);
  same(pagesIn(monday) > 0, true);

  const tuesday = { ...MONDAY, date: "2027-06-29" };
  same((await print("leadpipe.printDay", answers(tuesday, false)))?.length, undefined);
  same(asked.join(), target.toString());
  same(await read(target), monday);
  await print("leadpipe.printDay", answers(tuesday, true));
  same((await read(target)) === monday, false);
  await vscode.workspace.fs.delete(target);

  // A Sunday, on which nobody practises: nothing is written, and no draft is left.
  same(
    (await print("leadpipe.printDay", answers({ ...MONDAY, date: "2027-06-27" }, true)))?.length,
    undefined,
  );
  const inside = await vscode.workspace.fs.readDirectory(sample());
  same(inside.filter(([name]) => name.startsWith("monday")).length, 0);
}

/** The week of all who play a term goes into a folder, a file for each of them. */
export async function printsWeek(): Promise<void> {
  await leadpipe();
  const plan = await show(sample("2026-27", "summer.practice"));
  put(plan, 'term "Summer 2027, first-years"');
  const folder = sample("sheets");
  await vscode.workspace.fs.createDirectory(folder);
  const { player: _, ...everybody } = MONDAY;
  const files = await print("leadpipe.printWeek", { wish: { ...everybody, apart: true }, target: folder });
  const names = files?.map((file) => file.path.split("/").at(-1)).join(" / ") ?? "";
  same(names, `First-years, week of 2027-06-28.${ENDING} / L. F., week of 2027-06-28.${ENDING}`);
  // An overview, and each day on a page of its own.
  for (const file of files ?? []) same(pagesIn(await read(file)) >= 4, true);
  await vscode.workspace.fs.delete(folder, { recursive: true });
}

const PLAN = `area "Songs"
exercise "Short song" {
  in "Songs"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/1 C5 | 1/2 E5 C5 | }
}
`;

/** A packet of a book that lies on no disk is written through the editor; where nothing may be written, nothing is. */
export async function printsPacket(): Promise<void> {
  await leadpipe();
  const registered = vscode.workspace.registerFileSystemProvider("sample", new SampleFiles(), {
    isCaseSensitive: true,
  });
  const locked = new SampleFiles();
  const shutAway = vscode.workspace.registerFileSystemProvider("locked", locked, { isReadonly: true });
  try {
    const book = vscode.Uri.parse("sample:/print/book.practice");
    await vscode.workspace.fs.writeFile(book, new TextEncoder().encode(PLAN));
    const { document } = await show(book);
    await hoverWith(book, at(document, '"Short song"', 3), "Songs");
    const target = vscode.Uri.parse(`sample:/print/packet.${ENDING}`);
    const { player: _, term: __, date: ___, ...wish } = MONDAY;
    await print("leadpipe.printPacket", { wish: { ...wish, of: "book", keys: "all" }, target });
    const text = await read(target);
    if (ENDING === "html") for (const key of ["C major", "G major"]) has(text, key);
    // A title, the contents, and the area with its twelve keys.
    else same(pagesIn(text) >= 3, true);
    const shut = vscode.Uri.parse(`locked:/packet.${ENDING}`);
    const refused = await print("leadpipe.printPacket", {
      wish: { ...wish, of: "book", keys: "home" },
      target: shut,
    });
    same(refused?.length, undefined);
    same(locked.readDirectory(vscode.Uri.parse("locked:/")).length, 0);
    await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
  } finally {
    registered.dispose();
    shutAway.dispose();
  }
}
