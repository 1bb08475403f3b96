import { type DocumentSymbol, SymbolKind } from "vscode-languageserver-types";
import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import { printClause, printDays, printEvery, printTime, printWeeks } from "../../grammar/print-leaves";
import type { Span } from "../../grammar/span";
import type {
  Declaration,
  Name,
  SessionItem,
  TermField,
  TimeText,
  Unread,
  WeeksItem,
} from "../../grammar/tree";
import type { NamedThing } from "../plan/trouble";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, spanRange } from "./lines-of";
import { insideQuotes, mentionsOf } from "./names";

/** The outline of a file: what it declares, and a term down to what is practised. */
export function documentSymbols(checked: Checked, path: string): DocumentSymbol[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  return file.tree.pieces.flatMap((piece, i) => {
    const sketch = sketchOf(piece);
    return sketch === undefined ? [] : [placed(sketch, file, piece, file.tree.starts[i] ?? 0)];
  });
}

/** The sign an editor puts before each kind of thing. */
export const THING_SYMBOLS: Readonly<Record<NamedThing, SymbolKind>> = {
  area: SymbolKind.Namespace,
  exercise: SymbolKind.Function,
  routine: SymbolKind.Method,
  player: SymbolKind.Class,
  term: SymbolKind.Module,
  studio: SymbolKind.Package,
};

/** A symbol whose spans are still counted from the start of the piece, so that it is made once for each piece. */
interface Sketch {
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
  readonly span: Span;
  /** What is selected when it is gone to; inside `span`. */
  readonly chosen: Span;
  readonly children: readonly Sketch[];
}

const sketches = new Memory<Piece, { readonly sketch: Sketch | undefined }>();

function sketchOf(piece: Piece): Sketch | undefined {
  const known = sketches.get(piece);
  if (known !== undefined) return known.sketch;
  const sketch =
    piece.declaration === undefined ? unreadDeclaration(piece) : declarationSketch(piece, piece.declaration);
  sketches.set(piece, { sketch });
  return sketch;
}

function placed(sketch: Sketch, file: CheckedFile, piece: Piece, start: number): DocumentSymbol {
  const symbol: DocumentSymbol = {
    name: sketch.name,
    kind: sketch.kind,
    range: spanRange(file, start, sketch.span),
    selectionRange: spanRange(file, start, sketch.chosen),
  };
  if (sketch.detail !== "") symbol.detail = sketch.detail;
  if (sketch.children.length > 0) {
    symbol.children = sketch.children.map((child) => placed(child, file, piece, start));
  }
  return symbol;
}

/** What a declaration is called while its first line cannot be read, so that the outline does not jump. */
function unreadDeclaration(piece: Piece): Sketch | undefined {
  const mention = mentionsOf(piece).find(({ declares }) => declares);
  if (mention === undefined) return undefined;
  return {
    name: mention.text.trim() || mention.kind,
    detail: "",
    kind: THING_SYMBOLS[mention.kind],
    span: { start: mention.span.start, end: Math.max(mention.span.end, piece.text.trimEnd().length) },
    chosen: insideQuotes(piece.text, mention.span),
    children: [],
  };
}

function declarationSketch(piece: Piece, declaration: Declaration): Sketch | undefined {
  const { span } = declaration;
  const of = (
    kind: SymbolKind,
    name: Name | undefined,
    detail: string,
    children: readonly Sketch[] = [],
  ): Sketch => ({
    name: name?.text.trim() || declaration.kind,
    detail,
    kind,
    span,
    chosen: name === undefined ? { start: span.start, end: span.start } : insideQuotes(piece.text, name.span),
    children,
  });
  switch (declaration.kind) {
    case "use":
      return undefined;
    case "studio":
      return of(THING_SYMBOLS.studio, declaration.name, declaration.name === undefined ? "" : "studio");
    case "area":
      return of(THING_SYMBOLS.area, declaration.name, "area");
    case "exercise": {
      const area = declaration.block?.items.find((field) => field.kind === "in");
      const detail = area === undefined ? likeDetail("exercise", declaration.like) : area.area.text;
      return of(THING_SYMBOLS.exercise, declaration.name, detail);
    }
    case "routine":
      return of(
        THING_SYMBOLS.routine,
        declaration.name,
        minutesDetail("routine", declaration.minutes),
        sessionItems(piece, declaration.block?.items),
      );
    case "level":
    case "student":
      return of(THING_SYMBOLS.player, declaration.name, likeDetail(declaration.kind, declaration.like));
    case "term": {
      const players = declaration.players.map(({ text }) => text).join(", ");
      const fields = declaration.block?.items ?? [];
      return of(
        THING_SYMBOLS.term,
        declaration.name,
        `for ${players}`,
        fields.flatMap((field) => termField(piece, field)),
      );
    }
    case "record":
      return of(SymbolKind.File, declaration.term, "record");
  }
}

function likeDetail(kind: string, like: Name | undefined): string {
  return like === undefined ? kind : `like ${like.text}`;
}

function minutesDetail(words: string, minutes: TimeText | undefined): string {
  return minutes === undefined ? words : `${words}, ${printTime(minutes)}`;
}

function termField(piece: Piece, field: TermField | Unread): readonly Sketch[] {
  switch (field.kind) {
    case "weeks":
      return [
        {
          name: printWeeks(field.weeks),
          detail: "",
          kind: SymbolKind.Array,
          span: field.span,
          chosen: field.weeks.span,
          children: (field.block?.items ?? []).flatMap((item) => session(piece, item)),
        },
      ];
    case "change":
      return [
        {
          name: field.player.text.trim() || "change",
          detail: "change",
          kind: SymbolKind.Object,
          span: field.span,
          chosen: insideQuotes(piece.text, field.player.span),
          children: [],
        },
      ];
    case "booked": {
      const word = field.concert ? "concert" : "booked";
      return [
        {
          name: field.name.text.trim() || word,
          detail: `${word} ${printEvery(field.days)}`,
          kind: SymbolKind.Event,
          span: field.span,
          chosen: insideQuotes(piece.text, field.name.span),
          children: [],
        },
      ];
    }
    default:
      return [];
  }
}

function session(piece: Piece, item: WeeksItem | Unread): readonly Sketch[] {
  if (item.kind !== "session") return [];
  const name = item.name ?? item.routine;
  return [
    {
      name: name?.text.trim() || "session",
      detail: minutesDetail(printDays(item.days), item.minutes),
      kind: SymbolKind.Event,
      span: item.span,
      chosen: name === undefined ? item.days.span : insideQuotes(piece.text, name.span),
      children: sessionItems(piece, item.block?.items),
    },
  ];
}

function sessionItems(piece: Piece, items: readonly (SessionItem | Unread)[] | undefined): readonly Sketch[] {
  return (items ?? []).flatMap((item): readonly Sketch[] => {
    if (item.kind === "assignment") {
      return [
        {
          name: item.exercise.text.trim() || "assignment",
          detail: item.clauses.map(printClause).join("  "),
          kind: SymbolKind.Field,
          span: item.span,
          chosen: insideQuotes(piece.text, item.exercise.span),
          children: [],
        },
      ];
    }
    if (item.kind !== "short") return [];
    return [
      {
        name: "short",
        detail: item.minutes === undefined ? "" : printTime(item.minutes),
        kind: SymbolKind.Event,
        span: item.span,
        chosen: { start: item.span.start, end: item.span.start + "short".length },
        children: sessionItems(piece, item.block.items),
      },
    ];
  });
}
