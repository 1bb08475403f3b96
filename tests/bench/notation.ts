import { readFileSync } from "node:fs";
import { join } from "node:path";
import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { HoverRequest, type Position } from "vscode-languageserver/node";
import { instrumentOf } from "../../server/features/exercise-reach";
import { HOVER_WIDTH } from "../../server/features/hover-notation";
import { launchEngraver } from "../../server/launch-engraver";
import { tonicAt } from "../../server/music/key";
import { type EngravingTask, OPTIONS, type Toolkit } from "../../server/notation/engrave";
import { systemPictures } from "../../server/notation/system-pictures";
import { writtenOut } from "../../server/notation/write-out";
import type { Exercise } from "../../server/plan/exercise";
import {
  type MusicAsk,
  NOTATION_REQUEST,
  type NotationResult,
  PICTURE_REQUEST,
  type PictureResult,
  PREVIEW_REQUEST,
  type PreviewResult,
} from "../../server/protocol/requests";
import { checkTexts } from "../server/check-texts";
import { BenchEditor } from "./bench-editor";
import type { Judge } from "./judge";
import { median, p95 } from "./timing";

export interface NotationGround {
  /** The folder of everything as it is shipped. */
  readonly dist: string;
  readonly judge: Judge;
}

const SNIPPETS = 300;
const ROUNDS = 3;
const EDITS = 120;
const WARM_UP = 20;
/** Pixels of a preview beside an editor. */
const WIDTH = 560;

const BOOK = readFileSync(new URL("../../samples/book.practice", import.meta.url), "utf8");
const URI = "untitled:/book.practice";

/** Verovio by itself, in this process, with nothing of ours around it. */
async function alone(): Promise<(task: Pick<EngravingTask, "musicXml" | "width" | "broken">) => number> {
  const silent = (): void => undefined;
  const module = await createVerovioModule({ print: silent, printErr: silent });
  enableLog(LOG_OFF, module);
  const toolkit: Toolkit = new VerovioToolkit(module);
  return ({ musicXml, width, broken }) => {
    const start = performance.now();
    toolkit.setOptions({
      ...OPTIONS,
      pageWidth: width,
      breaks: broken ? "encoded" : "none",
      adjustPageWidth: !broken,
    });
    toolkit.loadData(musicXml);
    toolkit.renderToSVG(1);
    return performance.now() - start;
  };
}

/** (l) Engraving against verovio alone on the same MusicXML: many snippets, a hover, a preview after a keystroke. */
export async function notation(ground: NotationGround): Promise<void> {
  const verovio = await alone();
  const { plan } = checkTexts(new Map([["book.practice", BOOK]])).files[0]!;
  const exercises = plan.own.exercises.filter(
    ({ content }) => content.kind === "notes" && content.key !== undefined,
  );
  await snippets(ground, verovio, exercises, plan.settings);
  await hovers(ground, verovio, exercises);
  await keystrokes(ground, verovio);
}

type Alone = Awaited<ReturnType<typeof alone>>;
type Settings = Parameters<typeof writtenOut>[0]["settings"];

/** The lines of every exercise in keys around its own, until there are enough. */
function tasksOf(exercises: readonly Exercise[], settings: Settings): readonly EngravingTask[] {
  const tasks: EngravingTask[] = [];
  for (const semitones of [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6]) {
    for (const exercise of exercises) {
      const key = exercise.content.kind === "notes" ? exercise.content.key : undefined;
      if (key === undefined) continue;
      const placement = { semitones, key: tonicAt(key, semitones), combination: undefined, mode: undefined };
      const written = writtenOut({
        exercise,
        instrument: instrumentOf([]),
        settings,
        placements: [placement],
      });
      if (written.kind !== "sheet") continue;
      const pictures = systemPictures(
        written.sheet,
        { width: WIDTH, fingerings: false },
        () => exercise.name,
      );
      tasks.push(...pictures.map(({ task }) => task));
      if (tasks.length >= SNIPPETS) return tasks.slice(0, SNIPPETS);
    }
  }
  return tasks;
}

async function snippets(
  { dist, judge }: NotationGround,
  verovio: Alone,
  exercises: readonly Exercise[],
  settings: Settings,
): Promise<void> {
  const known = tasksOf(exercises, settings);
  for (const task of known.slice(0, WARM_UP)) verovio(task);
  const theirs: number[] = [];
  const ours: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    theirs.push(known.reduce((sum, task) => sum + verovio(task), 0));
    const engraver = launchEngraver(join(dist, "engraver.cjs"));
    // The thread is up and has engraved before it is measured, as verovio alone has.
    await Promise.all(
      known.slice(0, WARM_UP).map((task) => engraver.engrave({ ...task, title: `${task.title} before` })),
    );
    const start = performance.now();
    const tasks = tasksOf(exercises, settings);
    await Promise.all(tasks.map((task) => engraver.engrave(task)));
    ours.push(performance.now() - start);
    await engraver.stop();
  }
  const [us, them] = [Math.min(...ours), Math.min(...theirs)];
  judge(
    "l",
    `${SNIPPETS} snippets, from exercises to pictures`,
    us / them,
    1.3,
    "times verovio alone",
    `${us.toFixed(0)} ms, verovio ${them.toFixed(0)} ms`,
  );
}

/** The server asked over its streams, as an editor does. */
async function editorWith(dist: string, text: string): Promise<BenchEditor> {
  const editor = new BenchEditor(join(dist, "server.cjs"));
  await editor.start(
    undefined,
    { textDocument: { hover: { contentFormat: ["markdown"] } } },
    { theme: "light" },
  );
  await editor.open(URI, text);
  return editor;
}

