import type { Hover, Position } from "vscode-languageserver-types";
import type { Span } from "../../grammar/span";
import type { Assignment as AssignmentTree } from "../../grammar/tree";
import { parsePitch } from "../music/pitch";
import { counted } from "../output/numbers";
import type { Exercise } from "../plan/exercise";
import { type Plan, playersOf } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Assignment, Session, Term } from "../plan/term";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { assignmentsIn } from "./assignments";
import { levelsAround } from "./exercise-reach";
import { assignmentText } from "./hover-assignment";
import { exerciseText } from "./hover-exercise";
import { keyTextShown, noteText, pitchText, tempoText } from "./hover-note";
import { playerText } from "./hover-player";
import { sessionText, termText, weeksText } from "./hover-term";
import { codeText, wordAt, wordText } from "./hover-word";
import { fileOf, linesOf, offsetOf, rangeOf } from "./lines-of";
import { nameAt, type Occurrence } from "./names";
import { type ShownText, shownText } from "./shown-text";
import { chainAt, type Held, pieceAt } from "./tree-at";

export interface HoverAbility {
  readonly markdown: boolean;
}

/** What was found under the mouse, and the stretch of the piece (or of the line) it is about. */
interface Found {
  readonly sections: readonly ShownText[];
  readonly start: number;
  readonly end: number;
}

/** What is worth knowing of whatever stands at a position; undefined where there is nothing to tell. */
export function hoverAt(
  checked: Checked,
  path: string,
  position: Position,
  can: HoverAbility,
): Hover | undefined {
  const file = fileOf(checked, path);
  if (file === undefined) return undefined;
  const offset = offsetOf(file, position);
  const found =
    nameFound(checked, file, offset) ?? treeFound(checked, file, offset) ?? wordFound(file, position, offset);
  if (found === undefined || found.sections.length === 0) return undefined;
  return { contents: shownText(found.sections, can), range: rangeOf(file, found.start, found.end) };
}

/** The name of a thing: of an exercise on its assignment line, the line first. */
function nameFound(checked: Checked, file: CheckedFile, offset: number): Found | undefined {
  const occurrence = nameAt(file, offset);
  if (occurrence === undefined) return undefined;
  const { start, mention, piece } = occurrence;
  const { plan } = file;
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  const players = term === undefined ? levelsAround(checked, file) : playersOf(plan, term);
  const assignment = assignmentAt(plan, occurrence);
  const sections = [
    ...(assignment === undefined ? [] : assignmentText(plan, assignment)),
    ...thingText(plan, mention.kind, mention.text, players),
  ];
  return { sections, start: start + mention.span.start, end: start + mention.span.end };
}

function assignmentAt(plan: Plan, { piece, mention }: Occurrence): Assignment | undefined {
  return assignmentsIn(plan, piece).find(({ namePlace }) => namePlace.span.start === mention.span.start);
}

function thingText(
  plan: Plan,
  kind: Occurrence["mention"]["kind"],
  name: string,
  players: readonly Player[],
): readonly ShownText[] {
  switch (kind) {
    case "exercise": {
      const exercise = plan.exercises.get(name);
      return exercise === undefined ? [] : exerciseText(plan, exercise, players);
    }
    case "player": {
      const player = plan.players.get(name);
      return player === undefined ? [] : playerText(player);
    }
    case "term": {
      const term = plan.terms.get(name);
      return term === undefined ? [] : termText(plan, term);
    }
    case "area": {
      const area = plan.areas.get(name);
      if (area === undefined) return [];
      const exercises = [...plan.exercises.values()].filter((exercise) => exercise.area === name);
      const every = area.atLeastEvery ?? plan.settings.untouched;
      return [
        {
          heading: name,
          lines: [
            `area, with ${counted(exercises.length, "exercise")}; at least every ${counted(every, "day")}`,
            ...area.aims.map((aim) => `aim: ${aim}`),
          ],
        },
      ];
    }
    case "routine": {
      const routine = plan.routines.get(name);
      if (routine === undefined) return [];
      const names = routine.content.items.flatMap((item) => ("exercise" in item ? [item.exercise] : []));
      const minutes = routine.content.minutes;
      const head = minutes === undefined ? "routine" : `routine of ${Math.round(minutes / 60)} min`;
      return [{ heading: name, lines: [head, ...names] }];
    }
    case "studio":
      return [{ heading: name, lines: [`A4 = ${plan.settings.tuning} Hz`] }];
  }
}

