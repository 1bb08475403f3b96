import type { Piece } from "../../grammar/piece";
import type { Name, RecordDeclaration, RecordEntry } from "../../grammar/tree";
import { parseTonic, tonicClass } from "../music/key";
import type { Place } from "./place";
import { Reader } from "./reader";

/** One line of what was really played. */
export interface RecordLine {
  /** A taught week, or a single day. */
  readonly week: number | undefined;
  readonly date: number | undefined;
  readonly player: Name;
  readonly entries: readonly RecordEntry[];
  /** Felt effort, 0 to 10, as the student says it. */
  readonly felt: number | undefined;
  readonly place: Place;
}

export interface Record {
  readonly term: Name;
  readonly lines: readonly RecordLine[];
  readonly place: Place;
}

export function readRecord(piece: Piece, declaration: RecordDeclaration): { record: Record; reader: Reader } {
  const reader = new Reader(piece);
  const lines: RecordLine[] = [];
  for (const line of declaration.block?.items ?? []) {
    if (line.kind === "unread") continue;
    const date = "date" in line.when ? reader.date(line.when.date) : undefined;
    if ("date" in line.when && date === undefined) continue;
    const week = "week" in line.when ? reader.number(line.when.week, "week", 1, 60) : undefined;
    let felt: number | undefined;
    for (const entry of line.entries) {
      if (entry.kind === "felt") felt = reader.number(entry.effort, "felt", 0, 10);
    }
    lines.push({ week, date, player: line.player, entries: line.entries, felt, place: reader.place(line) });
  }
  return { record: { term: declaration.term, lines, place: reader.place(declaration.term) }, reader };
}

/** A lesson at which an exercise, in one key or whatever the key, did or did not pass. */
export interface LessonVerdict {
  readonly date: number;
  readonly player: string;
  readonly exercise: string;
  /** Half steps above C of the tonic; undefined for any key. */
  readonly tonic: number | undefined;
  readonly passed: boolean;
}

/** Every verdict of the records of one term. */
export function verdictsOf(records: readonly Record[], term: string): readonly LessonVerdict[] {
  const verdicts: LessonVerdict[] = [];
  for (const record of records) {
    if (record.term.text !== term) continue;
    for (const line of record.lines) {
      if (line.date === undefined) continue;
      for (const entry of line.entries) {
        if (entry.kind !== "passed") continue;
        const tonic = entry.key === undefined ? undefined : parseTonic(entry.key.tonic);
        verdicts.push({
          date: line.date,
          player: line.player.text,
          exercise: entry.exercise.text,
          tonic: tonic === undefined ? undefined : tonicClass(tonic),
          passed: entry.passed,
        });
      }
    }
  }
  return verdicts;
}
