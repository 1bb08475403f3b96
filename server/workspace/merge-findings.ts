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
  const at = ({ place }: Finding): number => (starts.get(place.piece) ?? 0) + place.span.start;
  const merged = new Map<string, Finding>();
  for (const finding of findings) {
    const key = `${at(finding)} ${finding.place.span.end} ${finding.code} ${finding.message}`;
    const first = merged.get(key);
    merged.set(key, first === undefined ? finding : together(first, finding));
  }
  return [...merged.values()].sort(
    (a, b) =>
      at(a) - at(b) ||
      SEVERITY_ORDER[a.severity] - SEVERITY_ORDER[b.severity] ||
      (a.code < b.code ? -1 : a.code > b.code ? 1 : 0),
  );
}

const SEVERITY_ORDER = { error: 0, warning: 1, note: 2 } as const;

function together(a: Finding, b: Finding): Finding {
  return {
    ...a,
    players: [...new Set([...a.players, ...b.players])],
    dates: [...new Set([...a.dates, ...b.dates])].sort((x, y) => x - y),
  };
}
