import * as vscode from "vscode";
import type { Leadpipe } from "../../../client/activate";
import type { PageAction, Told } from "../../../client/preview/messages";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, hoverWith, put, sample, show } from "./plans";
import { when } from "./when";

/** A hover shows the exercise in the key that its line asks for. */
export async function hoverPicture(): Promise<void> {
  await leadpipe();
  const uri = sample("2026-27", "summer.practice");
  const { document } = await show(uri);
  const words = await hoverWith(uri, at(document, '"From the bridge"  in', 3), "data:image/svg+xml;base64,");
  has(words, "![From the bridge, C major");
  if (words.length > 100_000) throw new Error(`a hover of ${words.length} signs would be cut`);
}

/** Everything that the preview has told, so that nothing is missed that comes before it is waited for. */
class Heard implements vscode.Disposable {
  readonly all: Told[] = [];
  private readonly more = new vscode.EventEmitter<void>();
  private readonly listening: vscode.Disposable;

  constructor(pipe: Leadpipe) {
    this.listening = pipe.onDidTellOfPreview((told) => {
      this.all.push(told);
      this.more.fire();
    });
  }

  /** The first that is such, of what was told since a mark. */
  find<T extends Told["what"]>(
    what: T,
    since: number,
    such: (told: Extract<Told, { what: T }>) => boolean,
  ): Promise<Extract<Told, { what: T }>> {
    const is = (told: Told): told is Extract<Told, { what: T }> => told.what === what;
    return when(
      this.more.event,
      () => this.all.slice(since).filter(is).find(such),
      `“${what}” of the preview`,
      () => this.all.slice(-6).map((told) => JSON.stringify(told).slice(0, 200)),
    );
  }

  dispose(): void {
    this.listening.dispose();
    this.more.dispose();
    const broken = this.all.filter((told) => told.what === "violation");
    if (broken.length > 0) throw new Error(`the page's policy was broken: ${JSON.stringify(broken)}`);
  }
}

async function previewed(
  work: (heard: Heard, act: (action: PageAction) => void) => Promise<void>,
): Promise<void> {
  const pipe = await leadpipe();
  const heard = new Heard(pipe);
  try {
    await work(heard, pipe.inPreview);
  } finally {
    await vscode.commands.executeCommand("workbench.action.closeEditorsInOtherGroups");
    heard.dispose();
  }
}

/** The preview goes along with the cursor: exercise, session, day, week, term; and shows the notes. */
export async function previewFollows(): Promise<void> {
  await previewed(async (heard) => {
    const plan = await show(sample("2026-27", "summer.practice"));
    put(plan, '"From the bridge"  in', 3);
    await vscode.commands.executeCommand("leadpipe.showMusic");
    const bridge = await heard.find("shown", 0, ({ view }) => view.title === "From the bridge");
    same(bridge.view.player, "Seniors");
    const notation = await heard.find(
      "notation",
      0,
      ({ title, notes }) => title === "From the bridge, C major" && notes.length > 4,
    );
    has(notation.notes.join(" / "), "third-space C (C5), half, open");
    for (const [text, kind, title] of [
      ['"First page" 12', "session", "First page"],
      ['2027-06-26 "Lock fair"', "day", "Sat 2027-06-26"],
      ["weeks 8 to 12", "week", "Week 8"],
      ['term "Summer 2027, seniors"', "term", "Summer 2027, seniors"],
    ] as const) {
      const since = heard.all.length;
      put(plan, text, 2);
      const { view } = await heard.find("shown", since, (told) => told.view.title === title);
      same(view.kind, kind);
    }
    const since = heard.all.length;
    const book = await show(sample("book.practice"));
    put(book, 'exercise "Warm air"', 12);
    await heard.find("shown", since, ({ view }) => view.title === "Warm air");
  });
}

