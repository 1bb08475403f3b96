import type { Piece, SourceTree } from "../../grammar/piece";
import { readSource } from "../../grammar/pieces";
import { buildPlan, type Plan } from "../plan/plan";
import { type Record, readRecord } from "../plan/record";
import { checkPlan } from "../rules/check";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import { atSeverities, fileFinding, syntaxFindings } from "./file-finding";
import { mergedFindings } from "./merge-findings";
import { type SourceSet, unreadTree, wholeFile } from "./source";
import { UseGraph } from "./uses";

/** A file with what it means and what was found in it. */
export interface CheckedFile {
  readonly path: string;
  readonly text: string;
  readonly tree: SourceTree;
  readonly plan: Plan;
  /** What the plan was read and checked with; a proposed change is measured on the same ground. */
  readonly ground: Ground;
  /** By place, from the top of the file down. */
  readonly findings: readonly Finding[];
  /** Whether its findings were asked for; otherwise it is here because another file uses it. */
  readonly asked: boolean;
}

/** Which file a piece stands in, and where in its text it begins. */
export type PieceHomes = ReadonlyMap<Piece, { readonly file: CheckedFile; readonly start: number }>;

export interface Checked {
  readonly files: readonly CheckedFile[];
  readonly homes: PieceHomes;
}

/** Checks plan texts that are at hand, each under its path. */
export function checkTexts(texts: ReadonlyMap<string, string>): Checked {
  const sources = new Map(
    [...texts].map(([path, text]) => [path, { path, text, tree: readSource(text) }] as const),
  );
  return checkSources({
    asked: [...texts.keys()],
    sources,
    failures: new Map(),
    aliases: new Map(),
    known: new Set(),
  });
}

export interface CheckOptions {
  /** False where only the plans are wanted; then what is found in them is left unsaid. */
  readonly findings: boolean;
  /** Called before each file, so that long work can show how far it is. */
  readonly progress?: (done: number, all: number) => void;
}

/** Reads a set of files into plans and checks those that were asked for. */
export function checkSources(set: SourceSet, options: CheckOptions = { findings: true }): Checked {
  const graph = new UseGraph(set);
  const records = recordsByTerm(set, graph);
  const asked = new Set(set.asked);
  const drafts: {
    path: string;
    text: string;
    tree: SourceTree;
    plan: Plan;
    used: readonly (readonly Piece[])[];
    asked: boolean;
  }[] = [];
  const files = [...new Set([...set.asked, ...set.sources.keys()])];
  for (const path of files) {
    const source = set.sources.get(path);
    // An empty file has no piece either, and what is said of it needs one to hang on.
    const tree = source === undefined || source.tree.pieces.length === 0 ? unreadTree() : source.tree;
    const used = graph.usedBy(path).map((each) => set.sources.get(each)!.tree.pieces);
    drafts.push({
      path,
      text: source?.text ?? "",
      tree,
      plan: buildPlan(tree.pieces, used, records.get(path) ?? []),
      used,
      asked: asked.has(path),
    });
  }

  const owner = new Map<Piece, string>();
  for (const { path, tree } of drafts) for (const piece of tree.pieces) owner.set(piece, path);
  const found = new Map<string, Finding[]>(files.map((path) => [path, []]));
  const around = {
    mentioned: mentionedAnywhere(drafts),
    // Where something could not be read, nobody knows what it asks for, and nothing is called unused.
    hasTerm:
      drafts.some((each) => each.plan.own.terms.length > 0) &&
      !drafts.some((each) => each.tree.pieces.some((piece) => piece.problems.length > 0)),
  };
  if (options.findings) {
    const wanted = drafts.filter((each) => each.asked);
    for (const [done, draft] of wanted.entries()) {
      options.progress?.(done, wanted.length);
      const own = [...fileFindings(set, draft), ...graph.findings(draft.path)];
      for (const finding of [...atSeverities(own, draft.plan.settings), ...checkPlan(draft.plan, around)]) {
        found.get(owner.get(finding.place.piece) ?? draft.path)?.push(finding);
      }
    }
  }
  const homes = new Map<Piece, { file: CheckedFile; start: number }>();
  const checked = drafts.map((draft) => {
    const starts = new Map(draft.tree.pieces.map((piece, i) => [piece, draft.tree.starts[i] ?? 0]));
    const { used, ...rest } = draft;
    const ground = { own: draft.tree.pieces, used, records: records.get(draft.path) ?? [], around };
    const file = { ...rest, ground, findings: mergedFindings(found.get(draft.path) ?? [], starts) };
    for (const [piece, start] of starts) homes.set(piece, { file, start });
    return file;
  });
  return { files: checked, homes };
}

function fileFindings(
  set: SourceSet,
  file: { readonly path: string; readonly text: string; readonly tree: SourceTree },
): readonly Finding[] {
  const place = wholeFile(file.tree);
  const failure = set.failures.get(file.path);
  if (failure !== undefined) return [fileFinding(failure.code, place, failure.message)];
  const empty = file.text.trim() === "" ? [fileFinding("file-empty", place, "This file is empty.")] : [];
  const source = set.sources.get(file.path);
  return source === undefined ? empty : [...empty, ...syntaxFindings(source)];
}

/** Exercises and routines that any file asks for. */
function mentionedAnywhere(drafts: readonly { readonly plan: Plan }[]): ReadonlySet<string> {
  const mentioned = new Set<string>();
  for (const { plan } of drafts) {
    for (const name of plan.mentioned) mentioned.add(name);
    for (const term of plan.own.terms) {
      for (const weeks of term.weeks) {
        for (const { routine } of weeks.sessions) if (routine !== undefined) mentioned.add(routine.text);
      }
    }
  }
  return mentioned;
}

/** A record is read once, so that the plans that share it share what hangs on it. */
const records = new WeakMap<Piece, Record>();

function recordsIn(pieces: readonly Piece[]): readonly Record[] {
  return pieces.flatMap((piece) => {
    const { declaration } = piece;
    if (declaration?.kind !== "record") return [];
    const known = records.get(piece) ?? readRecord(piece, declaration).record;
    records.set(piece, known);
    return [known];
  });
}

/**
 * What other files recorded of the terms of each file. A record belongs to the term of its name among the
 * files it uses, so that two years may each have an “Autumn”.
 */
function recordsByTerm(set: SourceSet, graph: UseGraph): ReadonlyMap<string, readonly Record[]> {
  const terms = new Map<string, ReadonlySet<string>>();
  for (const { path, tree } of set.sources.values()) {
    const names = tree.pieces.flatMap(({ declaration }) =>
      declaration?.kind === "term" ? [declaration.name.text] : [],
    );
    if (names.length > 0) terms.set(path, new Set(names));
  }
  const byFile = new Map<string, Record[]>();
  for (const { path, tree } of set.sources.values()) {
    const kept = recordsIn(tree.pieces);
    if (kept.length === 0) continue;
    for (const used of graph.usedBy(path)) {
      // A term's file that uses the record itself has it already.
      if (graph.usedBy(used).includes(path)) continue;
      const mine = kept.filter((record) => terms.get(used)?.has(record.term.text) === true);
      if (mine.length === 0) continue;
      byFile.set(used, [...(byFile.get(used) ?? []), ...mine]);
    }
  }
  return byFile;
}
