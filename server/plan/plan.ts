import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import type { UseDeclaration } from "../../grammar/tree";
import type { Area } from "./area";
import { type Declared, readPiece } from "./declared";
import { completeExercise, type Exercise, type ExerciseDraft } from "./exercise";
import { ExerciseLines } from "./exercise-lines";
import { nameTroubles, unknownName } from "./name-troubles";
import { askedBy, JointNames, type Names } from "./names";
import { oneTermChanged } from "./one-term-changed";
import type { Place } from "./place";
import { completePlayer, type Player, type PlayerDraft } from "./player";
import type { Record } from "./record";
import { sameList } from "./same-list";
import { type Settings, STARTING_SETTINGS } from "./settings";
import type { Routine, Term } from "./term";
import { namesInRoutine } from "./term-names";
import type { NamedThing, Trouble } from "./trouble";

/** Everything one file means, with the files it uses: names resolved, units read. */
export interface Plan {
  readonly settings: Settings;
  /** In the order of practice. */
  readonly areas: ReadonlyMap<string, Area>;
  readonly exercises: ReadonlyMap<string, Exercise>;
  /** Also of exercises that cannot be played as they stand. */
  readonly exerciseNames: ReadonlyMap<string, unknown>;
  readonly routines: ReadonlyMap<string, Routine>;
  readonly players: ReadonlyMap<string, Player>;
  readonly terms: ReadonlyMap<string, Term>;
  readonly records: readonly Record[];
  /** Declared in the file itself, not in one it uses. */
  readonly own: {
    readonly exercises: readonly Exercise[];
    readonly routines: readonly Routine[];
    readonly players: readonly Player[];
    readonly terms: readonly Term[];
    readonly settings: boolean;
    readonly uses: readonly { readonly declaration: UseDeclaration; readonly place: Place }[];
  };
  /** Names of exercises and routines that this file asks for anywhere. */
  readonly mentioned: JointNames;
  /** What could not be meant, in the file itself. */
  readonly troubles: readonly Trouble[];
}

interface Completed {
  readonly base: ExerciseDraft | undefined;
  readonly exercise: Exercise | undefined;
  readonly troubles: readonly Trouble[];
}

const completedExercises = new Memory<ExerciseDraft, Completed>();

function completed(draft: ExerciseDraft, base: ExerciseDraft | undefined): Completed {
  const known = completedExercises.get(draft);
  if (known !== undefined && known.base === base) return known;
  const { exercise, troubles } = completeExercise(draft, base);
  const fresh: Completed = { base, exercise, troubles };
  completedExercises.set(draft, fresh);
  return fresh;
}

interface CompletedPlayer {
  readonly bases: readonly PlayerDraft[];
  readonly player: Player;
}

const completedPlayers = new Memory<PlayerDraft, CompletedPlayer>();

function completedPlayer(draft: PlayerDraft, bases: readonly PlayerDraft[]): Player {
  const known = completedPlayers.get(draft);
  if (
    known !== undefined &&
    known.bases.length === bases.length &&
    known.bases.every((b, i) => b === bases[i])
  ) {
    return known.player;
  }
  const player = completePlayer(draft, bases);
  completedPlayers.set(draft, { bases, player });
  return player;
}

/**
 * The plan of a file. `used` are the files it uses, farthest first, each once; `records` what other files
 * recorded of its terms. `before` is what the same file meant a moment ago: whole tables of names that came out
 * the same are taken over from it, so that who finds the same table again need not look into it.
 */
export function buildPlan(
  own: readonly Piece[],
  used: readonly (readonly Piece[])[],
  records: readonly Record[] = [],
  before?: BuiltPlan,
): Plan {
  const sameAround = before !== undefined && sameList(before.used, used) && sameList(before.records, records);
  const changed = sameAround ? oneTermChanged(own, before) : undefined;
  return changed ?? new Builder().build(own, used, records, before?.plan);
}

/** A plan, and what it was built from. */
export interface BuiltPlan {
  readonly own: readonly Piece[];
  readonly used: readonly (readonly Piece[])[];
  readonly records: readonly Record[];
  readonly plan: Plan;
}

/** The table of before where nothing in it differs. */
function sameTable<T>(
  before: ReadonlyMap<string, T> | undefined,
  now: ReadonlyMap<string, T>,
): ReadonlyMap<string, T> {
  if (before === undefined || before.size !== now.size) return now;
  const names = before.keys();
  for (const [name, thing] of now) {
    if (names.next().value !== name || before.get(name) !== thing) return now;
  }
  return before;
}

