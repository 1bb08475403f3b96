import { Memory } from "../../grammar/memory";
import { dateText } from "../plan/date";
import type { LetStand } from "../plan/let-stand";
import type { Place } from "../plan/place";
import type { Settings } from "../plan/settings";
import type { Finding } from "./finding";
import type { Raw, Recurring, RuleInfo } from "./rule";
import { counted, list } from "./words";

/** A `let … stand` and whom it is said of: a player, or whatever lies within its scope. */
export interface ScopedLet {
  readonly let: LetStand;
  /** Set for a line in a level or student: findings of these players. */
  readonly players: ReadonlySet<string> | undefined;
  /** True for the studio's: everything. */
  readonly everywhere: boolean;
}

interface Group {
  /** The gatherer it grows in; any other copies it before it grows there. */
  readonly owner: Gatherer;
  readonly info: RuleInfo;
  readonly first: Raw | Recurring;
  readonly standing: string | undefined;
  readonly dates: Set<number>;
  readonly players: Set<string>;
  /** What is said of it, once it was worked out; undefined again when it grows. */
  finding: Finding | undefined;
}

/** Lines that let a finding stand, by its code. */
export type LetsByCode = ReadonlyMap<string, readonly ScopedLet[]>;

export function letsByCode(lets: readonly ScopedLet[]): LetsByCode {
  const byCode = new Map<string, ScopedLet[]>();
  for (const scoped of lets) {
    const same = byCode.get(scoped.let.code);
    if (same === undefined) byCode.set(scoped.let.code, [scoped]);
    else same.push(scoped);
  }
  return byCode;
}

/** A number for each piece, to tell places apart by a text. */
const numbers = new Memory<object, number>();
let lastNumber = 0;

function numberOf(piece: object): number {
  const known = numbers.get(piece);
  if (known !== undefined) return known;
  lastNumber++;
  numbers.set(piece, lastNumber);
  return lastNumber;
}

/**
 * Gathers the occurrences of one finding at one place into one, with its days and players, and marks those that
 * the teacher lets stand.
 */
export class Gatherer {
  private readonly groups = new Map<string, Group>();
  /** The lines that stood for something. */
  readonly heeded = new Set<LetStand>();

  constructor(
    private readonly settings: Settings,
    private readonly lets: LetsByCode,
  ) {}

  /** Whether findings of this code are wanted at all. */
  wants(code: string): boolean {
    return this.settings.severities.get(code)?.severity !== "off";
  }

  add(info: RuleInfo, raw: Raw | Recurring, player: string | undefined): void {
    const standing = this.standing(info.code, raw, player);
    const { piece, span } = raw.place;
    // Without a day, two messages at one place are two findings; with days, they are one that recurs.
    const same = "say" in raw || raw.date !== undefined ? (raw.apart ?? "") : raw.message;
    const key = `${info.code}|${numberOf(piece)}|${span.start}|${span.end}|${standing ?? ""}|${same}`;
    const group = this.own(key);
    if (group === undefined) {
      this.groups.set(key, {
        owner: this,
        info,
        first: raw,
        standing,
        dates: new Set(raw.date === undefined ? [] : [raw.date]),
        players: new Set(player === undefined ? [] : [player]),
        finding: undefined,
      });
      return;
    }
    if (raw.date !== undefined) group.dates.add(raw.date);
    if (player !== undefined) group.players.add(player);
    group.finding = undefined;
  }

  /** Takes in what another has gathered, and leaves that one as it is, so that it can be taken in again. */
  join(other: Gatherer): void {
    for (const each of other.heeded) this.heeded.add(each);
    for (const [key, group] of other.groups) {
      const mine = this.own(key);
      if (mine === undefined) {
        this.groups.set(key, group);
        continue;
      }
      for (const date of group.dates) mine.dates.add(date);
      for (const player of group.players) mine.players.add(player);
      mine.finding = undefined;
    }
  }

  private own(key: string): Group | undefined {
    const group = this.groups.get(key);
    if (group === undefined || group.owner === this) return group;
    const copy = { ...group, owner: this, dates: new Set(group.dates), players: new Set(group.players) };
    this.groups.set(key, copy);
    return copy;
  }

  findings(): readonly Finding[] {
    return [...this.groups.values()].map((group) => {
      group.finding ??= this.finding(group);
      return group.finding;
    });
  }

  private finding(group: Group): Finding {
    const { info, first, standing } = group;
    const dates = [...group.dates].sort((a, b) => a - b);
    const players = [...group.players];
    const { message, details } = "say" in first ? first.say() : first;
    const stated = this.settings.severities.get(info.code)?.severity;
    const severity = stated === undefined || stated === "off" ? info.severity : stated;
    return {
      code: info.code,
      severity: standing === undefined ? severity : "note",
      place: first.place,
      message: `${message}${others(dates, players, first.wholeWeek === true)}`,
      details: details ?? [],
      related: first.related ?? [],
      standing,
      dates,
      players,
      mend: first.mend,
    };
  }

  private standing(code: string, raw: Raw | Recurring, player: string | undefined): string | undefined {
    for (const scoped of this.lets.get(code) ?? []) {
      if (scoped.let.on !== undefined && scoped.let.on !== raw.date) continue;
      if (!this.covers(scoped, raw, player)) continue;
      this.heeded.add(scoped.let);
      return scoped.let.because;
    }
    return undefined;
  }

  private covers(scoped: ScopedLet, raw: Raw | Recurring, player: string | undefined): boolean {
    if (scoped.everywhere) return true;
    if (scoped.players !== undefined && player !== undefined) return scoped.players.has(player);
    const { scope } = scoped.let;
    const inside = (place: Place): boolean =>
      place.piece === scope.piece && place.span.start >= scope.span.start && place.span.end <= scope.span.end;
    return inside(raw.place) || (raw.related ?? []).some((each) => inside(each.place));
  }
}

/** What the message of the first occurrence leaves out: more days, more players. */
function others(dates: readonly number[], players: readonly string[], weeks: boolean): string {
  let text = "";
  if (dates.length > 1) {
    const more = dates.length - 1;
    const last = dateText(dates[more]!);
    text += weeks
      ? ` The same in ${counted(more, "more week")}, the last from ${last}.`
      : ` The same on ${counted(more, "more day")}, the last on ${last}.`;
  }
  if (players.length > 1) {
    const names = list(players.slice(1), 4);
    // Initials bring their own full stop.
    text += ` Also for ${names}${names.endsWith(".") ? "" : "."}`;
  }
  return text;
}
