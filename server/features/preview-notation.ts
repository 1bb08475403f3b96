import type { Piece } from "../../grammar/piece";
import { homePlacement, placementName } from "../days/placement";
import { midiOf, type Pitch, pitchSign, spokenPitch } from "../music/pitch";
import { valueName } from "../music/rhythm";
import type { EngravingTask } from "../notation/engrave";
import { printedValue, type Sheet, type SheetEvent, type SheetNote } from "../notation/sheet";
import { syllablesOf } from "../notation/syllables";
import { type SystemPicture, systemPictures } from "../notation/system-pictures";
import { MARK_NAMES, type MarkName, markSign } from "../pages/notation-marks";
import type { Player } from "../plan/player";
import { profileOf } from "../profile/profile";
import type { KeyChoice, NotationParams, NotationView, PictureResultView } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { keysAround, lyingFor } from "./exercise-reach";
import { barsText } from "./hover-notation";
import { type Places, positionOf } from "./lines-of";
import { missingIn } from "./missing";
import { type AskedSheet, askedSheet, type Paths } from "./music-ask";
import { placementId } from "./placement-id";
import { writtenPiece } from "./readable-exercise";

/** A picture that can be asked for, until it is engraved: what is drawn on it and what is said of its notes. */
export interface PictureDraft {
  readonly task: EngravingTask;
  /** By the notes' names in the picture. */
  readonly marks: ReadonlyMap<string, readonly MarkName[]>;
  /** Worked out when the picture is asked for, which of most lines after an edit it never is. */
  readonly notes: () => PictureResultView["notes"];
}

/** Notation told of, and the drafts of its pictures by their names. */
export interface NotationDraft {
  readonly view: NotationView;
  readonly drafts: ReadonlyMap<string, PictureDraft>;
}

/** Pixels across that notation is set for: a narrow page is scaled, a wide one has lines of a length to read. */
const WIDTH = { least: 280, most: 1100 };

/** The notation of some music for a page so wide. Undefined where the music is not there any more. */
export function previewNotation(
  checked: Checked,
  params: NotationParams,
  paths: Paths,
  places: Places,
): NotationDraft | undefined {
  const asked = askedSheet(checked, params.music, params, paths);
  if (asked === undefined) return undefined;
  const { exercise, plan, sheet } = asked;
  const { content } = exercise;
  const piece = writtenPiece(content.kind === "notes" ? content.piece : exercise.place.piece);
  const home = checked.homes.get(piece);
  const missing = missingOf(checked, writtenPiece(exercise.place.piece), piece, plan, places);
  const uri = home === undefined ? undefined : places.uriOf(home.file.path);
  const title = titleOf(asked);
  if (sheet === undefined || sheet.bars.length === 0) {
    return {
      view: { title, tempo: undefined, uri, pictures: [], by: "Key", keys: [], legend: [], missing },
      drafts: new Map(),
    };
  }
  const width = Math.round(Math.max(WIDTH.least, Math.min(WIDTH.most, params.width)));
  const pictures = systemPictures(sheet, { width, fingerings: params.fingerings }, () => exercise.name);
  const syllables = syllablesOf(sheet.bars);
  const drafts = new Map<string, PictureDraft>();
  const views = pictures.map((picture) => {
    const draft = draftOf(sheet, picture, asked.player, syllables);
    const name = nameOf(draft);
    drafts.set(name, draft);
    return {
      name,
      title: barsText(title, sheet, picture.from, picture.to),
      first: picture.firstId,
      places: home === undefined ? [] : placesOf(sheet, picture, home.file, home.start),
    };
  });
  const carried = new Set([...drafts.values()].flatMap(({ marks }) => [...marks.values()].flat()));
  const legend = MARK_NAMES.filter((mark) => carried.has(mark)).map((mark) => ({
    mark,
    sign: markSign(mark),
    words: MARK_WORDS[mark],
  }));
  return {
    view: {
      title,
      tempo: { beat: valueName(sheet.tempo.beat), bpm: sheet.tempo.bpm },
      uri,
      pictures: views,
      by: asked.placement.combination === undefined ? "Key" : "Valves",
      keys: keysOf(asked),
      legend,
      missing,
    },
    drafts,
  };
}

function titleOf({ exercise, ask, placement }: AskedSheet): string {
  const several = (ask.placements?.length ?? 0) > 1 && exercise.series === undefined;
  const what = placement.combination === undefined ? "keys" : "combinations";
  const where = several ? `${ask.placements?.length} ${what}` : placementName(placement);
  return where === "" ? exercise.name : `${exercise.name}, ${where}`;
}

/** What could not be read of the exercise, and of the one whose music it borrows. */
function missingOf(
  checked: Checked,
  own: Piece,
  music: Piece,
  plan: AskedSheet["plan"],
  places: Places,
): NotationView["missing"] {
  const pieces = own === music ? [own] : [own, music];
  return pieces.flatMap((piece) => {
    // What reading noted is kept by the plan of the piece's own file.
    const noted = checked.homes.get(piece)?.file.plan ?? plan;
    return missingIn(piece, noted, checked.homes, places);
  });
}

