import * as vscode from "vscode";
import type { CarryAnswers } from "../../../server/protocol/year-requests";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { put, sample, show, textBecomes } from "./plans";
import { when } from "./when";

/** What the pages told of themselves, so that nothing is missed that comes before it is waited for. */
type Pipe = Awaited<ReturnType<typeof leadpipe>>;
type ToldOfPage = Pipe["onDidTellOfPage"] extends vscode.Event<infer T> ? T : never;
type Shown = Extract<ToldOfPage, { kind: "shown" }>;

async function watched(
  work: (
    shown: (page: string, such: (told: Shown) => boolean, since?: number) => Promise<Shown>,
    count: () => number,
  ) => Promise<void>,
): Promise<void> {
  const pipe = await leadpipe();
  const all: ToldOfPage[] = [];
  const more = new vscode.EventEmitter<void>();
  const listening = pipe.onDidTellOfPage((told) => {
    all.push(told);
    more.fire();
  });
  try {
    await work(
      (page, such, since = 0) =>
        when(
          more.event,
          () =>
            all
              .slice(since)
              .filter((told): told is Shown => told.kind === "shown" && told.page === `leadpipe.${page}`)
              .find(such),
          `the page ${page}`,
          () => all.slice(-3).map((told) => JSON.stringify(told).slice(0, 400)),
        ),
      () => all.length,
    );
    const broken = all.filter((told) => told.kind === "violation");
    if (broken.length > 0) throw new Error(`a page's policy was broken: ${JSON.stringify(broken)}`);
  } finally {
    listening.dispose();
    more.dispose();
    await vscode.commands.executeCommand("workbench.action.focusFirstEditorGroup");
    await vscode.commands.executeCommand("workbench.action.closeEditorsInOtherGroups");
  }
}

/** Writes to a file that is named; `may` answers whether it may be replaced. */
function save(command: string, target: vscode.Uri, may: boolean): Thenable<vscode.Uri | undefined> {
  return vscode.commands.executeCommand(command, target, async () => may);
}

async function read(file: vscode.Uri): Promise<string> {
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
}

async function write(file: vscode.Uri, text: string): Promise<void> {
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(text));
}

/** The report of the term at the cursor follows the text, is of whom one chooses, and can be kept as a file. */
export async function report(): Promise<void> {
  await watched(async (shown, count) => {
    const plan = await show(sample("2026-27", "summer.practice"));
    put(plan, 'term "Summer 2027, seniors"', 3);
    await vscode.commands.executeCommand("leadpipe.showReport");
    const first = await shown("report", ({ headings }) => headings[0] === "Coverage and load");
    has(first.headings.join(" / "), "Summer 2027, seniors: Seniors");
    same(first.tables > 4, true);
    same(first.pictures > 3, true);

    // It is brought up to date while the text is typed, also where its name is what changes.
    const since = count();
    const { document } = plan;
    const before = document.getText();
    const edit = new vscode.WorkspaceEdit();
    const at = document.positionAt(before.indexOf("Summer 2027, seniors"));
    edit.insert(document.uri, at, "Late ");
    await vscode.workspace.applyEdit(edit);
    await shown("report", ({ headings }) => headings.join().includes("Late Summer 2027, seniors"), since);
    const restored = textBecomes(document, before);
    await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
    await vscode.commands.executeCommand("undo");
    await restored;

    const chosen = count();
    await vscode.commands.executeCommand("leadpipe.choosePlayers", ["Seniors", "R. A."]);
    await shown("report", ({ headings }) => headings.join().includes("seniors: R. A."), chosen);

    const target = vscode.Uri.joinPath(sample(), "report.html");
    await save("leadpipe.saveReport", target, false);
    has(await read(target), "<title>");
    await write(target, "mine");
    same((await save("leadpipe.saveReport", target, false))?.path, undefined);
    same(await read(target), "mine");
    await vscode.workspace.fs.delete(target);
  });
}

const BOOK = `area "Tones"
exercise "Bells" {
  in "Tones"  key C major  meter 4/4  tempo 1/4 = 80
  music { 1/2 C4 G4 | 1/1 C4 ' | }
}
`;
const PLAN = `use "book.practice"

level "Juniors" { instrument trumpet in Bb  stage years 2 to 3 }

term "Autumn 2026" for "Juniors" {
  from 2026-09-07 to 2026-10-02
  practice Mon, Thu
  closed 2026-09-21 to 2026-09-25 "regatta"
  booked 2026-09-30 "Fair" { clock 20 min }
  every week { Mon, Thu "Daily" 5 min { "Bells"  twice } }
}
`;

/** A small studio in a folder of its own, taken away again afterwards. */
async function inStudio(
  name: string,
  work: (folder: vscode.Uri, book: vscode.Uri, plan: vscode.Uri) => Promise<void>,
): Promise<void> {
  const folder = vscode.Uri.joinPath(sample(), name);
  const [book, plan] = ["book.practice", "autumn.practice"].map((each) => vscode.Uri.joinPath(folder, each));
  if (book === undefined || plan === undefined) return;
  await write(book, BOOK);
  await write(plan, PLAN);
  try {
    await work(folder, book, plan);
  } finally {
    // Who closes what was not saved is asked, and nobody would answer.
    await vscode.workspace.saveAll(false);
    await vscode.commands.executeCommand("workbench.action.closeAllEditors");
    await vscode.workspace.fs.delete(folder, { recursive: true });
  }
}