/** What the tree holds there: a note, a key, a tempo, a code, a session, a block of weeks. */
function treeFound(checked: Checked, file: CheckedFile, offset: number): Found | undefined {
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return undefined;
  const { piece, start } = at;
  const { plan } = file;
  const chain = chainAt(piece, offset - start);
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  const players = term === undefined ? levelsAround(checked, file) : playersOf(plan, term);
  const whole = (span: Span, sections: readonly ShownText[]): Found | undefined =>
    sections.length === 0 ? undefined : { sections, start: start + span.start, end: start + span.end };
  const declared = chain[0]?.as === "declaration" ? chain[0].node : undefined;
  const own = declared?.kind === "exercise" ? plan.exercises.get(declared.name.text) : undefined;
  for (const held of chain.toReversed()) {
    const found = heldText(
      held,
      { plan, term, players, exercise: own ?? exerciseOf(plan, chain) },
      offset - start,
    );
    if (found !== undefined) return whole(found.span, found.sections);
  }
  return undefined;
}

interface Around {
  readonly plan: Plan;
  readonly term: Term | undefined;
  readonly players: readonly Player[];
  readonly exercise: Exercise | undefined;
}

interface HeldText {
  readonly span: Span;
  readonly sections: readonly ShownText[];
}

function heldText(held: Held, around: Around, offset: number): HeldText | undefined {
  const { plan, term, players, exercise } = around;
  if (held.as === "leaf") {
    const leaf = held.node;
    if ("tonic" in leaf && typeof leaf.tonic === "string") {
      return some(leaf.span, keyTextShown(plan, exercise, leaf.tonic, players));
    }
    const pitch = leaf.text === undefined ? undefined : parsePitch(leaf.text);
    return pitch === undefined ? undefined : some(leaf.span, pitchText(plan, pitch, players));
  }
  if (held.as === "clause") {
    const clause = held.node;
    switch (clause.kind) {
      case "pitch":
      case "degree":
      case "partial":
        return some(clause.span, noteText(plan, exercise, clause, players));
      case "tempo":
        return some(clause.span, tempoText(exercise, clause.bpm));
      default:
        return undefined;
    }
  }
  if (held.as !== "statement") return undefined;
  const statement = held.node;
  switch (statement.kind) {
    case "let":
    case "finding":
      return within(statement.code.span, offset)
        ? some(statement.code.span, codeText(statement.code.text))
        : undefined;
    case "session": {
      const session = term === undefined ? undefined : sessionOf(term, statement.days.span);
      if (term === undefined || session === undefined) return undefined;
      return within(session.place.span, offset) && !within(statement.days.span, offset)
        ? some(session.place.span, sessionText(plan, term, session))
        : undefined;
    }
    case "weeks": {
      const block = term?.weeks.find(({ place }) => place.span.start === statement.span.start);
      const head = { start: statement.span.start, end: statement.weeks.span.end };
      if (term === undefined || block === undefined || !within(head, offset)) return undefined;
      return some(head, weeksText(plan, term, block));
    }
    default:
      return undefined;
  }
}

function some(span: Span, sections: readonly ShownText[]): HeldText | undefined {
  return sections.length === 0 ? undefined : { span, sections };
}

function within({ start, end }: Span, offset: number): boolean {
  return offset >= start && offset <= end;
}

/** A word of the language; on an assignment's line with what the line asks. */
function wordFound(file: CheckedFile, { line }: Position, offset: number): Found | undefined {
  const lineStart = linesOf(file).offset({ line, column: 0 });
  const word = wordAt(linesOf(file).lineText(line), offset - lineStart);
  if (word === undefined) return undefined;
  const asked = lineText(file, offset);
  const sections = [wordText(word, asked.length > 0), ...asked, ...daysText(file, offset)];
  return { sections, start: lineStart + word.span.start, end: lineStart + word.span.end };
}

function lineText(file: CheckedFile, offset: number): readonly ShownText[] {
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return [];
  const { piece, start } = at;
  const assignment = assignmentsIn(file.plan, piece).find(({ place }) => within(place.span, offset - start));
  return assignment === undefined ? [] : assignmentText(file.plan, assignment);
}

/** The days of a session are words of the language too; the session is told of behind them. */
function daysText(file: CheckedFile, offset: number): readonly ShownText[] {
  const at = pieceAt(file.tree, offset);
  const term = file.plan.own.terms.find((each) => each.place.piece === at?.piece);
  if (at === undefined || term === undefined) return [];
  const session = term.weeks
    .flatMap(({ sessions }) => sessions)
    .find(({ place }) => within(place.span, offset - at.start));
  return session === undefined ? [] : sessionText(file.plan, term, session);
}

function exerciseOf(plan: Plan, chain: readonly Held[]): Exercise | undefined {
  for (const { as, node } of chain) {
    if (as === "statement" && isAssignment(node)) return plan.exercises.get(node.exercise.text);
  }
  return undefined;
}

function isAssignment(node: object): node is AssignmentTree {
  return "kind" in node && node.kind === "assignment";
}

function sessionOf(term: Term, days: Span): Session | undefined {
  for (const { sessions } of term.weeks) {
    const found = sessions.find(({ place }) => place.span.start === days.start);
    if (found !== undefined) return found;
  }
  return undefined;
}
