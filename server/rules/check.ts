import { Memory } from "../../grammar/memory";
import type { PlayerTerm } from "../days/day";
import { sharedUnrolling } from "../days/shared-unrolling";
import type { LetStand } from "../plan/let-stand";
import { nearest } from "../plan/nearest";
import type { Place } from "../plan/place";
import { type Plan, playersOf } from "../plan/plan";
import type { Player } from "../plan/player";
import { sameList } from "../plan/same-list";
import type { SessionContent, Term } from "../plan/term";
import type { Trouble } from "../plan/trouble";
import { RULES } from "./all";
import { catalogue, infoOf } from "./catalogue";
import type { Finding } from "./finding";
import { Gatherer, type LetsByCode, letsByCode, type ScopedLet } from "./gather";
import type { TroubleRule } from "./rule";
import type { Surroundings } from "./surroundings";
import { type Said, termReports } from "./term-reports";

export type { Surroundings } from "./surroundings";

const TERM_RULES = RULES.filter((rule) => rule.kind === "term");
const PLAN_RULES = RULES.filter((rule) => rule.kind === "plan");
const TROUBLE_RULES = new Map<string, TroubleRule>(
  RULES.filter((rule) => rule.kind === "trouble").map((rule) => [rule.code, rule]),
);

/** Called with each term as one player meets it, so that nothing needs to be unrolled twice. */
export type EachTerm = (term: PlayerTerm) => void;

