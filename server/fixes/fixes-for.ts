import { printClause, printName } from "../../grammar/print-leaves";
import type { Assignment as AssignmentTree } from "../../grammar/tree";
import type { DayItem, PlayerTerm } from "../days/day";
import { unrollTerm } from "../days/unroll";
import { toNumber } from "../music/rhythm";
import type { Plan } from "../plan/plan";
import { playersOf } from "../plan/plan";
import type { Assignment } from "../plan/term";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import { longestPhrase } from "../rules/term/phrase-breath";
import { atTempo, type Candidate, elsewhere, less, lower, moreRest, slurred } from "./candidates";
import type { Fix } from "./fix";
import { findingsWith, improves } from "./measure";

/** Fixes offered for one finding, at most. */
const MOST = 3;

interface Spot {
  readonly assignment: Assignment;
  readonly item: DayItem;
  readonly days: PlayerTerm;
}

/**
 * Changes of the plan that take a finding away and bring no new one, for all who share the text; each was
 * measured on a copy. `before` are the findings of the file as it stands.
 */
export function fixesFor(
  finding: Finding,
  plan: Plan,
  ground: Ground,
  before: readonly Finding[],
): readonly Fix[] {
  if (finding.mend !== undefined) {
    return [{ title: finding.mend.title, place: finding.place, text: finding.mend.text }];
  }
  if (finding.standing !== undefined) return [];
  const fixes: Fix[] = [];
  for (const spot of spotsOf(finding, plan)) {
    // Of each way of changing, the first that serves is the smallest change.
    for (const way of waysFor(finding, spot, plan)) {
      const found = way.find((candidate) => {
        const after = findingsWith(ground, spot.assignment.place.piece, spot.assignment.tree, candidate.tree);
        return improves(before, after, finding);
      });
      if (found === undefined) continue;
      fixes.push({ title: found.title, place: spot.assignment.place, text: headText(found.tree) });
      if (fixes.length === MOST) return fixes;
    }
    if (fixes.length > 0) break;
  }
  return fixes;
}

/**
 * The assignments whose change may help: the one that is marked, then others of its session (or of its day, where
 * a rehearsal is marked).
 */
function spotsOf(finding: Finding, plan: Plan): readonly Spot[] {
  const { place } = finding;
  const date = finding.dates[0];
  // A routine's assignments stand in another declaration; changing them would change it for all.
  const here = (item: DayItem): boolean => item.assignment.place.piece === place.piece;
  for (const term of plan.own.terms) {
    if (term.place.piece !== place.piece) continue;
    const player = playersOf(plan, term).find((each) => finding.players.includes(each.name));
    if (player === undefined) continue;
    const days = unrollTerm(plan, term, player);
    for (const day of days.days) {
      if (date !== undefined && day.date !== date) continue;
      const booked = day.bookings.some((each) => each.place.span.start === place.span.start);
      if (booked) {
        const all = day.sessions.flatMap((session) => session.items).sort((a, b) => b.clock - a.clock);
        return all.filter(here).map((item) => ({ assignment: item.assignment, item, days }));
      }
      for (const session of day.sessions) {
        const items = [...session.items].sort((a, b) => b.clock - a.clock);
        const marked = items.filter((item) => item.assignment.place.span.start === place.span.start);
        const whole = session.session.place.span.start === place.span.start;
        if (marked.length === 0 && !whole) continue;
        // A stretch or a full day may be mended elsewhere in the session than where it shows.
        const elsewhereToo = whole || finding.code.startsWith("day-");
        const chosen = elsewhereToo ? [...new Set([...marked, ...items])] : marked;
        const mine = chosen.filter(here);
        if (mine.length > 0) return mine.map((item) => ({ assignment: item.assignment, item, days }));
      }
    }
  }
  return [];
}

/** The assignment's line, without the block that may follow it. */
function headText(tree: AssignmentTree): string {
  return [printName(tree.exercise), ...tree.clauses.map(printClause)].join("  ");
}

function waysFor(finding: Finding, spot: Spot, plan: Plan): readonly (readonly Candidate[])[] {
  const { assignment, item, days } = spot;
  const fewer = less(assignment);
  switch (finding.code) {
    case "day-upper":
    case "day-load":
      return [lower(assignment, item, days), fewer];
    case "day-clock":
    case "day-playing":
    case "session-minutes":
      return [fewer];
    case "day-stretch":
    case "too-little-rest":
      return [moreRest(assignment, plan.settings.hornDown), fewer];
    case "outside-instrument":
    case "outside-limit":
    case "outside-range":
      return [elsewhere(assignment, item, days), item.exercise.series === undefined ? [] : fewer];
    case "highest-last":
    case "no-easing-in":
      return [lower(assignment, item, days)];
    case "phrase-breath":
      return [quickerFor(spot)];
    case "tongue-speed":
      return [slowerFor(spot), [slurred(assignment)]];
    case "tempo-jumps":
      return [slowerFor(spot)];
    default:
      return [];
  }
}

/** Tempi up to twice as fast, the smallest change first. */
function quickerFor({ assignment, item, days }: Spot): readonly Candidate[] {
  const breath = days.player.figures.breath?.value;
  const worst = longestPhrase(item);
  if (breath === undefined || worst === undefined || item.bpm === undefined) return [];
  const least = Math.ceil((item.bpm * worst.air) / breath);
  return least <= item.bpm * 2 ? [atTempo(assignment, least), atTempo(assignment, least + 1)] : [];
}

/** Tempi down to half, in steps of one beat a minute. */
function slowerFor({ assignment, item }: Spot): readonly Candidate[] {
  const beat = assignment.tempo?.beat ?? item.exercise.tempo?.beat;
  if (item.fastest === undefined || beat === undefined || toNumber(beat) === 0) return [];
  const candidates: Candidate[] = [];
  for (let bpm = item.fastest - 1; bpm >= Math.max(20, item.fastest / 2); bpm--) {
    candidates.push(atTempo(assignment, bpm));
  }
  return candidates;
}
