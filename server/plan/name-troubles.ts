import type { Piece } from "../../grammar/piece";
import type { Name } from "../../grammar/tree";
import type { Declared } from "./declared";
import { findsAll } from "./finds-all";
import { NONE } from "./listed";
import { nearest } from "./nearest";
import type { Plan } from "./plan";
import type { Record } from "./record";
import type { SessionContent, Term } from "./term";
import type { NamedThing, Trouble } from "./trouble";

/** The tables that the names of a plan are looked up in. */
type KnownNames = Pick<Plan, "areas" | "exercises" | "exerciseNames" | "routines" | "players" | "terms">;

/** A name that nothing bears. */
export function unknownName(
  piece: Piece,
  what: NamedThing,
  { text, span }: Name,
  candidates: Iterable<string>,
): Trouble {
  return {
    kind: "unknown-name",
    place: { piece, span },
    what,
    name: text,
    nearest: nearest(text, candidates),
  };
}

/** What a declaration asks for by a name that nothing bears. What an exercise or a player is like is not among it. */
export function nameTroubles(declared: Declared, known: KnownNames): readonly Trouble[] {
  switch (declared.kind) {
    case "use":
    case "studio":
    case "area":
    case "player":
      return NONE;
    case "exercise": {
      const { fields, piece } = declared.draft;
      const area = fields.of("in");
      return area === undefined || known.areas.has(area.area.text)
        ? NONE
        : [unknownName(piece, "area", area.area, known.areas.keys())];
    }
    case "routine":
      return [...ofContent(declared.routine.content, declared.routine.place.piece, known)];
    case "term":
      return declared.term === undefined || findsAll(declared.term, known)
        ? NONE
        : [...ofTerm(declared.term, known)];
    case "record":
      return [...ofRecord(declared.record, known)];
  }
}

function* ofTerm(term: Term, known: KnownNames): Generator<Trouble> {
  const { piece } = term.place;
  const { players, routines } = known;
  for (const player of term.players) {
    if (!players.has(player.text)) yield unknownName(piece, "player", player, players.keys());
  }
  for (const weeks of term.weeks) {
    for (const { content, routine } of weeks.sessions) {
      yield* ofContent(content, piece, known);
      if (routine !== undefined && !routines.has(routine.text)) {
        yield unknownName(piece, "routine", routine, routines.keys());
      }
    }
  }
  for (const { player, changes } of term.changes) {
    if (!players.has(player.text)) yield unknownName(piece, "player", player, players.keys());
    for (const change of changes) {
      if (change.kind !== "replace" && change.kind !== "leave out") continue;
      yield* ofExercise({ text: change.exercise, span: change.namePlace.span }, piece, known);
      if (change.kind === "replace") {
        yield* ofExercise({ text: change.by, span: change.byPlace.span }, piece, known);
      }
    }
  }
}

function* ofRecord(record: Record, known: KnownNames): Generator<Trouble> {
  const { piece } = record.place;
  const { terms, players } = known;
  if (!terms.has(record.term.text)) yield unknownName(piece, "term", record.term, terms.keys());
  for (const { player, entries } of record.lines) {
    if (!players.has(player.text)) yield unknownName(piece, "player", player, players.keys());
    for (const entry of entries) {
      if (entry.kind === "except" || entry.kind === "passed" || entry.kind === "played") {
        yield* ofExercise(entry.exercise, piece, known);
      }
    }
  }
}

function* ofContent(content: SessionContent, piece: Piece, known: KnownNames): Generator<Trouble> {
  for (const item of content.items) {
    if ("exercise" in item) {
      yield* ofExercise({ text: item.exercise, span: item.namePlace.span }, piece, known);
    }
  }
  if (content.short !== undefined) yield* ofContent(content.short, piece, known);
}

function* ofExercise(name: Name, piece: Piece, { exerciseNames }: KnownNames): Generator<Trouble> {
  if (!exerciseNames.has(name.text)) yield unknownName(piece, "exercise", name, exerciseNames.keys());
}