/** Every finding of a plan's own declarations, those of one place gathered. */
export function checkPlan(plan: Plan, around: Surroundings, each?: EachTerm): readonly Finding[] {
  const steps = checkingPlan(plan, around, each);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/**
 * The same in small steps, one for each player of each term, so that whoever waits for something else need not
 * wait for all. What is left half-way costs the next check nothing: terms keep what was found out.
 */
export function* checkingPlan(
  plan: Plan,
  around: Surroundings,
  each?: EachTerm,
): Generator<undefined, readonly Finding[]> {
  const scoped = letsOf(plan);
  const lets = letsByCode(scoped);
  const gatherer = new Gatherer(plan.settings, lets);
  addTroubles(gatherer, plan.troubles, undefined);
  addTroubles(gatherer, unknownCodes(plan), undefined);
  for (const rule of PLAN_RULES) {
    if (gatherer.wants(rule.code)) {
      rule.check(plan, around, (raw) => {
        if (!isEcho(rule.code, raw.place)) gatherer.add(rule, raw, undefined);
      });
    }
  }
  const rules = TERM_RULES.filter((rule) => gatherer.wants(rule.code));
  const tables = tablesOf(plan, scoped);
  for (const term of plan.own.terms) {
    let gathered = gatheredTerms.get(term);
    if (gathered === undefined || !sameList(gathered.tables, tables)) {
      const daysFor = sharedUnrolling(plan, term);
      const reportsOf = termReports(plan, term, rules);
      const heard: Heard[] = [];
      for (const player of playersOf(plan, term)) {
        const days = daysFor(player);
        // What holds of one player holds of all who share the days and the figures.
        const like = heard.find((other) => other.days.days === days.days && alike(other.days.player, player));
        heard.push({ days, said: like?.said ?? reportsOf(days) });
        yield;
      }
      gathered = { tables, heard, ...gatheredTerm(plan, term, heard, scoped, lets) };
      gatheredTerms.set(term, gathered);
    }
    if (each !== undefined) for (const { days } of gathered.heard) each(days);
    gatherer.join(gathered.gatherer);
  }
  idleLets(plan, gatherer);
  return gatherer.findings();
}

/** What the rules said of a term as one player meets it. */
interface Heard {
  readonly days: PlayerTerm;
  readonly said: Said;
}

interface GatheredTerm {
  /** Whole tables of the plan: while they are the same, there is no need to look what of them a term asks for. */
  readonly tables: readonly unknown[];
  readonly heard: readonly Heard[];
  readonly from: readonly unknown[];
  readonly gatherer: Gatherer;
}

/** A term keeps what was gathered of it for as long as the same was said and the same lines let it stand. */
const gatheredTerms = new Memory<Term, GatheredTerm>();

/** Everything that what is said of a term may hang on, beside the term itself. */
function tablesOf(plan: Plan, scoped: readonly ScopedLet[]): readonly unknown[] {
  const { settings, exercises, routines, players, areas, records } = plan;
  const lets = scoped.map((each) => each.let);
  return [settings, exercises, routines, players, areas.size, ...areas.values(), ...records, ...lets];
}

function gatheredTerm(
  plan: Plan,
  term: Term,
  heard: readonly Heard[],
  scoped: readonly ScopedLet[],
  lets: LetsByCode,
): Pick<GatheredTerm, "from" | "gatherer"> {
  const from: unknown[] = [plan.settings, ...scoped.map((each) => each.let)];
  for (const { days, said } of heard) from.push(days.player, days.troubles, said);
  const before = gatheredTerms.get(term);
  if (before !== undefined && sameList(before.from, from)) return { from, gatherer: before.gatherer };
  const gatherer = new Gatherer(plan.settings, lets);
  for (const { days, said } of heard) {
    addTroubles(gatherer, days.troubles, days.player.name);
    for (const [rule, raw] of said) gatherer.add(rule, raw, days.player.name);
  }
  return { from, gatherer };
}

/** Says in words what reading the plan, or its days, noted. */
function addTroubles(gatherer: Gatherer, troubles: readonly Trouble[], player: string | undefined): void {
  for (const trouble of troubles) {
    const rule = TROUBLE_RULES.get(trouble.kind);
    if (rule === undefined || !gatherer.wants(rule.code)) continue;
    const said = rule.say(trouble);
    if (said === undefined || isEcho(rule.code, trouble.place)) continue;
    gatherer.add(rule, { ...said, place: trouble.place }, player);
  }
}

/** Whether two players are measured by the very same figures. */
function alike(a: Player, b: Player): boolean {
  const keys = Object.keys(a.figures) as (keyof Player["figures"])[];
  return (
    keys.length === Object.keys(b.figures).length &&
    keys.every((key) => a.figures[key]?.value === b.figures[key]?.value)
  );
}

/** Findings that text which could not be read brings about by itself, and how near it then stands. */
const ECHOES: ReadonlyMap<string, number> = new Map([
  ["line-missing", Number.POSITIVE_INFINITY],
  ["player-incomplete", Number.POSITIVE_INFINITY],
  ["weeks-unplanned", Number.POSITIVE_INFINITY],
  ["bar-length", 12],
  ["music-slip", 12],
]);

/** Whether a finding only repeats that something beside it could not be read. */
function isEcho(code: string, { piece, span }: Place): boolean {
  const near = ECHOES.get(code);
  if (near === undefined) return false;
  return piece.problems.some(
    (each) => each.span.end >= span.start - near && each.span.start <= span.end + near,
  );
}

/** The `let` lines of the plan's own terms that stood for nothing. */
function idleLets(plan: Plan, gatherer: Gatherer): void {
  const info = infoOf("let-idle");
  if (info === undefined || !gatherer.wants(info.code)) return;
  for (const term of plan.own.terms) {
    for (const each of termLets(term)) {
      if (gatherer.heeded.has(each) || infoOf(each.code) === undefined) continue;
      const message = `Nothing of the kind ${each.code} is left here. This line can go.`;
      gatherer.add(info, { place: each.place, message }, undefined);
    }
  }
  // A player's line is judged only where the player's terms stand in the same file.
  const letting = plan.own.players.filter((player) => player.lets.length > 0);
  if (letting.length === 0) return;
  const met = new Set(plan.own.terms.flatMap((term) => playersOf(plan, term)));
  for (const player of letting) {
    if (!met.has(player)) continue;
    for (const each of player.lets) {
      if (gatherer.heeded.has(each) || infoOf(each.code) === undefined) continue;
      if (each.place.piece !== player.place.piece) continue;
      const message = `Nothing of the kind ${each.code} is left here. This line can go.`;
      gatherer.add(info, { place: each.place, message }, undefined);
    }
  }
}

function letsOf(plan: Plan): readonly ScopedLet[] {
  const lets: ScopedLet[] = [];
  const add = (list: readonly LetStand[], players?: ReadonlySet<string>, everywhere = false): void => {
    for (const each of list) lets.push({ let: each, players, everywhere });
  };
  for (const term of plan.terms.values()) add(termLets(term));
  for (const routine of plan.routines.values()) add(contentLets(routine.content));
  for (const exercise of plan.exercises.values()) add(exercise.lets);
  for (const area of plan.areas.values()) add(area.lets);
  for (const player of plan.players.values()) add(player.lets, new Set([player.name]));
  add(plan.settings.lets, undefined, true);
  return lets;
}

const knownLets = new Memory<Term, readonly LetStand[]>();

function termLets(term: Term): readonly LetStand[] {
  const known = knownLets.get(term);
  if (known !== undefined) return known;
  // The innermost first: the nearest reason is the one that counts.
  const lets: LetStand[] = [];
  for (const weeks of term.weeks) {
    for (const session of weeks.sessions) lets.push(...contentLets(session.content));
    lets.push(...weeks.lets);
  }
  lets.push(...term.lets);
  knownLets.set(term, lets);
  return lets;
}

function contentLets(content: SessionContent): readonly LetStand[] {
  const lets: LetStand[] = [];
  for (const item of content.items) if ("exercise" in item) lets.push(...item.lets);
  if (content.short !== undefined) lets.push(...contentLets(content.short));
  return [...lets, ...content.lets];
}

/** Codes in the plan's own lines that are no finding's. */
function unknownCodes(plan: Plan): readonly Trouble[] {
  const troubles: Trouble[] = [];
  const codes = catalogue.map((info) => info.code);
  const check = (text: string, place: LetStand["place"]): void => {
    if (infoOf(text) !== undefined) return;
    troubles.push({ kind: "unknown-code", place, text, nearest: nearest(text, codes) });
  };
  if (plan.own.settings) for (const [code, { place }] of plan.settings.severities) check(code, place);
  for (const term of plan.own.terms) for (const each of termLets(term)) check(each.code, each.place);
  for (const routine of plan.own.routines) {
    for (const each of contentLets(routine.content)) check(each.code, each.place);
  }
  if (plan.own.settings) for (const each of plan.settings.lets) check(each.code, each.place);
  for (const exercise of plan.own.exercises) for (const each of exercise.lets) check(each.code, each.place);
  for (const player of plan.own.players) for (const each of player.lets) check(each.code, each.place);
  return troubles;
}
