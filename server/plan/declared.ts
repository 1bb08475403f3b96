import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import type { UseDeclaration } from "../../grammar/tree";
import { type Area, readArea } from "./area";
import { type ExerciseDraft, readExercise } from "./exercise";
import { NONE } from "./listed";
import { type PlayerDraft, readPlayer } from "./player";
import { type Record, readRecord } from "./record";
import { readSettings, type Settings } from "./settings";
import { type Routine, readRoutine, readTerm, type Term } from "./term";
import type { Trouble } from "./trouble";

/** What a declaration means, read by itself: names are looked up later. */
export type Declared =
  | { readonly kind: "use"; readonly declaration: UseDeclaration }
  | { readonly kind: "studio"; readonly settings: Settings }
  | { readonly kind: "area"; readonly area: Area }
  | { readonly kind: "exercise"; readonly draft: ExerciseDraft }
  | { readonly kind: "player"; readonly draft: PlayerDraft }
  | { readonly kind: "routine"; readonly routine: Routine }
  | { readonly kind: "term"; readonly term: Term | undefined }
  | { readonly kind: "record"; readonly record: Record };

interface ReadPiece {
  readonly declared: Declared;
  /** What could not be meant in it, whatever stands elsewhere. */
  readonly troubles: readonly Trouble[];
}

/** A piece that did not change is read once and keeps what it means. */
const readPieces = new Memory<Piece, ReadPiece>();

/** What a piece declares; undefined for one of comments, or of text that is no declaration. */
export function readPiece(piece: Piece): ReadPiece | undefined {
  const known = readPieces.get(piece);
  if (known !== undefined) return known;
  const read = readDeclaration(piece);
  if (read !== undefined) readPieces.set(piece, read);
  return read;
}

function readDeclaration(piece: Piece): ReadPiece | undefined {
  const { declaration } = piece;
  if (declaration === undefined) return undefined;
  switch (declaration.kind) {
    case "use":
      return { declared: { kind: "use", declaration }, troubles: NONE };
    case "studio": {
      const { settings, reader } = readSettings(piece, declaration);
      return { declared: { kind: "studio", settings }, troubles: reader.troubles };
    }
    case "area": {
      const { area, reader } = readArea(piece, declaration);
      return { declared: { kind: "area", area }, troubles: reader.troubles };
    }
    case "exercise": {
      const draft = readExercise(piece, declaration);
      return { declared: { kind: "exercise", draft }, troubles: draft.troubles };
    }
    case "level":
    case "student": {
      const draft = readPlayer(piece, declaration);
      return { declared: { kind: "player", draft }, troubles: draft.reader.troubles };
    }
    case "routine": {
      const { routine, reader } = readRoutine(piece, declaration);
      return { declared: { kind: "routine", routine }, troubles: reader.troubles };
    }
    case "term": {
      const { term, reader } = readTerm(piece, declaration);
      return { declared: { kind: "term", term }, troubles: reader.troubles };
    }
    case "record": {
      const { record, reader } = readRecord(piece, declaration);
      return { declared: { kind: "record", record }, troubles: reader.troubles };
    }
  }
}
