import {
  EmbeddedActionsParser,
  type IParserErrorMessageProvider,
  type IToken,
  type TokenType,
} from "chevrotain";
import type { Span } from "./span";
import {
  AnyCount,
  AnyNoteWord,
  Comma,
  DateText as DateToken,
  Dynamic,
  Equals,
  endOf,
  Fraction,
  K,
  Mark,
  MinorForm,
  Mode,
  Percent,
  Pitch,
  QuotedName,
  StepName,
  Tonguing,
  Tonic,
  Unit,
  VOCABULARY,
  Weekday,
} from "./tokens";
import type {
  ArticulationText,
  Count,
  DateRange,
  DateText,
  Days,
  Direction,
  DynamicWord,
  KeyText,
  ModeWord,
  Name,
  PitchText,
  Range,
  RestText,
  ShareText,
  StepWord,
  TimeText,
  Trivia,
  ValueText,
  WeekdayRange,
  WeekdayWord,
  WeekRange,
  Weeks,
} from "./tree";

/** Why a statement could not be read: what might have stood at `token`. */
export interface Fault {
  readonly token: IToken;
  readonly expected: readonly TokenType[];
  /** Says it in words of its own where the tokens were right and what they mean was not. */
  readonly message: string | undefined;
  readonly mend: { readonly title: string; readonly text: string } | undefined;
}

/**
 * Chevrotain reports a mistake through this provider. Nothing is worded here: the expected tokens are kept, and
 * `explain.ts` finds the words when it knows the whole line.
 */
export class FaultKeeper implements IParserErrorMessageProvider {
  fault: Fault | undefined;

  private keep(token: IToken, expected: readonly TokenType[]): string {
    this.fault = { token, expected, message: undefined, mend: undefined };
    return "";
  }
  buildMismatchTokenMessage(options: { expected: TokenType; actual: IToken }): string {
    return this.keep(options.actual, [options.expected]);
  }
  buildNotAllInputParsedMessage(options: { firstRedundant: IToken }): string {
    return this.keep(options.firstRedundant, []);
  }
  buildNoViableAltMessage(options: { expectedPathsPerAlt: TokenType[][][]; actual: IToken[] }): string {
    const firsts = options.expectedPathsPerAlt.flatMap((paths) => paths.map((path) => path[0]!));
    const first = options.actual[0]!;
    const matching = options.expectedPathsPerAlt.flat().filter((path) => matches(first, path[0]!));
    // Where the first token fits some alternative, it is the second one that is wrong.
    if (matching.length > 0 && matching.every((path) => path.length > 1)) {
      return this.keep(
        options.actual[1]!,
        matching.map((path) => path[1]!),
      );
    }
    return this.keep(first, firsts);
  }
  buildEarlyExitMessage(options: { expectedIterationPaths: TokenType[][]; actual: IToken[] }): string {
    return this.keep(
      options.actual[0]!,
      options.expectedIterationPaths.map((path) => path[0]!),
    );
  }
}

/** Whether a token is of this type or of one that belongs to this category. */
export function matches(token: IToken, type: TokenType): boolean {
  return token.tokenType === type || (token.tokenType.CATEGORIES?.includes(type) ?? false);
}

const COUNTS = new Map(
  "one two three four five six seven eight nine ten eleven twelve".split(" ").map((word, i) => [word, i + 1]),
);

const ALL_HOW = new Set(["slurred", "tongued", "staccato", "tenuto"]);

const NOTE_WORDS: ReadonlyMap<string, number> = new Map([
  ["whole", 1],
  ["semibreve", 1],
  ["half", 2],
  ["minim", 2],
  ["quarter", 4],
  ["crotchet", 4],
  ["eighth", 8],
  ["quaver", 8],
  ["sixteenth", 16],
  ["semiquaver", 16],
  ["thirty-second", 32],
  ["demisemiquaver", 32],
]);

/** The denominator of `quarter`, `quavers` … */
export function wordDenominator(word: string): number {
  const single = word === "halves" ? "half" : word.replace(/s$/, "");
  return NOTE_WORDS.get(word) ?? NOTE_WORDS.get(single) ?? Number.NaN;
}

/** Sharps and flats as the keyboard has them. */
export function plainAccidentals(text: string): string {
  return text.replace(/♯/g, "#").replace(/♭/g, "b");
}