class Builder {
  private settings: Settings = STARTING_SETTINGS;
  private readonly areas = new Map<string, Area>();
  private readonly drafts = new Map<string, ExerciseDraft>();
  private readonly playerDrafts = new Map<string, PlayerDraft>();
  private readonly routines = new Map<string, Routine>();
  private readonly terms = new Map<string, Term>();
  private readonly records: Record[] = [];
  private readonly troubles: Trouble[] = [];
  private readonly mentioned = new Set<string>();
  /** Of the studio that was declared first. */
  private studio: Place | undefined;

  build(
    own: readonly Piece[],
    used: readonly (readonly Piece[])[],
    records: readonly Record[],
    before: Plan | undefined,
  ): Plan {
    for (const file of used) for (const piece of file) this.declare(piece, false);
    // What comes after these in the tables is of the file itself.
    let usedDrafts = this.drafts.size;
    let usedPlayers = this.playerDrafts.size;
    const mine: Declared[] = [];
    const uses: { readonly declaration: UseDeclaration; readonly place: Place }[] = [];
    for (const piece of own) {
      const declared = this.declare(piece, true);
      if (declared === undefined) continue;
      mine.push(declared);
      if (declared.kind !== "use") continue;
      const { declaration } = declared;
      uses.push({ declaration, place: { piece, span: declaration.path.span } });
    }
    for (const record of records) if (!this.records.includes(record)) this.records.push(record);

    const allExercises = new Map<string, Exercise>();
    for (const [name, draft] of this.drafts) {
      const isOwn = usedDrafts-- <= 0;
      const result = completed(draft, this.baseOf(draft, isOwn));
      if (isOwn) this.troubles.push(...result.troubles);
      if (result.exercise !== undefined) allExercises.set(name, result.exercise);
    }
    const allPlayers = new Map<string, Player>();
    for (const [name, draft] of this.playerDrafts) {
      const isOwn = usedPlayers-- <= 0;
      allPlayers.set(name, completedPlayer(draft, this.playerBases(draft, isOwn)));
    }
    const exercises = sameTable(before?.exercises, allExercises);
    const players = sameTable(before?.players, allPlayers);
    const routines = sameTable(before?.routines, this.routines);
    const { areas, terms } = this;
    const known = { areas, exercises, exerciseNames: this.drafts, routines, players, terms };
    const asking: Names[] = [this.mentioned];
    const ownExercises: Exercise[] = [];
    const ownRoutines: Routine[] = [];
    const ownPlayers: Player[] = [];
    const ownTerms: Term[] = [];
    let settings = false;
    for (const each of mine) {
      switch (each.kind) {
        case "exercise": {
          const exercise = exercises.get(each.draft.declaration.name.text);
          if (exercise !== undefined) ownExercises.push(exercise);
          break;
        }
        case "routine":
          ownRoutines.push(each.routine);
          asking.push(namesInRoutine(each.routine));
          break;
        case "player": {
          const player = players.get(each.draft.declaration.name.text);
          if (player !== undefined) ownPlayers.push(player);
          break;
        }
        case "term":
          if (each.term === undefined) break;
          ownTerms.push(each.term);
          asking.push(...askedBy(each.term));
          break;
        case "studio":
          settings = true;
          break;
        case "use":
        case "area":
        case "record":
          break;
      }
      const troubles = nameTroubles(each, known);
      if (troubles.length > 0) this.troubles.push(...troubles);
    }
    return {
      settings: this.settings,
      ...known,
      records: this.records,
      own: {
        exercises: ownExercises,
        routines: ownRoutines,
        players: ownPlayers,
        terms: ownTerms,
        settings,
        uses,
      },
      mentioned: new JointNames(asking),
      troubles: this.troubles,
    };
  }

  private declare(piece: Piece, own: boolean): Declared | undefined {
    const read = readPiece(piece);
    if (read === undefined) return undefined;
    if (own) this.troubles.push(...read.troubles);
    const { declared } = read;
    switch (declared.kind) {
      case "use":
        break;
      case "studio": {
        // There is one studio, whatever it is called.
        const { name } = declared.settings;
        const place = { piece, span: piece.declaration!.span };
        if (this.studio !== undefined) this.second(own, "studio", name ?? "", place, this.studio);
        else {
          this.studio = place;
          this.settings = declared.settings;
        }
        break;
      }
      case "area": {
        const { area } = declared;
        const first = this.areas.get(area.name);
        if (first === undefined) this.areas.set(area.name, area);
        else this.second(own, "area", area.name, area.place, first.place);
        break;
      }
      case "exercise": {
        const { draft } = declared;
        const name = draft.declaration.name.text;
        const first = this.drafts.get(name);
        if (first === undefined) this.drafts.set(name, draft);
        else this.second(own, "exercise", name, placeOf(draft), placeOf(first));
        break;
      }
      case "player": {
        const { draft } = declared;
        const name = draft.declaration.name.text;
        const first = this.playerDrafts.get(name);
        if (first === undefined) this.playerDrafts.set(name, draft);
        else this.second(own, "player", name, placeOf(draft), placeOf(first));
        break;
      }
      case "routine": {
        const { routine } = declared;
        const first = this.routines.get(routine.name);
        if (first === undefined) this.routines.set(routine.name, routine);
        else this.second(own, "routine", routine.name, routine.place, first.place);
        break;
      }
      case "term": {
        const { term } = declared;
        if (term === undefined) break;
        const first = this.terms.get(term.name);
        if (first === undefined) this.terms.set(term.name, term);
        else this.second(own, "term", term.name, term.place, first.place);
        break;
      }
      case "record":
        this.records.push(declared.record);
        break;
    }
    return declared;
  }

