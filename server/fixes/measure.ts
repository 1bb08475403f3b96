import type { Piece } from "../../grammar/piece";
import type { Assignment as AssignmentTree } from "../../grammar/tree";
import { buildPlan } from "../plan/plan";
import { checkPlan } from "../rules/check";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import { replaced } from "./replaced";

/**
 * What would be found with one assignment changed: the plan is built from a copy of the piece and checked
 * again for every player who shares it. All places stay comparable, since a changed node keeps its span.
 */
export function findingsWith(
  ground: Ground,
  piece: Piece,
  old: AssignmentTree,
  fresh: AssignmentTree,
): readonly Finding[] {
  const { declaration } = piece;
  if (declaration === undefined) return [];
  const changed: Piece = { ...piece, declaration: replaced(declaration, old, fresh) };
  const own = ground.own.map((each) => (each === piece ? changed : each));
  return checkPlan(buildPlan(own, ground.used, ground.records), ground.around).map((finding) =>
    finding.place.piece === changed ? { ...finding, place: { piece, span: finding.place.span } } : finding,
  );
}

/**
 * What a change may bring about without doing harm: a shorter walk starts over sooner, and what comes back within
 * the limit may still lie outside the comfortable range.
 */
const HARMLESS: ReadonlySet<string> = new Set(["walk-restarts", "outside-range"]);

/** Whether a finding is gone, and nothing is found that was not there before, on no more days and for no more players. */
export function improves(before: readonly Finding[], after: readonly Finding[], target: Finding): boolean {
  const known = new Map<string, { dates: Set<number>; players: Set<string> }>();
  for (const finding of before) {
    if (finding === target) continue;
    const key = keyOf(finding);
    const entry = known.get(key) ?? { dates: new Set<number>(), players: new Set<string>() };
    for (const date of finding.dates) entry.dates.add(date);
    for (const player of finding.players) entry.players.add(player);
    known.set(key, entry);
  }
  return after.every((finding) => {
    // The target itself must go, harmless as it may be to others.
    if (finding.code === target.code && keyOf(finding) === keyOf(target)) return false;
    if (HARMLESS.has(finding.code)) return true;
    const entry = known.get(keyOf(finding));
    return (
      entry !== undefined &&
      finding.dates.every((date) => entry.dates.has(date)) &&
      finding.players.every((player) => entry.players.has(player))
    );
  });
}

function keyOf(finding: Finding): string {
  const { place } = finding;
  // The end of an assignment moves with its clauses; its start does not.
  return `${finding.code}|${place.piece.text}|${place.span.start}|${finding.standing ?? ""}`;
}
