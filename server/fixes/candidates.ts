import type {
  Assignment as AssignmentTree,
  Clause,
  Count,
  KeysClause,
  KeyText,
  Range,
} from "../../grammar/tree";
import type { DayItem, PlayerTerm } from "../days/day";
import { nearestShift, placementName, travelOf } from "../days/placement";
import { type Key, keyName, keyText, tonicAt } from "../music/key";
import type { Assignment } from "../plan/term";

/** A change to one assignment, not yet measured. */
export interface Candidate {
  readonly title: string;
  readonly tree: AssignmentTree;
}

/** Half steps a key is moved down, at most, to find one that serves. */
const LOWEST = 7;

function count(value: number): Count {
  return { span: NOWHERE, text: String(value), value };
}

/** A node the grammar prints without looking at its place. */
const NOWHERE = { start: 0, end: 0 };

function fixed(value: number): Range {
  return { span: NOWHERE, way: "fixed", from: count(value), to: undefined };
}

/** The assignment with one clause in place of another, or added at the end. */
function withClause(tree: AssignmentTree, old: Clause | undefined, fresh: Clause): AssignmentTree {
  const clauses =
    old === undefined ? [...tree.clauses, fresh] : tree.clauses.map((each) => (each === old ? fresh : each));
  return { ...tree, clauses };
}

function clauseOf<K extends Clause["kind"]>(
  tree: AssignmentTree,
  kind: K,
): Extract<Clause, { kind: K }> | undefined {
  return tree.clauses.find((each): each is Extract<Clause, { kind: K }> => each.kind === kind);
}

/** Fewer times through or fewer minutes, the smallest step first. */
export function less(assignment: Assignment): readonly Candidate[] {
  const { tree, amount } = assignment;
  const candidates: Candidate[] = [];
  const times = clauseOf(tree, "times");
  if (times !== undefined && amount.kind === "times") {
    for (let n = Math.max(amount.times.from, amount.times.to) - 1; n >= 1; n--) {
      const word = n === 1 ? "once" : n === 2 ? "twice" : "times";
      const span = times.span;
      candidates.push({
        title: `Play it ${n === 1 ? "once" : n === 2 ? "twice" : `${n} times`}`,
        tree: withClause(tree, times, { span, kind: "times", times: fixed(n), word }),
      });
    }
  }
  const minutes = clauseOf(tree, "minutes");
  if (minutes !== undefined && amount.kind === "time") {
    const most = Math.max(amount.seconds.from, amount.seconds.to) / 60;
    for (let n = Math.ceil(most) - 1; n >= 1; n--) {
      candidates.push({
        title: `Play it for ${n} min`,
        tree: withClause(tree, minutes, { span: minutes.span, kind: "minutes", minutes: fixed(n) }),
      });
    }
  }
  return candidates;
}

/** The same in lower keys: one key moved down, a walk that ends earlier, a list without its highest key. */
export function lower(assignment: Assignment, item: DayItem, days: PlayerTerm): readonly Candidate[] {
  return otherKeys(assignment, item, days, "down");
}

/** The same in keys to either side. */
export function elsewhere(assignment: Assignment, item: DayItem, days: PlayerTerm): readonly Candidate[] {
  return [...otherKeys(assignment, item, days, "down"), ...otherKeys(assignment, item, days, "up")];
}

function otherKeys(
  assignment: Assignment,
  item: DayItem,
  days: PlayerTerm,
  direction: "up" | "down",
): readonly Candidate[] {
  const { tree, keys } = assignment;
  const { content } = item.exercise;
  if (content.kind !== "notes" || content.key === undefined) return [];
  const home = content.key;
  if (keys === undefined || keys.kind === "in") {
    const first = item.passes[0]?.placement;
    if (first?.key === undefined) return [];
    const candidates: Candidate[] = [];
    for (let n = 1; n <= LOWEST; n++) {
      const semitones = first.semitones + (direction === "down" ? -n : n);
      const key = tonicAt(home, semitones);
      // "in KEY" always means the nearest; farther off it cannot be said this way.
      if (nearestShift(home, key) !== semitones) continue;
      candidates.push({
        title: `Play it in ${keyName(key)}`,
        tree: withClause(tree, keys, { span: keys?.span ?? NOWHERE, kind: "in", key: typed(key, home) }),
      });
    }
    return candidates;
  }
  if (keys.kind !== "keys") return [];
  if (keys.travel.kind === "walk") return shorterWalks(assignment, keys, item, days, home);
  return shorterLists(assignment, keys, item, days, direction);
}

