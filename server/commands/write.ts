import { basename, dirname, extname, join, resolve } from "node:path";
import { homePlacement, type Placement, placementName } from "../days/placement";
import { inColour } from "../notation/clean-svg";
import { EngravingError, engravingTask } from "../notation/engrave";
import { midiOf } from "../notation/midi";
import { FILE_STYLE, musicXmlOf } from "../notation/musicxml";
import type { Sheet } from "../notation/sheet";
import { writtenOut } from "../notation/write-out";
import { fileNames } from "../output/file-names";
import { counted } from "../output/numbers";
import { safeText } from "../output/safe-text";
import type { Exercise, Tempo } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Checked } from "../workspace/check-sources";
import { findExercise, findPlayers, instrumentOf, placementOf } from "./asked-exercise";
import { LazyEngraver } from "./lazy-engraver";
import { readOptions, type Typed } from "./options";
import { PATIENCE, pathShower, readPlans } from "./read-plans";
import { CLEAN, FOUND, Misuse, type World } from "./world";
import { isFolder, isThere, makeFolder, UnwrittenError, writeWhole } from "./write-file";

/** What can be written, and how such a file's name ends. */
const FORMS = { musicxml: ".musicxml", midi: ".mid", svg: ".svg" } as const;
type Form = keyof typeof FORMS;

/** Other endings that name a form. */
const ENDINGS: ReadonlyMap<string, Form> = new Map([
  [".musicxml", "musicxml"],
  [".xml", "musicxml"],
  [".mid", "midi"],
  [".midi", "midi"],
  [".svg", "svg"],
]);

/** Pixels across a picture: seven or so bars in a line. */
const PICTURE_WIDTH = 900;
/** Beats to the minute that may be asked for, as in a plan. */
const TEMPI = { least: 10, most: 400 };

/** `leadpipe write`: exercises as notation, sound or picture, for other programs and for paper. */
export async function write(args: readonly string[], world: World): Promise<number> {
  const typed = readOptions("write", args, {
    as: "value",
    to: "value",
    in: "value",
    valves: "value",
    tempo: "value",
    player: "value",
    fingerings: "switch",
    all: "switch",
    force: "switch",
  });
  const engraver = new LazyEngraver(world);
  try {
    return await (typed.switches.has("all") ? writeAll : writeOne)(typed, world, engraver);
  } catch (error) {
    if (!(error instanceof UnwrittenError || error instanceof EngravingError)) throw error;
    world.err(`${safeText(error.message)}\n`);
    return FOUND;
  } finally {
    await engraver.stop();
  }
}

async function writeOne(typed: Typed, world: World, engraver: LazyEngraver): Promise<number> {
  const [name, ...paths] = typed.words;
  if (name === undefined) {
    throw new Misuse(
      'Name the exercise, in quotes: leadpipe write "Slow fifths" samples. Or write all of them: leadpipe write --all samples --to FOLDER',
    );
  }
  const to = typed.values.get("to");
  const form = formOf(typed.values.get("as"), to === undefined || to === "-" ? undefined : to);
  if (to === "-" && form === "midi")
    throw new Misuse("MIDI is no text to be read. Name a file after “--to”.");
  const checked = await readPlans(paths, world, { findings: false });
  const { exercise, plan } = findExercise(checked, name);
  const sheet = sheetFor(exercise, plan, checked, typed);
  if (sheet === undefined) throw new Misuse(`${whyNoNotes(exercise)} There is nothing to write.`);
  const file = to === "-" ? undefined : targetOf(to, exercise, sheet.name, form, world.cwd);
  if (file !== undefined && !typed.switches.has("force") && isThere(file)) {
    throw new Misuse(
      `“${pathShower(world.cwd)(file)}” is there already. To write over it, add --force; to keep it, name another file after “--to”.`,
    );
  }
  const content = await contentOf(sheet, form, typed.switches.has("fingerings"), engraver);
  if (file === undefined) world.out(typeof content === "string" ? content : "");
  else {
    writeWhole(file, content);
    world.out(`${safeText(pathShower(world.cwd)(file))}\n`);
  }
  return CLEAN;
}

async function writeAll(typed: Typed, world: World, engraver: LazyEngraver): Promise<number> {
  for (const option of ["in", "valves", "tempo"]) {
    if (typed.values.has(option)) throw new Misuse(`“--${option}” goes with one exercise, not with “--all”.`);
  }
  const to = typed.values.get("to");
  if (to === undefined || to === "-") {
    throw new Misuse("Name the folder they go to: leadpipe write --all samples --to FOLDER");
  }
  const form = formOf(typed.values.get("as"), undefined);
  const checked = await readPlans(typed.words, world, { findings: false });
  const folder = resolve(world.cwd, to);
  const exercises = checked.files.flatMap(({ plan, asked }) =>
    asked ? plan.own.exercises.map((exercise) => ({ exercise, plan })) : [],
  );
  const sheets = exercises.flatMap(({ exercise, plan }) => {
    const sheet = sheetFor(exercise, plan, checked, typed);
    return sheet === undefined ? [] : [sheet];
  });
  if (sheets.length === 0) throw new Misuse("There is no exercise with notes in these files.");
  const names = fileNames(
    sheets.map((each) => each.sheet.title),
    FORMS[form],
  );
  const files = names.map((each) => join(folder, each));
  const there = typed.switches.has("force") ? [] : files.filter(isThere);
  const [first] = there;
  const showPath = pathShower(world.cwd);
  if (first !== undefined) {
    const others = there.length === 1 ? "" : ` and ${counted(there.length - 1, "more file")}`;
    throw new Misuse(
      `“${showPath(first)}”${others} ${there.length === 1 ? "is" : "are"} there already; nothing was written. To write over what is there, add --force.`,
    );
  }
  makeFolder(folder);
  const start = world.now();
  let told = false;
  for (const [index, sheet] of sheets.entries()) {
    const file = files[index];
    if (file === undefined) continue;
    writeWhole(file, await contentOf(sheet, form, typed.switches.has("fingerings"), engraver));
    if (!world.watched || world.now() - start < PATIENCE) continue;
    told = true;
    world.err(`\r${index + 1} of ${sheets.length} files written`);
  }
  if (told) world.err("\r\u001b[K");
  const without = exercises.length - sheets.length;
  world.out(
    `${counted(sheets.length, "file")} in ${safeText(showPath(folder))}${without === 0 ? "" : `; ${counted(without, "exercise has", "exercises have")} no notes`}\n`,
  );
  return CLEAN;
}

