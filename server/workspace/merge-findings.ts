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
  /** Where those begin that stand at the place of the one merged last. */
  let first = 0;
  for (const placed of inOrder(findings, starts)) {
    if (merged[first]?.at !== placed.at) first = merged.length;
    let same = first;
    while (same < merged.length && !isSame(merged[same]!.finding, placed.finding)) same++;
    const known = merged[same];
    if (known === undefined) merged.push(placed);
    else known.finding = together(known.finding, placed.finding);
  }
  return merged.map(({ finding }) => finding);
}

interface Placed {
  readonly at: number;
  finding: Finding;
}

const SEVERITY_ORDER = { error: 0, warning: 1, note: 2 } as const;

function inOrder(findings: readonly Finding[], starts: ReadonlyMap<Piece, number>): readonly Placed[] {
  let piece: Piece | undefined;
  let start = 0;
  const placed = findings.map((finding) => {
    const { place } = finding;
    // Findings of one piece mostly follow each other.
    if (place.piece !== piece) {
      piece = place.piece;
      start = starts.get(piece) ?? 0;
    }
    return { at: start + place.span.start, finding };
  });
  return placed.sort(
    (a, b) =>
      a.at - b.at ||
      SEVERITY_ORDER[a.finding.severity] - SEVERITY_ORDER[b.finding.severity] ||
      (a.finding.code < b.finding.code ? -1 : a.finding.code > b.finding.code ? 1 : 0),
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
