import { sameList } from "../plan/same-list";
import type { Finding } from "../rules/finding";

/**
 * New findings with those that say the same as before replaced by the very objects of before, so that what hangs
 * on them can be kept; and the whole list of before where nothing differs.
 */
export function keptFindings(before: readonly Finding[], now: readonly Finding[]): readonly Finding[] {
  let top = 0;
  while (top < before.length && top < now.length && sameFinding(before[top]!, now[top]!)) top++;
  if (top === before.length && top === now.length) return before;
  let bottom = 0;
  const most = Math.min(before.length, now.length) - top;
  while (bottom < most && sameFinding(before.at(-1 - bottom)!, now.at(-1 - bottom)!)) bottom++;
  return [
    ...before.slice(0, top),
    ...now.slice(top, now.length - bottom),
    ...before.slice(before.length - bottom),
  ];
}

function sameFinding(a: Finding, b: Finding): boolean {
  if (a === b) return true;
  return (
    a.code === b.code &&
    a.message === b.message &&
    a.severity === b.severity &&
    a.standing === b.standing &&
    samePlace(a, b) &&
    sameList(a.dates, b.dates) &&
    sameList(a.players, b.players) &&
    sameList(a.details, b.details) &&
    a.mend?.title === b.mend?.title &&
    a.mend?.text === b.mend?.text &&
    a.related.length === b.related.length &&
    a.related.every((each, i) => {
      const other = b.related[i]!;
      return each.message === other.message && samePlace(each, other);
    })
  );
}

function samePlace(a: Pick<Finding, "place">, b: Pick<Finding, "place">): boolean {
  return (
    a.place.piece === b.place.piece &&
    a.place.span.start === b.place.span.start &&
    a.place.span.end === b.place.span.end
  );
}