/** A click on a note leads to its place in the book; the cursor on a note marks it. */
export async function clickJumps(): Promise<void> {
  await previewed(async (heard, act) => {
    const plan = await show(sample("2026-27", "summer.practice"));
    put(plan, '"Warm air"  once', 3);
    await vscode.commands.executeCommand("leadpipe.showMusic");
    await heard.find("notation", 0, ({ title, notes }) => title === "Warm air, C major" && notes.length > 0);
    const since = heard.all.length;
    act({ what: "click", event: 4 });
    // The first note after the two with rests: the tongued G in the second line of the music.
    await when(
      vscode.window.onDidChangeTextEditorSelection,
      () => {
        const active = vscode.window.activeTextEditor;
        if (active?.document.uri.path.endsWith("book.practice") !== true) return undefined;
        const { line, character } = active.selection.active;
        return active.document.lineAt(line).text.slice(character).startsWith("G4 F4) 1/2 E4") || undefined;
      },
      "the note in the book",
    );
    const marked = await heard.find("marked", since, ({ events }) => events.length > 0);
    same(marked.events.join(), "4");
  });
}

/** Half-written music is shown as far as it can be read, and what is missing is said. */
export async function halfWritten(): Promise<void> {
  await previewed(async (heard) => {
    const content = `exercise "Half written" {
  music { 1/4 C4 D4 E4 X4 | 1/1 G4 | }
}
`;
    const document = await vscode.workspace.openTextDocument({ language: "practice", content });
    const editor = await vscode.window.showTextDocument(document);
    put(editor, "E4");
    await vscode.commands.executeCommand("leadpipe.showMusic");
    const { view } = await heard.find(
      "shown",
      0,
      (told) => told.view.title === "Half written" && told.view.missing.length > 0,
    );
    has(view.missing.map(({ text }) => text).join(" / "), "X4");
    const { notes } = await heard.find(
      "notation",
      0,
      (told) => told.title.startsWith("Half written") && told.notes.length > 0,
    );
    has(notes.join(" / "), "G4");
  });
}

/** Notes are marked as they sound, by the clock of the sound itself. */
export async function playMarks(): Promise<void> {
  await previewed(async (heard, act) => {
    const book = await show(sample("book.practice"));
    put(book, 'exercise "Warm air"', 12);
    await vscode.commands.executeCommand("leadpipe.showMusic");
    await heard.find("notation", 0, ({ title, notes }) => title === "Warm air, C major" && notes.length > 0);
    const since = heard.all.length;
    await vscode.commands.executeCommand("leadpipe.playMusic");
    const first = await heard.find("sounding", since, ({ event }) => event === 0);
    const third = await heard.find("sounding", since, ({ event }) => event === 2);
    for (const { at: due, clock } of [first, third]) {
      if (clock < due || clock > due + 0.25)
        throw new Error(`marked at ${clock} s what sounds from ${due} s`);
    }
    // Quarters at 60, the first two events a half each: four seconds lie between them.
    same(Math.round((third.at - first.at) * 1000), 4000);
    act({ what: "stop" });
    await heard.find("stopped", since, () => true);
  });
}

/** The exercise under the cursor goes into files for other programs; what is there already is asked about. */
export async function exports(): Promise<void> {
  await leadpipe();
  const book = await show(sample("book.practice"));
  put(book, 'exercise "Warm air"', 12);
  const target = (name: string): vscode.Uri => vscode.Uri.joinPath(sample(), name);
  const write = (command: string, file: vscode.Uri, may: boolean): Thenable<vscode.Uri | undefined> =>
    vscode.commands.executeCommand(command, file, async () => may);
  const read = async (file: vscode.Uri): Promise<Uint8Array> => vscode.workspace.fs.readFile(file);
  const [xml, midi, svg] = [target("warm.musicxml"), target("warm.mid"), target("warm.svg")];
  await write("leadpipe.writeMusicXml", xml, false);
  has(new TextDecoder().decode(await read(xml)), "<work-title>Warm air</work-title>");
  await write("leadpipe.writeMidi", midi, false);
  same(new TextDecoder().decode((await read(midi)).slice(0, 4)), "MThd");
  await write("leadpipe.writePicture", svg, false);
  has(new TextDecoder().decode(await read(svg)), "<svg ");

  put(book, 'exercise "Five easy tones"', 12);
  same((await write("leadpipe.writeMusicXml", xml, false))?.path, undefined);
  has(new TextDecoder().decode(await read(xml)), "<work-title>Warm air</work-title>");
  await write("leadpipe.writeMusicXml", xml, true);
  has(new TextDecoder().decode(await read(xml)), "<work-title>Five easy tones</work-title>");
  for (const file of [xml, midi, svg]) await vscode.workspace.fs.delete(file);
}
