import type { Finding } from "../rules/finding";
import type { Both, FindingChanges } from "./comparison";

/** How a thing of one side is called on both, where it has another name on the other. */
export type SameName = (kind: "exercise" | "term" | "other", name: string) => string;

/**
 * Findings that came and went. A finding is the same where its kind, the declaration and what it stands at are,
 * whatever its figures and dates; of several at one place as many stay as both sides have.
 */
export function findingChanges(
  { before, after }: Both<readonly Finding[]>,
  sameName: Both<SameName>,
): FindingChanges {
  const was = grouped(before, sameName.before);
  const is = grouped(after, sameName.after);
  const changes: { readonly [kind in keyof FindingChanges]: Finding[] } = {
    gained: [],
    lost: [],
    standsNow: [],
    standsNoMore: [],
  };
  for (const key of [...new Set([...was.keys(), ...is.keys()])].sort()) {
    const [old, now] = [was.get(key) ?? [], is.get(key) ?? []];
    const both = Math.min(old.length, now.length);
    changes.lost.push(...old.slice(both));
    changes.gained.push(...now.slice(both));
    for (let i = 0; i < both; i++) {
      const [a, b] = [old[i]!, now[i]!];
      if (a.standing === undefined && b.standing !== undefined) changes.standsNow.push(b);
      else if (a.standing !== undefined && b.standing === undefined) changes.standsNoMore.push(a);
    }
  }
  return changes;
}

function grouped(findings: readonly Finding[], sameName: SameName): Map<string, Finding[]> {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const key = identity(finding, sameName);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [finding]);
    else group.push(finding);
  }
  return groups;
}

function identity({ code, place }: Finding, sameName: SameName): string {
  const { piece, span } = place;
  const { declaration } = piece;
  const parts = [code];
  let name: string | undefined;
  if (declaration !== undefined) {
    const { kind } = declaration;
    const own = "name" in declaration ? declaration.name?.text : undefined;
    name = kind === "record" ? declaration.term.text : own;
    const what = kind === "exercise" ? "exercise" : kind === "term" || kind === "record" ? "term" : "other";
    parts.push(kind, name === undefined ? "" : sameName(what, name));
  }
  // An assignment is known by its exercise, a session by its name; a line without a name by its first word.
  const text = piece.text.slice(span.start, span.end);
  const quoted = /["“”]([^"“”]*)["“”]/.exec(text)?.[1];
  if (quoted === undefined) parts.push(/^\p{L}+/u.exec(text)?.[0] ?? "");
  // What stands at the declaration's own name is known by that already.
  else if (quoted !== name) parts.push(sameName("exercise", quoted));
  return parts.join("\n");
}
