import type { Piece } from "../../grammar/piece";
import type { Finding } from "../rules/finding";

/**
 * The findings of one file in the order of its text. Several plans may find the same in a file they share: it
 * is said once, for all the players and days it is true of.
 */
export function mergedFindings(
  findings: readonly Finding[],
  starts: ReadonlyMap<Piece, number>,
): readonly Finding[] {
  const merged: Placed[] = [];
  const byPlace = new Map<number, Placed[]>();
  for (const finding of findings) {
    const { piece, span } = finding.place;
    const at = (starts.get(piece) ?? 0) + span.start;
    const here = byPlace.get(at);
    const first = here?.find((each) => isSame(each.finding, finding));
    if (first !== undefined) {
      first.finding = together(first.finding, finding);
      continue;
    }
    const placed = { at, finding };
    merged.push(placed);
    if (here === undefined) byPlace.set(at, [placed]);
    else here.push(placed);
  }
  return merged.sort(inOrder).map(({ finding }) => finding);
}

interface Placed {
  readonly at: number;
  finding: Finding;
}

const SEVERITY_ORDER = { error: 0, warning: 1, note: 2 } as const;

function inOrder(a: Placed, b: Placed): number {
  return (
    a.at - b.at ||
    SEVERITY_ORDER[a.finding.severity] - SEVERITY_ORDER[b.finding.severity] ||
    (a.finding.code < b.finding.code ? -1 : a.finding.code > b.finding.code ? 1 : 0)
  );
}

/** Whether two findings at one place say the same. */
function isSame(a: Finding, b: Finding): boolean {
  return a.place.span.end === b.place.span.end && a.code === b.code && a.message === b.message;
}

function together(a: Finding, b: Finding): Finding {
  return {
    ...a,
    players: [...new Set([...a.players, ...b.players])],
    dates: [...new Set([...a.dates, ...b.dates])].sort((x, y) => x - y),
  };
}
