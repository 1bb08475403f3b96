import type { ExerciseField, Unread } from "../../grammar/tree";

/** A line between the braces of an exercise. */
export type DraftLine = ExerciseField | Unread;
export type FieldOf<K extends ExerciseField["kind"]> = Extract<ExerciseField, { readonly kind: K }>;

/** Whether a line of a kind says what is played: an exercise has one such line, and saying one replaces all kinds. */
export function isContent(kind: DraftLine["kind"]): boolean {
  return kind === "music" || kind === "printed" || kind === "activity";
}

/** The lines of an exercise, to be asked for by their kind. Where several are of one kind, the first one holds. */
export class ExerciseLines {
  /** Their kinds alone: lines are made of different things, and each exercise asks for some fifteen kinds. */
  private readonly kinds: readonly DraftLine["kind"][];
  /** Whether one of them says what is played. */
  readonly sayContent: boolean;

  constructor(readonly all: readonly DraftLine[]) {
    this.kinds = all.map(({ kind }) => kind);
    this.sayContent = this.kinds.some(isContent);
  }

  /** The line of a kind that holds, if there is one. */
  of<K extends ExerciseField["kind"]>(kind: K): FieldOf<K> | undefined {
    const line = this.all[this.kinds.indexOf(kind)];
    return line !== undefined && isOfKind(line, kind) ? line : undefined;
  }

  /** Whether two of them say the same kind of thing. */
  sayTwice(): boolean {
    let content = false;
    return this.kinds.some((kind, at) => {
      // There may be as many of these as one likes.
      if (kind === "aim" || kind === "let" || kind === "unread") return false;
      if (!isContent(kind)) return this.kinds.indexOf(kind) !== at;
      if (content) return true;
      content = true;
      return false;
    });
  }
}

function isOfKind<K extends ExerciseField["kind"]>(line: DraftLine, kind: K): line is FieldOf<K> {
  return line.kind === kind;
}
