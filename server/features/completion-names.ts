import { CompletionItemKind } from "vscode-languageserver-types";
import { Memory } from "../../grammar/memory";
import { homePlacement } from "../days/placement";
import { pitchSign } from "../music/pitch";
import { spelled } from "../output/explained-exercise";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import { folderOf, relativePath } from "../workspace/paths";
import type { Proposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { instrumentOf, profileFor } from "./exercise-reach";

/** The exercises in the order of practice, those that the session does not hold yet first. */
export function exerciseProposals(scene: Scene): readonly Proposal[] {
  const { plan } = scene;
  const used = namesOfSession(scene);
  const all = inOrderOfPractice(plan);
  const own = scene.place.block === "file" ? scene.exercise : undefined;
  const fresh = all.filter((exercise) => !used.has(exercise.name) && exercise !== own);
  return [...fresh, ...all.filter((exercise) => used.has(exercise.name))].map((exercise) => ({
    label: exercise.name,
    kind: CompletionItemKind.Value,
    quoted: true,
    detail: `${exerciseDetail(plan, exercise, scene.players)}${used.has(exercise.name) ? " · in this session already" : ""}`,
    about: { about: "exercise", path: scene.file.path },
  }));
}

/** `Flow · C4 to G5` */
function exerciseDetail(plan: Plan, exercise: Exercise, players: readonly Player[]): string {
  const { low, high } = profileFor(plan, exercise, players);
  if (low === undefined || high === undefined) return exercise.area;
  const home = homePlacement(exercise, instrumentOf(players));
  return `${exercise.area} · ${pitchSign(spelled(low, home))} to ${pitchSign(spelled(high, home))}`;
}

const orders = new Memory<Plan, readonly Exercise[]>();

function inOrderOfPractice(plan: Plan): readonly Exercise[] {
  const known = orders.get(plan);
  if (known !== undefined) return known;
  const areas = [...plan.areas.keys()];
  const rank = new Map(areas.map((area, i) => [area, i]));
  const order = [...plan.exercises.values()].sort(
    (a, b) => (rank.get(a.area) ?? areas.length) - (rank.get(b.area) ?? areas.length),
  );
  orders.set(plan, order);
  return order;
}

/** The names at the start of the lines of the session around the cursor, read from its letters. */
function namesOfSession({ file, place }: Scene): ReadonlySet<string> {
  const names = new Set<string>();
  const open = place.around.findLast((block) => block.kind === "session");
  if (open === undefined) return names;
  let depth = 0;
  let end = open.brace;
  for (; end < file.text.length; end++) {
    const code = file.text.charCodeAt(end);
    if (code === 123) depth++;
    else if (code === 125 && --depth === 0) break;
  }
  const before = file.text.slice(open.brace + 1, place.start);
  const after = file.text.slice(place.end, end);
  for (const [, name] of `${before}\n${after}`.matchAll(/^\s*"([^"{}\r\n]+)"/gm)) {
    if (name !== undefined) names.add(name.normalize("NFC"));
  }
  return names;
}

/** Areas, in the order of practice. */
export function areaProposals({ plan }: Scene): readonly Proposal[] {
  return [...plan.areas.values()].map((area) => ({
    label: area.name,
    kind: CompletionItemKind.Module,
    quoted: true,
    detail: area.aims[0] ?? "area",
  }));
}

/** Levels and students; inside a term those it is for. */
export function playerProposals({ plan, term, players, place }: Scene): readonly Proposal[] {
  // The heading of a term may still name anybody.
  const all = term !== undefined && place.around.length > 0 ? players : [...plan.players.values()];
  const students = (player: Player): number => (player.kind === "student" ? 1 : 0);
  // A change is for one student; everywhere else a level is the likelier.
  const sign = place.around.length > 0 ? -1 : 1;
  return all
    .toSorted((a, b) => sign * (students(a) - students(b)))
    .map((player) => ({
      label: player.name,
      kind: CompletionItemKind.Class,
      quoted: true,
      detail: player.likes[0] === undefined ? player.kind : `${player.kind}, like “${player.likes[0]}”`,
    }));
}

/** Sessions kept under a name, with their minutes. */
export function routineProposals({ plan }: Scene): readonly Proposal[] {
  return [...plan.routines.values()].map(({ name, content }) => ({
    label: name,
    kind: CompletionItemKind.Function,
    quoted: true,
    detail: content.minutes === undefined ? "routine" : `routine, ${Math.round(content.minutes / 60)} min`,
  }));
}

/** Terms that a record may be of, each with who plays it. */
export function termProposals({ plan }: Scene): readonly Proposal[] {
  return [...plan.terms.values()].map(({ name, players }) => ({
    label: name,
    kind: CompletionItemKind.Event,
    quoted: true,
    detail: `term for ${players.map((player) => player.text).join(", ")}`,
  }));
}

/** The other files, each as this one would name it, the nearest first. */
export function pathProposals({ checked, file, plan }: Scene): readonly Proposal[] {
  const used = new Set(plan.own.uses.map(({ declaration }) => declaration.path.text));
  return checked.files
    .filter((other) => other.path !== file.path)
    .map((other) => relativePath(folderOf(file.path), other.path))
    .filter((path) => !used.has(path))
    .sort((a, b) => a.split("/").length - b.split("/").length || (a < b ? -1 : 1))
    .map((path) => ({ label: path, kind: CompletionItemKind.File, quoted: true }));
}
