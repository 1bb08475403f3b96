import { printStatement } from "../../grammar/print";
import type { Span } from "../../grammar/span";
import type {
  Block,
  ChangeBlock,
  ChangeItem,
  DateRange,
  DateText,
  Days,
  LetField,
  SessionBlock,
  SessionItem,
  TermDeclaration,
  TermField,
  Trivia,
  Unread,
  WeeksBlock,
  WeeksItem,
} from "../../grammar/tree";
import { dateText, parseDate } from "../plan/date";
import type { Closure, DateSpan, Term } from "../plan/term";
import { type DateMove, dateMove } from "./date-move";

/** What the new term is to be. */
export interface CarryAsk {
  readonly name: string;
  readonly dates: DateSpan;
  /** The new closures, light days and lessons that fall away; the old ones are not taken over. */
  readonly closures: readonly NewClosure[];
  /** Whether bookings, concerts and lessons on single days are moved along; otherwise they are left out. */
  readonly bookings: boolean;
}

export interface NewClosure extends DateSpan {
  readonly how: Closure["how"];
  readonly reason: string | undefined;
}

/** A new term made from an old one. */
export interface CarriedTerm {
  readonly declaration: TermDeclaration;
  /** Lines of the old term that the new one does not have, as they were written. */
  readonly leftOut: readonly LeftOut[];
}

export interface LeftOut {
  readonly line: string;
  readonly why: "closure" | "booking" | "illness" | "no such day";
}

/** Nothing of the new tree stands in a file yet. */
const NOWHERE: Span = { start: 0, end: 0 };
const NO_TRIVIA: Trivia = { before: [], after: undefined, blank: false };

/**
 * A term laid over a new calendar. What is said of weeks stays as it is; a day moves to the same weekday of the
 * same taught week. Weeks, walks and growth need no change: they never named a date.
 */
export function carriedTerm(term: Term, ask: CarryAsk): CarriedTerm {
  return new Carrier(term, ask).carry();
}

class Carrier {
  private readonly leftOut: LeftOut[] = [];
  private readonly move: DateMove;

  constructor(
    private readonly term: Term,
    private readonly ask: CarryAsk,
  ) {
    const { place } = term;
    const closures = ask.closures.map((each) => ({ ...each, place }));
    this.move = dateMove(term, { ...term, dates: ask.dates, closures });
  }

  carry(): CarriedTerm {
    const { declaration } = this.term;
    const block = this.block(declaration.block, (item) => this.field(item));
    return {
      declaration: {
        ...declaration,
        name: { ...declaration.name, text: this.ask.name },
        block: block === undefined ? undefined : { ...block, items: this.withClosures(block.items) },
      },
      leftOut: this.leftOut,
    };
  }

  private block<T>(
    block: Block<T> | undefined,
    each: (item: T | Unread) => T | Unread | undefined,
  ): Block<T> | undefined {
    if (block === undefined) return undefined;
    return { ...block, items: block.items.flatMap((item) => each(item) ?? []) };
  }

  /** The new closures stand where a term has them: after its days of practice. */
  private withClosures(items: readonly (TermField | Unread)[]): readonly (TermField | Unread)[] {
    const closures = this.ask.closures.map(
      ({ how, from, to, reason }): TermField => ({
        kind: "closure",
        how,
        dates: {
          from: written(from),
          to: from === to ? undefined : written(to),
          span: NOWHERE,
        },
        reason: reason === undefined ? undefined : { text: reason, span: NOWHERE },
        span: NOWHERE,
        trivia: NO_TRIVIA,
      }),
    );
    const at = Math.max(...["from", "practice"].map((kind) => items.findIndex((item) => item.kind === kind)));
    return [...items.slice(0, at + 1), ...closures, ...items.slice(at + 1)];
  }

  private omit(item: Parameters<typeof printStatement>[0], why: LeftOut["why"]): undefined {
    const line = printStatement(item).replace(/\s+/g, " ");
    this.leftOut.push({ line, why });
    return undefined;
  }

  private field(item: TermField | Unread): TermField | Unread | undefined {
    switch (item.kind) {
      case "from": {
        const { from, to } = this.ask.dates;
        return { ...item, from: written(from), to: written(to) };
      }
      case "closure":
        return this.omit(item, "closure");
      case "lesson":
      case "booked":
      case "short days": {
        if (item.days.kind === "dates") {
          if (!this.ask.bookings) return this.omit(item, "booking");
          const days = this.days(item.days);
          return days === undefined ? this.omit(item, "no such day") : { ...item, days };
        }
        if (item.kind !== "booked" || item.within === undefined) return item;
        return { ...item, within: this.window(item.within) };
      }
      case "goal": {
        if (!("date" in item.by)) return item;
        const date = this.date(item.by.date, "any day");
        return date === undefined ? this.omit(item, "no such day") : { ...item, by: { date } };
      }
      case "let":
        return this.let(item);
      case "weeks":
        return this.weeks(item);
      case "change":
        return this.change(item);
      case "unread":
      case "aim":
      case "practice":
      case "ease":
        return item;
    }
  }