/** A name's text without its quotes, in composed form. */
export function nameText(image: string): string {
  const close = image.length > 1 && /["“”»]$/.test(image) ? -1 : undefined;
  const text = image.slice(1, close);
  return /[^ -~]/.test(text) ? text.normalize("NFC") : text;
}

/** The `n` of `1/8.` and of `quarter`, `dots` apart. */
export function fractionValue(token: IToken, span: Span): ValueText {
  const text = token.image;
  const slash = text.indexOf("/");
  let end = text.length;
  while (text.charCodeAt(end - 1) === 46) end--;
  return {
    span,
    text,
    num: Number(text.slice(0, slash)),
    den: Number(text.slice(slash + 1, end)),
    dots: text.length - end,
  };
}

/**
 * The small things that statements are made of. Rules hold no recovery: `recoveryEnabled` is off, because the
 * outline has already cut the text into statements and a statement that fails is kept letter for letter.
 * Chevrotain's own recovery would put guessed values into the tree.
 */
export abstract class LeafParser extends EmbeddedActionsParser {
  /** What surrounds the statement being read. */
  trivia: Trivia = { before: [], after: undefined, blank: false };
  readonly keeper: FaultKeeper;

  protected constructor(keeper: FaultKeeper, skipValidations: boolean) {
    super([...VOCABULARY], {
      recoveryEnabled: false,
      maxLookahead: 2,
      skipValidations,
      errorMessageProvider: keeper,
    });
    this.keeper = keeper;
  }

  /** Another statement may follow on the same line, so tokens that are left over are no mistake of this rule. */
  protected isAtEndOfInput(): boolean {
    return true;
  }

  /** The first token that the last rule left unread. */
  next(): IToken {
    return this.LA(1);
  }

  /** Refuses what was read so far, in words of its own. */
  protected refuse(token: IToken, message: string, mend?: Fault["mend"]): void {
    this.keeper.fault ??= { token, expected: [], message, mend };
  }

  protected span(first: IToken): Span {
    return { start: first.startOffset, end: endOf(this.LA(0)) };
  }

  protected tokenSpan(token: IToken): Span {
    return { start: token.startOffset, end: endOf(token) };
  }

  readonly name = this.RULE("name", (): Name => {
    const token = this.CONSUME(QuotedName);
    return { span: this.tokenSpan(token), text: nameText(token.image) };
  });

  readonly count = this.RULE("count", (): Count => {
    const token = this.CONSUME(AnyCount);
    const text = token.image;
    return { span: this.tokenSpan(token), text, value: COUNTS.get(text) ?? Number(text) };
  });

  readonly pitch = this.RULE("pitch", (): PitchText => {
    const token = this.CONSUME(Pitch);
    return { span: this.tokenSpan(token), text: plainAccidentals(token.image) };
  });

  readonly key = this.RULE("key", (): KeyText => {
    const token = this.CONSUME(Tonic);
    let mode: ModeWord | undefined;
    this.OPTION(() =>
      this.OR([
        { ALT: () => this.CONSUME(K.major) && (mode = "major") },
        { ALT: () => this.CONSUME(K.minor) && (mode = "minor") },
        { ALT: () => (mode = this.CONSUME(Mode).image as ModeWord) },
        {
          ALT: () => {
            mode = `${this.CONSUME(MinorForm).image} minor` as ModeWord;
            this.CONSUME1(K.minor);
          },
        },
      ]),
    );
    return { span: this.span(token), tonic: plainAccidentals(token.image), mode };
  });

  readonly value = this.RULE("value", (): ValueText => {
    const first = this.LA(1);
    return this.OR([
      {
        ALT: () => {
          const token = this.CONSUME(Fraction);
          return fractionValue(token, this.tokenSpan(token));
        },
      },
      {
        ALT: () => {
          let dots = 0;
          this.OPTION(() => {
            this.CONSUME(K.dotted);
            dots = 1;
          });
          const word = this.CONSUME(AnyNoteWord).image;
          const text = dots === 1 ? `dotted ${word}` : word;
          return { span: this.span(first), text, num: 1, den: wordDenominator(word), dots };
        },
      },
    ]);
  });

  readonly time = this.RULE("time", (): TimeText => {
    const first = this.LA(1);
    const parts: { value: number; unit: "h" | "min" | "s" }[] = [];
    this.AT_LEAST_ONE({
      // `rest 30 s  2 times` goes on with a number that has no unit.
      GATE: () => parts.length === 0 || matches(this.LA(2), Unit),
      DEF: () => {
        const { value } = this.SUBRULE(this.count);
        const unit = this.CONSUME(Unit).image as "h" | "min" | "s";
        parts.push({ value, unit });
      },
    });
    return { span: this.span(first), parts };
  });

  readonly date = this.RULE("date", (): DateText => {
    const token = this.CONSUME(DateToken);
    return { span: this.tokenSpan(token), text: token.image };
  });

  /** `DATE` or `DATE to DATE`. */
  readonly dateRange = this.RULE("dateRange", (): DateRange => {
    const first = this.LA(1);
    const from = this.SUBRULE(this.date);
    let to: DateText | undefined;
    this.OPTION(() => {
      this.CONSUME(K.to);
      to = this.SUBRULE1(this.date);
    });
    return { span: this.span(first), from, to };
  });

  readonly dateList = this.RULE("dateList", (): DateText[] => {
    const dates: DateText[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void dates.push(this.SUBRULE(this.date)) });
    return dates;
  });

  readonly share = this.RULE("share", (): ShareText => {
    const first = this.LA(1);
    return this.OR([
      { ALT: () => ({ span: this.tokenSpan(this.CONSUME(K.half)), text: "half", percent: 50 }) },
      { ALT: () => ({ span: this.tokenSpan(this.CONSUME(K.all)), text: "all", percent: 100 }) },
      {
        ALT: () => {
          const { text, value } = this.SUBRULE(this.count);
          this.CONSUME(Percent);
          return { span: this.span(first), text: `${text} %`, percent: value };
        },
      },
    ]);
  });

  readonly weekdays = this.RULE("weekdays", (): WeekdayRange[] => {
    const ranges: WeekdayRange[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: Comma,
      DEF: () => {
        const first = this.CONSUME(Weekday);
        let to: WeekdayWord | undefined;
        this.OPTION(() => {
          this.CONSUME(K.to);
          to = weekdayWord(this.CONSUME1(Weekday));
        });
        ranges.push({ span: this.span(first), from: weekdayWord(first), to });
      },
    });
    return ranges;
  });

  /** The days of a session and of practice. */
  readonly days = this.RULE("days", (): Days => {
    const first = this.LA(1);
    return this.OR<Days>([
      {
        ALT: () => {
          const ranges = this.SUBRULE(this.weekdays);
          return { span: this.span(first), kind: "weekdays", ranges };
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.every);
          this.CONSUME(K.day);
          return { span: this.span(first), kind: "every day" };
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.on);
          const dates = this.SUBRULE(this.dateList);
          return { span: this.span(first), kind: "dates", dates };
        },
      },
    ]);
  });

  /** The days of lessons and bookings: `every Tue`, or dates. */
  readonly everyOrDates = this.RULE("everyOrDates", (): Days => {
    const first = this.LA(1);
    return this.OR<Days>([
      {
        ALT: () => {
          this.CONSUME(K.every);
          return this.OR1<Days>([
            {
              ALT: () => {
                const ranges = this.SUBRULE(this.weekdays);
                return { span: this.span(first), kind: "weekdays", ranges };
              },
            },
            {
              ALT: () => {
                this.CONSUME(K.day);
                return { span: this.span(first), kind: "every day" };
              },
            },
          ]);
        },
      },
      {
        ALT: () => {
          const dates = this.SUBRULE(this.dateList);
          return { span: this.span(first), kind: "dates", dates };
        },
      },
    ]);
  });

  readonly weeks = this.RULE("weeks", (): Weeks => {
    const first = this.LA(1);
    const ranges: WeekRange[] = [];
    let every = false;
    this.OR([
      {
        ALT: () => {
          this.CONSUME(K.every);
          this.CONSUME(K.week);
          every = true;
        },
      },
      {
        ALT: () => {
          this.OR1([{ ALT: () => this.CONSUME(K.weeks) }, { ALT: () => this.CONSUME1(K.week) }]);
          this.AT_LEAST_ONE_SEP({
            SEP: Comma,
            DEF: () => {
              const start = this.LA(1);
              const from = this.SUBRULE(this.count);
              let to: Count | undefined;
              this.OPTION(() => {
                this.CONSUME(K.to);
                to = this.SUBRULE1(this.count);
              });
              ranges.push({ span: this.span(start), from, to });
            },
          });
        },
      },
    ]);
    return { span: this.span(first), ranges: every ? undefined : ranges };
  });

  readonly step = this.RULE("step", (): StepWord => {
    return this.OR<StepWord>([
      { ALT: () => this.CONSUME(StepName).image as StepWord },
      {
        ALT: () => {
          this.CONSUME(K.half);
          this.CONSUME(K.step);
          return "half step";
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.whole);
          this.CONSUME1(K.step);
          return "whole step";
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.minor);
          this.CONSUME(K.third);
          return "minor third";
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.major);
          this.CONSUME1(K.third);
          return "major third";
        },
      },
    ]);
  });

  readonly direction = this.RULE("direction", (): Direction => {
    return this.OR<Direction>([
      { ALT: () => this.CONSUME(K.up) && "up" },
      { ALT: () => this.CONSUME(K.down) && "down" },
    ]);
  });

  /** `50`, `50 to 58`, `between 50 and 58`. */
  readonly range = this.RULE("range", (): Range => {
    const first = this.LA(1);
    return this.OR<Range>([
      {
        ALT: () => {
          const from = this.SUBRULE(this.count);
          let to: Count | undefined;
          this.OPTION(() => {
            this.CONSUME(K.to);
            to = this.SUBRULE1(this.count);
          });
          return { span: this.span(first), way: to === undefined ? "fixed" : "growth", from, to };
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.between);
          const from = this.SUBRULE2(this.count);
          this.CONSUME(K.and);
          const to = this.SUBRULE3(this.count);
          return { span: this.span(first), way: "choice", from, to };
        },
      },
    ]);
  });

  readonly dynamic = this.RULE("dynamic", (): DynamicWord => {
    return this.CONSUME(Dynamic).image as DynamicWord;
  });

  readonly restText = this.RULE("restText", (): RestText => {
    return this.OR<RestText>([
      { ALT: () => ({ span: this.tokenSpan(this.CONSUME(K.equal)), kind: "equal" }) },
      { ALT: () => ({ span: this.tokenSpan(this.CONSUME(K.none)), kind: "none" }) },
      {
        ALT: () => {
          const time = this.SUBRULE(this.time);
          return { span: time?.span, kind: "time", time };
        },
      },
    ]);
  });

  readonly articulation = this.RULE("articulation", (): ArticulationText => {
    const first = this.LA(1);
    return this.OR<ArticulationText>([
      {
        ALT: () => {
          this.CONSUME(K.all);
          const how = this.OR1([
            { ALT: () => this.CONSUME(K.slurred) },
            { ALT: () => this.CONSUME(K.tongued) },
            { ALT: () => this.CONSUME(Mark) },
          ]).image;
          this.ACTION(() => {
            if (!ALL_HOW.has(how)) this.refuse(this.LA(0), "After `all` stands `slurred`, `tongued`, `staccato` or `tenuto`.");
          });
          return { span: this.span(first), kind: `all ${how}` as "all slurred" };
        },
      },
      {
        ALT: () => {
          const how = this.CONSUME(Tonguing).image;
          this.CONSUME1(K.tongued);
          this.ACTION(() => {
            if (how === "single") this.refuse(first, "Single tonguing is written `all tongued`.");
          });
          return { span: this.span(first), kind: `${how} tongued` as "double tongued" };
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.as);
          this.CONSUME(K.written);
          return { span: this.span(first), kind: "as written" };
        },
      },
      {
        ALT: () => {
          const groups: { how: "slur" | "tongue"; notes: Count }[] = [];
          this.AT_LEAST_ONE(() => {
            const how = this.OR2([
              { ALT: () => this.CONSUME(K.slur) },
              { ALT: () => this.CONSUME(K.tongue) },
            ]).image as "slur" | "tongue";
            groups.push({ how, notes: this.SUBRULE(this.count) });
          });
          return { span: this.span(first), kind: "pattern", groups };
        },
      },
    ]);
  });

  /** `day` or `days`, whichever is grammatical. */
  readonly dayWord = this.RULE("dayWord", (): void => {
    this.OR([{ ALT: () => this.CONSUME(K.days) }, { ALT: () => this.CONSUME(K.day) }]);
  });

  /** `1/4 =` */
  readonly beat = this.RULE("beat", (): ValueText => {
    const value = this.SUBRULE(this.value);
    this.CONSUME(Equals);
    return value;
  });
}

function weekdayWord(token: IToken): WeekdayWord {
  return token.image.slice(0, 3) as WeekdayWord;
}