/** Types over a text of a plan, in the first of the editor's columns; nothing is saved. */
async function typed(uri: vscode.Uri, old: string, fresh: string): Promise<void> {
  const document = await vscode.workspace.openTextDocument(uri);
  const editor = await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
  const start = document.getText().indexOf(old);
  const range = new vscode.Range(document.positionAt(start), document.positionAt(start + old.length));
  same(await editor.edit((edit) => edit.replace(range, fresh)), true);
}

/** What is used of the editor's git to keep a first revision. */
interface Git {
  getAPI(version: 1): {
    init(root: vscode.Uri): Promise<{
      setConfig(key: string, value: string): Promise<string>;
      add(paths: string[]): Promise<void>;
      commit(message: string): Promise<void>;
    } | null>;
  };
}

/** Compared with what git kept of it, where the editor's git can be reached; elsewhere that is said. */
export async function lastCommit(): Promise<void> {
  await watched(async (shown, count) => {
    await inStudio("kept", async (folder, book, plan) => {
      const compare = (command: string, ...more: readonly unknown[]): Thenable<string | undefined> =>
        vscode.commands.executeCommand(`leadpipe.${command}`, plan, ...more);
      await show(plan);
      const extension = vscode.extensions.getExtension<Git>("vscode.git");
      if (extension === undefined) {
        has((await compare("compareLastCommit")) ?? "", "There is no git here to ask");
        return;
      }
      const git = (await extension.activate()).getAPI(1);
      has((await compare("compareLastCommit")) ?? "", "in no git repository");
      const repository = await git.init(folder);
      if (repository === null) throw new Error("no repository was made");
      has((await compare("compareLastCommit")) ?? "", "Nothing was committed");
      await repository.setConfig("user.name", "A teacher");
      await repository.setConfig("user.email", "teacher@example.org");
      await repository.add([book.fsPath, plan.fsPath]);
      await repository.commit("first");

      await compare("compareLastCommit");
      await shown("comparison", ({ headings }) => headings.join() === "What differs");

      // What is typed counts before it is saved, and the book counts for the plan that uses it.
      const since = count();
      await typed(book, "1/2 C4 G4", "1/2 C4 A4");
      await typed(plan, "  practice Mon", '  goal "by heart" by week 2\n  practice Mon');
      await compare("compareRevision", "HEAD");
      // Where the editor saves by itself, what was typed first is compared first.
      const both = ({ headings }: Shown): boolean =>
        ["The exercise book", "Autumn 2026"].every((each) => headings.includes(each));
      const { pictures } = await shown("comparison", both, since);
      same(pictures, 2);

      has((await compare("compareRevision", "no-such-branch")) ?? "", "no revision “no-such-branch”");
      has((await compare("compareRevision", "--output=x")) ?? "", "A branch, a tag");
      const target = vscode.Uri.joinPath(folder, "differs.html");
      await save("leadpipe.saveComparison", target, false);
      has(await read(target), "“Bells”: bar 1 rewritten");
    });
  });
}

/** A plan beside another, in any editor: rewritten bars as notation side by side. */
export async function otherPlan(): Promise<void> {
  await watched(async (shown) => {
    await inStudio("beside", async (folder, _, plan) => {
      const last = vscode.Uri.joinPath(folder, "last");
      await write(vscode.Uri.joinPath(last, "book.practice"), BOOK.replace("1/2 C4 G4", "1/2 C4 F4"));
      await write(vscode.Uri.joinPath(last, "autumn.practice"), PLAN.replace("twice", "3 times"));
      await show(plan);
      await vscode.commands.executeCommand(
        "leadpipe.compareOther",
        plan,
        vscode.Uri.joinPath(last, "autumn.practice"),
      );
      const { headings, pictures, tables } = await shown("comparison", (told) => told.headings.length > 2);
      has(headings.join(" / "), "Week by week");
      // Two of notation, and a chart of the clock; nothing here lies high.
      same(pictures, 3);
      same(tables, 1);
    });
  });
}

const ANSWERS: CarryAnswers = {
  first: "2027-09-06",
  last: "2027-10-01",
  closures: "2027-09-13 to 2027-09-17 regatta",
  bookings: false,
};

/** A term is begun from another: a new plan, open and unsaved, with what was left out beside it. */
export async function nextTerm(): Promise<void> {
  await watched(async (shown) => {
    await inStudio("next", async (folder, _, plan) => {
      const taken = vscode.Uri.joinPath(folder, "Autumn 2027.practice");
      await write(taken, "# mine\n");
      await show(plan);
      await vscode.commands.executeCommand("leadpipe.beginTerm", ANSWERS);
      const { headings } = await shown("leftOut", () => true);
      same(headings.join(), "What was left out");
      const editor = vscode.window.activeTextEditor;
      if (editor === undefined) throw new Error("the new plan is not shown");
      const { document } = editor;
      has(document.uri.path, "/next/Autumn 2027 (2).practice");
      // Where there is no disk the editor itself keeps what it opened.
      if (plan.scheme === "file") {
        same(document.isUntitled, true);
        same(document.isDirty, true);
      }
      same(document.languageId, "practice");
      has(document.getText(), 'term "Autumn 2027"');
      has(document.getText(), "2027-09-06 to 2027-10-01");
      same(document.getText().includes("Fair"), false);
      same(await read(taken), "# mine\n");
      await vscode.commands.executeCommand("workbench.action.revertAndCloseActiveEditor");
    });
  });
}