  private weeks(block: WeeksBlock): WeeksBlock {
    return {
      ...block,
      block: this.block<WeeksItem>(block.block, (item) => {
        if (item.kind === "let") return this.let(item);
        return item.kind === "session" ? this.session(item) : item;
      }),
    };
  }

  private session(session: SessionBlock): SessionBlock | undefined {
    const days = session.days.kind === "dates" ? this.practiceDays(session.days) : session.days;
    if (days === undefined) return this.omit({ ...session, block: undefined }, "no such day");
    return { ...session, days, block: this.block<SessionItem>(session.block, (item) => this.item(item)) };
  }

  private item(item: SessionItem | Unread): SessionItem | Unread | undefined {
    switch (item.kind) {
      case "let":
        return this.let(item);
      case "goal": {
        if (!("date" in item.by)) return item;
        const date = this.date(item.by.date, "any day");
        return date === undefined ? this.omit(item, "no such day") : { ...item, by: { date } };
      }
      case "short": {
        const block = this.block<SessionItem>(item.block, (each) => this.item(each));
        return block === undefined ? item : { ...item, block };
      }
      case "assignment":
        return {
          ...item,
          block: this.block(item.block, (each) => {
            if (each.kind === "let") return this.let(each);
            if (each.kind !== "goal" || !("date" in each.by)) return each;
            const date = this.date(each.by.date, "any day");
            return date === undefined ? this.omit(each, "no such day") : { ...each, by: { date } };
          }),
        };
      case "unread":
      case "aim":
      case "pause":
        return item;
    }
  }

  private let(item: LetField): LetField | undefined {
    if (item.on === undefined) return item;
    const on = this.date(item.on, "any day");
    return on === undefined ? this.omit(item, "no such day") : { ...item, on };
  }

  /** What was changed for one student; nobody's illness is carried over. A change with nothing left goes. */
  private change(change: ChangeBlock): ChangeBlock | undefined {
    const block = this.block<ChangeItem>(change.block, (item) => {
      switch (item.kind) {
        case "unread":
          return item;
        case "ill":
        case "back at half":
          return this.omit(item, "illness");
        case "replace":
        case "leave out": {
          if (item.when === undefined || "weeks" in item.when) return item;
          const dates = this.range(item.when.dates);
          return dates === undefined ? this.omit(item, "no such day") : { ...item, when: { dates } };
        }
      }
    });
    return block !== undefined && block.items.length === 0 ? undefined : { ...change, block };
  }

  private date(node: DateText, which: "any day" | "practice day"): DateText | undefined {
    const day = parseDate(node.text);
    const moved = day === undefined ? undefined : this.move(day, which);
    return moved === undefined ? undefined : written(moved);
  }

  /** Single days; those that the new calendar does not have are left out, and undefined says that none is left. */
  private days(days: Extract<Days, { kind: "dates" }>): Days | undefined {
    const dates = days.dates.flatMap((each) => this.date(each, "any day") ?? []);
    return dates.length === 0 ? undefined : { ...days, dates };
  }

  private practiceDays(days: Extract<Days, { kind: "dates" }>): Days | undefined {
    const dates = days.dates.flatMap((each) => this.date(each, "practice day") ?? []);
    return dates.length === 0 ? undefined : { ...days, dates };
  }

  private range(range: DateRange): DateRange | undefined {
    const from = this.date(range.from, "any day");
    const to = range.to === undefined ? undefined : this.date(range.to, "any day");
    return from === undefined || (range.to !== undefined && to === undefined)
      ? undefined
      : { ...range, from, to };
  }

  /** From when to when something is every week; an end without its day is the term's own. */
  private window(range: DateRange): DateRange {
    const { from, to } = this.ask.dates;
    return {
      ...range,
      from: this.date(range.from, "any day") ?? written(from),
      to: range.to === undefined ? undefined : (this.date(range.to, "any day") ?? written(to)),
    };
  }
}

function written(day: number): DateText {
  return { text: dateText(day), span: NOWHERE };
}