function draftOf(
  sheet: Sheet,
  picture: SystemPicture,
  player: Player | undefined,
  syllables: ReadonlyMap<number, string>,
): PictureDraft {
  const marks = new Map<string, readonly MarkName[]>();
  const nameIn = ({ id }: SheetEvent): string => `e${id - picture.firstId}`;
  const notes = eventsOf(sheet, picture).filter((event) => event.kind === "note");
  for (const note of notes) {
    const carried = marksOf(note, sheet, player);
    if (carried.length > 0) marks.set(nameIn(note), carried);
  }
  const told = (): PictureResultView["notes"] =>
    notes.map((note) => {
      const name = nameIn(note);
      return { name, words: wordsOf(note, syllables.get(note.id), marks.get(name) ?? []) };
    });
  return { task: picture.task, marks, notes: told };
}

function eventsOf({ bars }: Sheet, { from, to }: SystemPicture): readonly SheetEvent[] {
  return bars.slice(from, to).flatMap((bar) => bar.events);
}

function marksOf(note: SheetNote, { instrument }: Sheet, player: Player | undefined): readonly MarkName[] {
  const midi = midiOf(note.pitch);
  const figures = player?.figures;
  const marks: MarkName[] = [];
  if (figures?.upperFrom !== undefined && midi >= midiOf(figures.upperFrom.value)) marks.push("upper");
  const outside = ({ low, high }: { readonly low: Pitch; readonly high: Pitch }): boolean =>
    midi < midiOf(low) || midi > midiOf(high);
  const has = { low: instrument.lowest, high: instrument.exceptional };
  if (outside(has) || (figures?.limit !== undefined && outside(figures.limit.value))) marks.push("never");
  else if (figures?.range !== undefined && outside(figures.range.value)) marks.push("beyond");
  if (note.breath) marks.push("breath");
  return marks;
}

const MARK_WORDS: Readonly<Record<MarkName, string>> = {
  upper: "upper register",
  beyond: "outside the comfortable range",
  never: "outside the limit",
  breath: "then a breath",
};

function wordsOf(note: SheetNote, syllable: string | undefined, marks: readonly MarkName[]): string {
  const sign = pitchSign(note.pitch);
  const spoken = spokenPitch(note.pitch);
  const parts = [
    sign === spoken ? sign : `${spoken} (${sign})`,
    valueName(note.tuplet === undefined ? note.value : printedValue(note)),
  ];
  if (note.tied) parts.push("tied");
  if (note.fingered !== undefined)
    parts.push(note.fingered.name === "0" ? "open" : `fingered ${note.fingered.name}`);
  if (syllable !== undefined) parts.push(`“${syllable}”`);
  return [...parts, ...marks.map((mark) => MARK_WORDS[mark])].join(", ");
}

/** Where the events of a picture stand in the text: four numbers for each. */
function placesOf(sheet: Sheet, picture: SystemPicture, file: CheckedFile, start: number): readonly number[] {
  const numbers: number[] = [];
  for (const { span } of eventsOf(sheet, picture)) {
    const [from, to] = [positionOf(file, start + span.start), positionOf(file, start + span.end)];
    numbers.push(from.line, from.character, to.line, to.character);
  }
  return numbers;
}

/** The keys or combinations that can be chosen, in the order of the scale from home. */
function keysOf({ exercise, ask, player, plan }: AskedSheet): readonly KeyChoice[] {
  const { instrument } = ask;
  const home = homePlacement(exercise, instrument);
  if (home.combination !== undefined) {
    return instrument.combinations.map((combination) => {
      const placement = { ...home, combination, semitones: 0 - combination.semitones };
      return { id: placementId(placement), name: placementName(placement), lies: "" };
    });
  }
  const around = keysAround(exercise, instrument).toSorted((a, b) => a.semitones - b.semitones);
  const { low, high } = profileOf({ exercise, instrument, settings: plan.settings });
  return around.map((placement) => ({
    id: placementId(placement),
    name: placementName(placement),
    lies:
      low === undefined || high === undefined || player === undefined
        ? ""
        : lyingFor(low + placement.semitones, high + placement.semitones, [player]).lies,
  }));
}

/** Names of contents that were met before, so that most lines after an edit are only looked up. */
const names = new Map<string, string>();
const MOST_NAMES = 1200;

/** A name that is the same for equal drafts: 64 bits drawn from the content, and its length. */
function nameOf({ task, marks }: PictureDraft): string {
  const content = `${task.width} ${task.broken} ${task.title} ${[...marks].join(" ")}\n${task.musicXml}`;
  const known = names.get(content);
  if (known !== undefined) return known;
  const name = `p${hash(content, 0x811c9dc5)}${hash(content, 0x01234567)}-${content.length.toString(36)}`;
  names.set(content, name);
  for (const oldest of names.keys()) {
    if (names.size <= MOST_NAMES) break;
    names.delete(oldest);
  }
  return name;
}

/** The 32-bit hash of Fowler, Noll and Vo (FNV-1a) from a basis of one's own choice. */
function hash(text: string, basis: number): string {
  let value = basis;
  for (let index = 0; index < text.length; index++) {
    value = Math.imul(value ^ text.charCodeAt(index), 0x01000193);
  }
  return (value >>> 0).toString(36);
}