  /** Notes that something bears the name of another, which holds. */
  private second(own: boolean, what: NamedThing, name: string, place: Place, first: Place): void {
    if (own) this.troubles.push({ kind: "duplicate-name", place, what, name, first });
  }

  /** The exercise that another is like, itself complete with what it is like; circles are cut and noted. */
  private baseOf(draft: ExerciseDraft, own: boolean): ExerciseDraft | undefined {
    if (draft.declaration.like === undefined) return undefined;
    const chain: ExerciseDraft[] = [];
    const seen = new Set<ExerciseDraft>([draft]);
    let at = draft;
    for (;;) {
      const like = at.declaration.like;
      if (like === undefined) break;
      const base = this.drafts.get(like.text);
      if (base === undefined) {
        if (own && at === draft)
          this.troubles.push(unknownName(draft.piece, "exercise", like, this.drafts.keys()));
        break;
      }
      if (own && at === draft) this.mentioned.add(like.text);
      if (seen.has(base)) {
        if (own) {
          const name = draft.declaration.name.text;
          this.troubles.push({ kind: "like-circle", place: placeOf(draft), name });
        }
        break;
      }
      seen.add(base);
      chain.push(base);
      at = base;
    }
    return chain.length === 0 ? undefined : mergedDraft(chain);
  }

  private playerBases(draft: PlayerDraft, own: boolean): readonly PlayerDraft[] {
    const bases: PlayerDraft[] = [];
    let at = draft;
    for (;;) {
      const like = at.declaration.like;
      if (like === undefined) return bases;
      const base = this.playerDrafts.get(like.text);
      if (base === undefined) {
        if (own && at === draft)
          this.troubles.push(unknownName(draft.piece, "player", like, this.playerDrafts.keys()));
        return bases;
      }
      if (base === draft || bases.includes(base)) {
        if (own) {
          const name = draft.declaration.name.text;
          this.troubles.push({ kind: "like-circle", place: placeOf(draft), name });
        }
        return bases;
      }
      bases.push(base);
      at = base;
    }
  }
}

/** One draft that says what a whole chain of likes says, nearest first; made once for the same chain. */
function mergedDraft(chain: readonly ExerciseDraft[]): ExerciseDraft {
  const [nearestDraft, ...farther] = chain;
  if (nearestDraft === undefined) throw new RangeError("an empty chain has no draft");
  if (farther.length === 0) return nearestDraft;
  const known = mergedDrafts.get(nearestDraft);
  if (known !== undefined && sameList(known.chain, chain)) return known.draft;
  // The first line of a kind holds: what the nearest says, it says for all.
  const fields = new ExerciseLines(chain.flatMap((each) => each.fields.all));
  const draft = { ...nearestDraft, fields, aims: chain.flatMap((each) => each.aims) };
  mergedDrafts.set(nearestDraft, { chain, draft });
  return draft;
}

const mergedDrafts = new Memory<
  ExerciseDraft,
  { readonly chain: readonly ExerciseDraft[]; readonly draft: ExerciseDraft }
>();

/** Where the name of an exercise or a player stands. */
function placeOf({ piece, declaration }: ExerciseDraft | PlayerDraft): Place {
  return { piece, span: declaration.name.span };
}

/** The players a term is for: those it names, and every student who is like one of them. */
export function playersOf(plan: Plan, term: Term): readonly Player[] {
  const named = new Set(term.players.map((player) => player.text));
  const players: Player[] = [];
  for (const player of plan.players.values()) {
    if (
      named.has(player.name) ||
      (player.kind === "student" && player.likes.some((like) => named.has(like)))
    ) {
      players.push(player);
    }
  }
  return players;
}