function positionOf(text: string, at: number): Position {
  const before = text.slice(0, at).split("\n");
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

/** Hovers over every exercise, its picture not known and then known, against verovio on the same lines. */
async function hovers(
  { dist, judge }: NotationGround,
  verovio: Alone,
  exercises: readonly Exercise[],
): Promise<void> {
  const editor = await editorWith(dist, BOOK);
  const hover = async (name: string, uri = URI, text = BOOK): Promise<number> => {
    const at = text.indexOf(`exercise "${name}"`) + 'exercise "'.length;
    const start = performance.now();
    await editor.connection.sendRequest(HoverRequest.type, {
      textDocument: { uri },
      position: positionOf(text, at),
    });
    return performance.now() - start;
  };
  const { plan } = checkTexts(new Map([["book.practice", BOOK]])).files[0]!;
  // The thread is up and has engraved all of this music before it is measured, as verovio alone has: under other
  // names, so that no picture of it is kept.
  for (const before of ["before", "long before"]) {
    const uri = `untitled:/${before}.practice`;
    const renamed = (name: string): string => `${name}, ${before}`;
    const text = exercises.reduce((all, { name }) => all.replaceAll(`"${name}"`, `"${renamed(name)}"`), BOOK);
    await editor.open(uri, text);
    for (const { name } of exercises) await hover(renamed(name), uri, text);
  }
  const cold: number[] = [];
  const warm: number[] = [];
  for (const exercise of exercises) {
    const written = writtenOut({ exercise, instrument: instrumentOf([]), settings: plan.settings });
    if (written.kind !== "sheet") continue;
    const pictures = systemPictures(
      written.sheet,
      { width: HOVER_WIDTH, fingerings: false },
      () => exercise.name,
    );
    const shown = pictures.slice(0, 2).map(({ task }) => task);
    const made = await hover(exercise.name);
    const kept = await hover(exercise.name);
    const reference = shown.reduce((sum, task) => sum + verovio(task), 0);
    cold.push(made / reference);
    warm.push(kept / reference);
  }
  judge(
    "l",
    "a hover whose picture is made, median",
    median(cold),
    1.2,
    "times verovio alone",
    `${cold.length} exercises`,
  );
  judge("l", "a hover whose picture is kept, median", median(warm), 0.1, "times verovio alone", "");
  await editor.end();
}

/** A note of a long exercise becomes another, and the preview shows it: text, notation and the one new picture. */
async function keystrokes({ dist, judge }: NotationGround, verovio: Alone): Promise<void> {
  const bar = "1/8 C4 D4 E4 F4 G4 F4 E4 D4";
  const head = `area "Tones"\nexercise "Long" {\n  in "Tones"  key C major  meter 4/4  tempo 1/4 = 72\n`;
  const text = `${head}  music {\n${Array.from({ length: 48 }, () => `    ${bar} |`).join("\n")}\n  }\n}\n`;
  const editor = await editorWith(dist, text);
  const seen = new Set<string>();
  let music: MusicAsk | undefined;
  const view = async (line: number): Promise<void> => {
    const place = { uri: URI, position: { line, character: 10 } };
    const result = await editor.connection.sendRequest<PreviewResult>(PREVIEW_REQUEST, place);
    music = result?.items[0]?.music;
  };
  const pictures = async (): Promise<void> => {
    const look = { music, fingerings: false, width: WIDTH };
    const told = await editor.connection.sendRequest<NotationResult>(NOTATION_REQUEST, look);
    for (const { name } of told?.pictures ?? []) {
      if (seen.has(name)) continue;
      seen.add(name);
      await editor.connection.sendRequest<PictureResult>(PICTURE_REQUEST, { name });
    }
  };
  // As the page does it: what is shown is asked for again together with its notation.
  const update = async (line: number): Promise<number> => {
    const start = performance.now();
    await Promise.all([view(line), pictures()]);
    return performance.now() - start;
  };
  await view(5);
  await update(5);
  const ours: number[] = [];
  const theirs: number[] = [];
  // One line of that music by verovio alone, in turn with ours, so that a slow spell falls on both.
  const { plan } = checkTexts(new Map([["long.practice", text]])).files[0]!;
  const exercise = plan.exercises.get("Long");
  if (exercise === undefined) throw new Error("the long exercise was not read");
  const written = writtenOut({ exercise, instrument: instrumentOf([]), settings: plan.settings });
  if (written.kind !== "sheet") throw new Error("the long exercise has no notes");
  const lines = systemPictures(written.sheet, { width: WIDTH, fingerings: false }, () => "Long");
  const system = lines[1]?.task;
  if (system === undefined) throw new Error("the long exercise is no longer than a line");
  for (let edit = -WARM_UP; edit < EDITS; edit++) {
    const line = 4 + ((edit + 48 * 3) % 48);
    // The third note of a bar wanders through pitches it has not had yet.
    const octave = 3 + ((edit + WARM_UP) % 3);
    const letter = "ABCDEFG"[(edit + WARM_UP) % 7] ?? "A";
    await editor.edit(URI, { line, character: 14 }, 2, `${letter}${octave + 1}`);
    const took = await update(line);
    const reference = verovio(system);
    if (edit < 0) continue;
    ours.push(took);
    theirs.push(reference);
  }
  judge(
    "l",
    "a preview after a keystroke, p95",
    p95(ours) / p95(theirs),
    2,
    "times one line by verovio alone",
    `median ${median(ours).toFixed(1)} ms, p95 ${p95(ours).toFixed(1)} ms; a line ${median(theirs).toFixed(1)} and ${p95(theirs).toFixed(1)} ms; ${lines.length} lines`,
  );
  await editor.end();
}
