import { dateText } from "../plan/date";
import type { LetStand } from "../plan/let-stand";
import type { Place } from "../plan/place";
import type { Settings } from "../plan/settings";
import type { Finding } from "./finding";
import type { Raw, RuleInfo } from "./rule";
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
  readonly info: RuleInfo;
  readonly first: Raw;
  readonly standing: string | undefined;
  readonly dates: Set<number>;
  readonly players: Set<string>;
}

/**
 * Gathers the occurrences of one finding at one place into one, with its days and players, and marks those that
 * the teacher lets stand.
 */
export class Gatherer {
  private readonly groups = new Map<string, Group>();
  private readonly pieces = new Map<object, number>();
  private readonly letsByCode = new Map<string, ScopedLet[]>();
  /** The lines that stood for something. */
  readonly heeded = new Set<LetStand>();

  constructor(
    private readonly settings: Settings,
    lets: readonly ScopedLet[],
  ) {
    for (const scoped of lets) {
      const same = this.letsByCode.get(scoped.let.code);
      if (same === undefined) this.letsByCode.set(scoped.let.code, [scoped]);
      else same.push(scoped);
    }
  }

  /** Whether findings of this code are wanted at all. */
  wants(code: string): boolean {
    return this.settings.severities.get(code)?.severity !== "off";
  }

  add(info: RuleInfo, raw: Raw, player: string | undefined): void {
    const standing = this.standing(info.code, raw, player);
    const { piece, span } = raw.place;
    let number = this.pieces.get(piece);
    if (number === undefined) {
      number = this.pieces.size;
      this.pieces.set(piece, number);
    }
    // Without a day, two messages at one place are two findings; with days, they are one that recurs.
    const same = raw.date === undefined ? raw.message : (raw.apart ?? "");
    const key = `${info.code}|${number}|${span.start}|${span.end}|${standing ?? ""}|${same}`;
    const group = this.groups.get(key);
    if (group === undefined) {
      this.groups.set(key, {
        info,
        first: raw,
        standing,
        dates: new Set(raw.date === undefined ? [] : [raw.date]),
        players: new Set(player === undefined ? [] : [player]),
      });
      return;
    }
    if (raw.date !== undefined) group.dates.add(raw.date);
    if (player !== undefined) group.players.add(player);
  }

  findings(): readonly Finding[] {
    return [...this.groups.values()].map((group) => this.finding(group));
  }

  private finding(group: Group): Finding {
    const { info, first, standing } = group;
    const dates = [...group.dates].sort((a, b) => a - b);
    const players = [...group.players];
    const stated = this.settings.severities.get(info.code)?.severity;
    const severity = stated === undefined || stated === "off" ? info.severity : stated;
    return {
      code: info.code,
      severity: standing === undefined ? severity : "note",
      place: first.place,
      message: `${first.message}${others(dates, players, first.wholeWeek === true)}`,
      details: first.details ?? [],
      related: first.related ?? [],
      standing,
      dates,
      players,
      mend: first.mend,
    };
  }

  private standing(code: string, raw: Raw, player: string | undefined): string | undefined {
    for (const scoped of this.letsByCode.get(code) ?? []) {
      if (scoped.let.on !== undefined && scoped.let.on !== raw.date) continue;
      if (!this.covers(scoped, raw, player)) continue;
      this.heeded.add(scoped.let);
      return scoped.let.because;
    }
    return undefined;
  }

  private covers(scoped: ScopedLet, raw: Raw, player: string | undefined): boolean {
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
