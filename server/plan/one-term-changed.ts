import type { Piece } from "../../grammar/piece";
import { type Declared, readPiece } from "./declared";
import { nameTroubles } from "./name-troubles";
import { askedBy } from "./names";
import type { BuiltPlan, Plan } from "./plan";
import type { Term } from "./term";
import type { Trouble } from "./trouble";

/**
 * The plan of a file in which nothing but one term was changed since the plan of before was built: who types in a
 * term of a long file need not wait for the rest of it. Undefined where anything else may have changed with it;
 * then the plan is to be built.
 */
export function oneTermChanged(
  own: readonly Piece[],
  { own: ownBefore, plan }: Pick<BuiltPlan, "own" | "plan">,
): Plan | undefined {
  if (own.length !== ownBefore.length) return undefined;
  const at = own.findIndex((piece, i) => piece !== ownBefore[i]);
  const now = own[at];
  const before = ownBefore[at];
  if (now === undefined || before === undefined) return undefined;
  for (let i = at + 1; i < own.length; i++) if (own[i] !== ownBefore[i]) return undefined;
  const old = termOf(before);
  const fresh = termOf(now);
  if (old === undefined || fresh === undefined || old.term.name !== fresh.term.name) return undefined;
  // Of two terms of one name the first holds; which that is may change with them.
  if (plan.terms.get(old.term.name) !== old.term || plan.troubles.some((each) => isSecondTo(before, each))) {
    return undefined;
  }
  const { term } = fresh;
  return {
    ...plan,
    terms: new Map(plan.terms).set(term.name, term),
    own: { ...plan.own, terms: plan.own.terms.map((each) => (each === old.term ? term : each)) },
    mentioned: plan.mentioned.replacing(askedBy(old.term), askedBy(term)),
    troubles: [
      ...plan.troubles.filter(({ place }) => place.piece !== before),
      ...fresh.troubles,
      ...nameTroubles(fresh.declared, plan),
    ],
  };
}

interface TermRead {
  readonly declared: Declared;
  readonly term: Term;
  readonly troubles: readonly Trouble[];
}

/** The term that a piece declares. */
function termOf(piece: Piece): TermRead | undefined {
  const read = readPiece(piece);
  if (read?.declared.kind !== "term" || read.declared.term === undefined) return undefined;
  return { ...read, term: read.declared.term };
}

/** Whether it is said of something that it bears the name of what stands in this piece. */
function isSecondTo(piece: Piece, trouble: Trouble): boolean {
  return trouble.kind === "duplicate-name" && trouble.first.piece === piece;
}