/** A sheet, and what its key or combination is called where it is not the home of the exercise. */
interface Named {
  readonly sheet: Sheet;
  readonly name: string;
  readonly title: string;
}

function sheetFor(exercise: Exercise, plan: Plan, checked: Checked, typed: Typed): Named | undefined {
  const instrument = instrumentOf(findPlayers(checked, typed.values.get("player")));
  const asked = placementsFor(exercise, typed);
  const placements =
    asked === "valves"
      ? [combinationOf(exercise, typed.values.get("valves") ?? "")]
      : asked === "key"
        ? [placementOf(exercise, instrument, typed.values.get("in"))]
        : undefined;
  const written = writtenOut({
    exercise,
    instrument,
    settings: plan.settings,
    placements,
    tempo: tempoOf(exercise, typed.values.get("tempo")),
  });
  if (written.kind !== "sheet") return undefined;
  const [placement] = placements ?? [];
  const where = placementName(placement ?? homePlacement(exercise, instrument));
  return {
    sheet: written.sheet,
    name: placement === undefined ? "" : where,
    title: placement === undefined && isPartials(exercise) ? exercise.name : `${exercise.name}, ${where}`,
  };

  function combinationOf(of: Exercise, words: string): Placement {
    if (!isPartials(of))
      throw new Misuse(`“${of.name}” is not written in partials; it goes by keys, with “--in”.`);
    const combination = instrument.combinations.find(
      (each) => each.name === (words.toLowerCase() === "open" ? "0" : words),
    );
    if (combination === undefined) {
      const all = instrument.combinations.map((each) => (each.name === "0" ? "open" : each.name)).join(", ");
      throw new Misuse(`“${words}” is not one of the valve combinations: ${all}.`);
    }
    return { ...homePlacement(of, instrument), combination, semitones: 0 - combination.semitones };
  }
}

function placementsFor(exercise: Exercise, { values }: Typed): "key" | "valves" | "home" {
  if (values.has("in") && isPartials(exercise)) {
    throw new Misuse(`“${exercise.name}” has no key; it is carried over the valves. Try: --valves 12`);
  }
  if (values.has("valves")) return "valves";
  return values.has("in") ? "key" : "home";
}

function isPartials({ content }: Exercise): boolean {
  return content.kind === "notes" && content.by === "partials";
}

function tempoOf(exercise: Exercise, asked: string | undefined): Tempo | undefined {
  if (asked === undefined || exercise.tempo === undefined) return undefined;
  const bpm = Number(asked);
  if (Number.isInteger(bpm) && bpm >= TEMPI.least && bpm <= TEMPI.most) return { ...exercise.tempo, bpm };
  throw new Misuse(
    `“--tempo” takes a whole number from ${TEMPI.least} to ${TEMPI.most}, in the note value the exercise counts, not “${asked}”.`,
  );
}

function whyNoNotes({ name, content }: Exercise): string {
  switch (content.kind) {
    case "printed":
      return `“${name}” is printed music: Leadpipe knows its page, not its notes.`;
    case "activity":
      return `“${name}” is work without notes.`;
    case "notes":
      return `No note of “${name}” can be read; “leadpipe check” says why.`;
  }
}

function formOf(asked: string | undefined, file: string | undefined): Form {
  if (asked !== undefined) {
    const form = Object.keys(FORMS).find((each): each is Form => each === asked.toLowerCase());
    if (form !== undefined) return form;
    throw new Misuse(`“--as” takes musicxml, midi or svg, not “${asked}”.`);
  }
  return (file === undefined ? undefined : ENDINGS.get(extname(file).toLowerCase())) ?? "musicxml";
}

/** The file to write: the one named, or one named after the exercise in the folder named. */
function targetOf(
  to: string | undefined,
  exercise: Exercise,
  where: string,
  form: Form,
  cwd: string,
): string {
  const [own = ""] = fileNames([where === "" ? exercise.name : `${exercise.name}, ${where}`], FORMS[form]);
  if (to === undefined) return join(cwd, own);
  const path = resolve(cwd, to);
  if (/[/\\]$/.test(to) || isFolder(path)) return join(path, own);
  if (!isFolder(dirname(path))) {
    throw new UnwrittenError(`There is no folder “${dirname(to)}” for “${basename(path)}”.`);
  }
  return path;
}

async function contentOf(
  { sheet, title }: Named,
  form: Form,
  fingerings: boolean,
  engraver: LazyEngraver,
): Promise<string | Uint8Array> {
  switch (form) {
    case "musicxml":
      return musicXmlOf(sheet, { ...FILE_STYLE, fingerings: fingerings ? "marks" : "none" });
    case "midi":
      return midiOf(sheet);
    case "svg":
      return inColour(
        await engraver.engrave(engravingTask(sheet, title, { width: PICTURE_WIDTH, fingerings })),
        "black",
      );
  }
}