function shorterWalks(
  assignment: Assignment,
  keys: KeysClause,
  item: DayItem,
  days: PlayerTerm,
  home: Key,
): readonly Candidate[] {
  if (keys.travel.kind !== "walk") return [];
  const { placements } = travelOf(assignment, item.exercise, days.player.instrument);
  const candidates: Candidate[] = [];
  for (let n = placements.length - 2; n >= 1; n--) {
    const key = placements[n]!.key;
    if (key === undefined) continue;
    candidates.push({
      title: `Let the keys go to ${placementName(placements[n]!)} only`,
      tree: withClause(assignment.tree, keys, { ...keys, travel: { ...keys.travel, to: typed(key, home) } }),
    });
  }
  const first = placements[0]?.key;
  if (first !== undefined) {
    candidates.push({
      title: `Stay in ${keyName(first)}`,
      tree: withClause(assignment.tree, keys, { span: keys.span, kind: "in", key: typed(first, home) }),
    });
  }
  return candidates;
}

/** The list without its highest keys (or its lowest), one after the other, down to a single one. */
function shorterLists(
  assignment: Assignment,
  keys: KeysClause,
  item: DayItem,
  days: PlayerTerm,
  direction: "up" | "down",
): readonly Candidate[] {
  if (keys.travel.kind !== "list") return [];
  const { placements } = travelOf(assignment, item.exercise, days.player.instrument);
  const list = keys.travel.keys;
  if (placements.length !== list.length) return [];
  const order = list
    .map((key, index) => ({ key, at: placements[index]!.semitones }))
    .sort((a, b) => (direction === "down" ? b.at - a.at : a.at - b.at));
  const candidates: Candidate[] = [];
  for (let n = 1; n < order.length; n++) {
    const dropped = new Set(order.slice(0, n).map((each) => each.key));
    const left = list.filter((key) => !dropped.has(key));
    candidates.push({
      title: `Leave out ${[...dropped].map((each) => each.key.tonic).join(", ")}`,
      tree: withClause(assignment.tree, keys, { ...keys, travel: { kind: "list", keys: left } }),
    });
  }
  return candidates;
}

function typed(key: Key, home: Key): KeyText {
  const [tonic = "", ...mode] = keyText(key).split(" ");
  // The mode goes without saying where it is the home key's.
  const words = mode.join(" ") as KeyText["mode"];
  return { span: NOWHERE, tonic, mode: key.mode === home.mode ? undefined : words };
}

/** Rests that let the horn come down: equal, then fixed ones. */
export function moreRest(assignment: Assignment, hornDown: number): readonly Candidate[] {
  const { tree } = assignment;
  const old = clauseOf(tree, "rest");
  const span = old?.span ?? NOWHERE;
  const time = (seconds: number): Clause => ({
    span,
    kind: "rest",
    rest: { span, kind: "time", time: { span, parts: [{ value: seconds, unit: "s" }] } },
  });
  return [
    { title: `Rest ${hornDown} s after each time through`, tree: withClause(tree, old, time(hornDown)) },
    {
      title: "Rest as long as was played after each time through",
      tree: withClause(tree, old, { span, kind: "rest", rest: { span, kind: "equal" } }),
    },
  ];
}

/** A fixed tempo in place of the one asked for. */
export function atTempo(assignment: Assignment, bpm: number): Candidate {
  const { tree } = assignment;
  const old = clauseOf(tree, "tempo");
  return {
    title: `Play it at ${bpm}`,
    tree: withClause(tree, old, {
      span: old?.span ?? NOWHERE,
      kind: "tempo",
      beat: old?.beat,
      bpm: fixed(bpm),
    }),
  };
}

/** All slurred, so that the tongue has nothing to do. */
export function slurred(assignment: Assignment): Candidate {
  const { tree } = assignment;
  const old = clauseOf(tree, "articulation");
  const span = old?.span ?? NOWHERE;
  return {
    title: "Play it all slurred",
    tree: withClause(tree, old, { span, kind: "articulation", articulation: { span, kind: "all slurred" } }),
  };
}
