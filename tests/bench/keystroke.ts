import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  CompletionRequest,
  DocumentDiagnosticRequest,
  HoverRequest,
  type Position,
  WorkspaceDiagnosticRequest,
} from "vscode-languageserver/node";
import { lex } from "../../grammar/tokens";
import { BenchEditor } from "./bench-editor";
import type { Judge } from "./judge";
import { practiceText } from "./practice-text";
import { Random } from "./random";
import { LONG_PLAN, studioOf } from "./studio";
import { median, p95 } from "./timing";

/** How often each thing is done. */
const SAMPLES = 200;
const WARM_UP = 60;
const BOOK_EDITS = 20;

export interface KeystrokeGround {
  /** The server as it is shipped. */
  readonly server: string;
  readonly judge: Judge;
}

/** What the long plan is called; no file of that name is on any disk. */
const LONG_URI = "untitled:/long.practice";

interface Spot extends Position {
  readonly letter: string;
}

/** Where a letter may be typed: inside the assignments, from the middle of the file on. */
function spotsIn(text: string, random: Random): () => Spot {
  const lines = text.split("\n");
  const assignments = lines.flatMap((line, at) => (/^ {6}"/.test(line) ? [at] : []));
  return () => {
    const line = assignments[random.whole(assignments.length >> 2, (assignments.length >> 2) * 3)]!;
    const said = lines[line]!;
    const character = random.whole(7, said.length - 1);
    // A digit among digits and a letter among letters, as a hand that corrects would type.
    return { line, character, letter: /\d/.test(said[character] ?? "") ? "1" : "e" };
  };
}

/** R: the long plan lexed once, in this process, between the other samples. */
class Reference {
  readonly times: number[] = [];

  constructor(private readonly text: string) {
    for (let i = 0; i < 10; i++) lex(text);
  }

  sample(): void {
    const start = performance.now();
    lex(this.text);
    this.times.push(performance.now() - start);
  }

  get r(): number {
    return median(this.times);
  }
}

function shown(times: readonly number[], r: number): string {
  return `median ${median(times).toFixed(1)} ms, p95 ${p95(times).toFixed(1)} ms; R ${r.toFixed(1)} ms`;
}

/** (e), (f) A letter typed in a long plan, and what is asked behind it; the server's memory at the end. */
export async function keystrokes({ server, judge }: KeystrokeGround): Promise<void> {
  const text = practiceText(studioOf(LONG_PLAN));
  const reference = new Reference(text);
  const editor = new BenchEditor(server);
  await editor.start(undefined, {
    textDocument: {
      publishDiagnostics: { relatedInformation: true },
      completion: { completionList: { itemDefaults: ["editRange", "data"] } },
    },
  });
  const first = editor.open(LONG_URI, text).then(() => editor.published(LONG_URI));
  await first;
  const next = spotsIn(text, new Random(7));
  const typed: number[] = [];
  const completed: number[] = [];
  const hovered: number[] = [];
  const textDocument = { uri: LONG_URI };
  for (let i = -WARM_UP; i < SAMPLES; i++) {
    const spot = next();
    const start = performance.now();
    const published = editor.published(LONG_URI);
    await editor.edit(LONG_URI, spot, 0, spot.letter);
    await published;
    if (i >= 0) typed.push(performance.now() - start);
    const taken = editor.published(LONG_URI);
    await editor.edit(LONG_URI, spot, 1, "");
    await taken;
    reference.sample();
  }
  for (let i = -WARM_UP; i < SAMPLES; i++) {
    const spot = next();
    const position = { line: spot.line, character: spot.character + 1 };
    // Asked right behind the letter, as an editor does, while the findings are still being worked out.
    const published = editor.published(LONG_URI);
    await editor.edit(LONG_URI, spot, 0, spot.letter);
    const asked = performance.now();
    await editor.connection.sendRequest(CompletionRequest.type, { textDocument, position });
    if (i >= 0) completed.push(performance.now() - asked);
    await published;
    const taken = editor.published(LONG_URI);
    await editor.edit(LONG_URI, spot, 1, "");
    const over = performance.now();
    await editor.connection.sendRequest(HoverRequest.type, { textDocument, position });
    if (i >= 0) hovered.push(performance.now() - over);
    await taken;
    reference.sample();
  }
  const { r } = reference;
  const kB = `${(text.length / 1000).toFixed(0)} kB, ${text.split("\n").length} lines`;
  judge("e", "a letter to its findings, median", median(typed) / r, 0.5, "R", `${shown(typed, r)}; ${kB}`);
  judge("e", "a letter to its findings, p95", p95(typed) / r, 1.3, "R", "");
  judge("f", "completion, p95", p95(completed) / r, 0.8, "R", shown(completed, r));
  judge("f", "hover, p95", p95(hovered) / r, 0.8, "R", shown(hovered, r));
  judge("e", "the server's memory with the long plan", await editor.end(), 400, "MB", "");
}

/** (g) The conservatory's shared book is edited while three files of terms are open. */
export async function sharedBook({ server, judge }: KeystrokeGround, folder: string): Promise<void> {
  const reference = new Reference(practiceText(studioOf(LONG_PLAN)));
  const editor = new BenchEditor(server);
  await editor.start(pathToFileURL(folder).href, { textDocument: { diagnostic: {} } });
  const terms = readdirSync(join(folder, "terms")).sort().slice(0, 3);
  const paths = ["book.practice", ...terms.map((name) => `terms/${name}`)];
  const texts = new Map(
    paths.map((path) => [pathToFileURL(join(folder, path)).href, readFileSync(join(folder, path), "utf8")]),
  );
  const [[book = "", bookText = ""] = [], [term = "", termText = ""] = []] = [...texts];
  // Who asks for what is new waits until something is. Of a book in which something is found, it is after every edit.
  texts.set(book, `${bookText}\nexercise "Nobody asks for this" { in "Nowhere" }\n`);
  for (const [uri, text] of texts) await editor.open(uri, text);
  let known: { uri: string; value: string }[] = [];
  /** Answered when everything is checked as it stands. */
  const everything = async (): Promise<void> => {
    const report = await editor.connection.sendRequest(WorkspaceDiagnosticRequest.type, {
      previousResultIds: known,
    });
    const values = new Map(known.map(({ uri, value }) => [uri, value]));
    for (const { uri, resultId } of report.items) values.set(uri, resultId ?? "");
    known = [...values].map(([uri, value]) => ({ uri, value }));
  };
  const findingsOf = (uri: string): Promise<unknown> =>
    editor.connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
  await everything();

  const random = new Random(11);
  const tempi = bookText.split("\n").flatMap((line, at) => {
    const found = /^ {2}tempo {5}1\/\d = /.exec(line);
    return found === null
      ? []
      : [{ line: at, character: found[0].length, length: line.length - found[0].length }];
  });
  const next = spotsIn(termText, random);
  const open: number[] = [];
  const all: number[] = [];
  const between: number[] = [];
  for (let i = -4; i < BOOK_EDITS; i++) {
    const tempo = tempi[random.whole(0, tempi.length - 1)]!;
    const start = performance.now();
    // Two digits whatever stood there; what they are changes from round to round.
    await editor.edit(book, tempo, tempo.length, String(60 + (i & 7)));
    tempo.length = 2;
    const rest = everything();
    await Promise.all([...texts.keys()].map(findingsOf));
    if (i >= 0) open.push(performance.now() - start);
    await rest;
    if (i >= 0) all.push(performance.now() - start);
    reference.sample();

    // The same again, and a letter typed in another file as soon as the open ones are checked and the rest is not.
    await editor.edit(book, tempo, tempo.length, String(70 + (i & 7)));
    await Promise.all([...texts.keys()].map(findingsOf));
    const spot = next();
    const typed = performance.now();
    await editor.edit(term, spot, 0, spot.letter);
    await findingsOf(term);
    if (i >= 0) between.push(performance.now() - typed);
    await editor.edit(term, spot, 1, "");
    await everything();
    reference.sample();
  }
  const { r } = reference;
  judge("g", "the shared book edited: open files, p95", p95(open) / r, 6, "R", shown(open, r));
  judge("g", "the shared book edited: everything, p95", p95(all) / r, 90, "R", shown(all, r));
  judge("g", "a letter in between, longest", Math.max(...between) / r, 2, "R", shown(between, r));
  judge("g", "the server's memory with the conservatory", await editor.end(), 400, "MB", "");
}
