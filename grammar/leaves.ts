import {
  EmbeddedActionsParser,
  type IParserErrorMessageProvider,
  type IToken,
  type TokenType,
} from "chevrotain";
import { type Span, spanOf } from "./span";
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
    return this.keep(options.actual[0]!, firsts);
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

/** The number that a count is, in figures or in words. */
function countValue(text: string): number {
  const figures = wholeNumber(text, 0);
  return Number.isNaN(figures) ? (COUNTS.get(text) ?? Number(text)) : figures;
}

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
  for (let i = 0; i < text.length; i++) {
    if (text.charCodeAt(i) > 127) return text.replace(/♯/g, "#").replace(/♭/g, "b");
  }
  return text;
}

/** The number that figures alone spell, from an offset up to another; NaN where anything else stands there. */
export function wholeNumber(text: string, from: number, to = text.length): number {
  let number = from < to ? 0 : Number.NaN;
  for (let i = from; i < to; i++) {
    const figure = text.charCodeAt(i) - 48;
    if (figure < 0 || figure > 9) return Number.NaN;
    number = number * 10 + figure;
  }
  return number;
}

/** A name's text without its quotes, in composed form. */
export function nameText(image: string): string {
  const end = image.length - 1;
  const closed = end > 0 && CLOSING_QUOTES.includes(image.charAt(end));
  const text = image.slice(1, closed ? end : undefined);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code < 32 || code > 126) return text.normalize("NFC");
  }
  return text;
}
const CLOSING_QUOTES = '"“”»';

/** The number above in a fraction such as `1/8.`. */
export function numeratorOf(text: string): number {
  return wholeNumber(text, 0, text.indexOf("/"));
}

/** The number below in a fraction such as `1/8.`. */
export function denominatorOf(text: string): number {
  return wholeNumber(text, text.indexOf("/") + 1, text.length - dotsOf(text));
}

/** How many dots follow a fraction such as `1/8.`. */
export function dotsOf(text: string): number {
  let dots = 0;
  while (text.charCodeAt(text.length - 1 - dots) === 46) dots++;
  return dots;
}

/** The note value that a fraction is. */
export function fractionValue({ image }: IToken, span: Span): ValueText {
  return { span, text: image, num: numeratorOf(image), den: denominatorOf(image), dots: dotsOf(image) };
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
      maxLookahead: 1,
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

  /** Passes over the token that the last rule left unread. */
  skip(): void {
    this.SKIP_TOKEN();
  }

  /** Refuses what was read so far, in words of its own. */
  protected refuse(token: IToken, message: string, mend?: Fault["mend"]): void {
    this.keeper.fault ??= { token, expected: [], message, mend };
  }

  protected span(first: IToken): Span {
    return spanOf(first.startOffset, endOf(this.LA(0)));
  }

  protected tokenSpan(token: IToken): Span {
    return spanOf(token.startOffset, endOf(token));
  }

  readonly name = this.RULE("name", (): Name => {
    const token = this.CONSUME(QuotedName);
    return { span: this.tokenSpan(token), text: nameText(token.image) };
  });

  readonly count = this.RULE("count", (): Count => {
    const token = this.CONSUME(AnyCount);
    const text = token.image;
    return { span: this.tokenSpan(token), text, value: countValue(text) };
  });

  readonly pitch = this.RULE("pitch", (): PitchText => {
    const token = this.CONSUME(Pitch);
    return { span: this.tokenSpan(token), text: plainAccidentals(token.image) };
  });

  private readonly modeWords = [
    { ALT: (): ModeWord => this.CONSUME(K.major) && "major" },
    { ALT: (): ModeWord => this.CONSUME(K.minor) && "minor" },
    { ALT: () => this.CONSUME(Mode).image as ModeWord },
    {
      ALT: () => {
        const form = this.CONSUME(MinorForm).image;
        this.CONSUME1(K.minor);
        return `${form} minor` as ModeWord;
      },
    },
  ];
  private readonly mode = this.RULE("mode", (): ModeWord => this.OR<ModeWord>(this.modeWords));
  private readonly someMode = (): ModeWord => this.SUBRULE(this.mode);

  readonly key = this.RULE("key", (): KeyText => {
    const token = this.CONSUME(Tonic);
    const mode = this.OPTION(this.someMode);
    return { span: this.span(token), tonic: plainAccidentals(token.image), mode };
  });

  private readonly someDot = (): IToken => this.CONSUME(K.dotted);
  private readonly noteValues = [
    {
      ALT: () => {
        const token = this.CONSUME(Fraction);
        return fractionValue(token, this.tokenSpan(token));
      },
    },
    {
      ALT: () => {
        const first = this.LA(1);
        const dots = this.OPTION(this.someDot) === undefined ? 0 : 1;
        const word = this.CONSUME(AnyNoteWord).image;
        const text = dots === 1 ? `dotted ${word}` : word;
        return { span: this.span(first), text, num: 1, den: wordDenominator(word), dots };
      },
    },
  ];
  readonly value = this.RULE("value", (): ValueText => this.OR<ValueText>(this.noteValues));

  private readonly moreTime = {
    // `rest 30 s  2 times` goes on with a number that has no unit.
    GATE: (): boolean => matches(this.LA(2), Unit),
    DEF: (): void => void this.timeParts.push(this.SUBRULE1(this.timePart)),
  };
  private timeParts: TimePart[] = [];
  private readonly timePart = this.RULE("timePart", (): TimePart => {
    const { value } = this.SUBRULE(this.count);
    const unit = this.CONSUME(Unit).image as "h" | "min" | "s";
    return { value, unit };
  });
  readonly time = this.RULE("time", (): TimeText => {
    const first = this.LA(1);
    const parts = [this.SUBRULE(this.timePart)];
    this.timeParts = parts;
    this.MANY(this.moreTime);
    return { span: this.span(first), parts };
  });

  readonly date = this.RULE("date", (): DateText => {
    const token = this.CONSUME(DateToken);
    return { span: this.tokenSpan(token), text: token.image };
  });

  private readonly toDate = (): DateText => {
    this.CONSUME(K.to);
    return this.SUBRULE1(this.date);
  };
  /** `DATE` or `DATE to DATE`. */
  readonly dateRange = this.RULE("dateRange", (): DateRange => {
    const first = this.LA(1);
    const from = this.SUBRULE(this.date);
    const to = this.OPTION(this.toDate);
    return { span: this.span(first), from, to };
  });

  readonly dateList = this.RULE("dateList", (): DateText[] => {
    const dates: DateText[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void dates.push(this.SUBRULE(this.date)) });
    return dates;
  });

  private readonly shares = [
    { ALT: (): ShareText => ({ span: this.tokenSpan(this.CONSUME(K.half)), text: "half", percent: 50 }) },
    { ALT: (): ShareText => ({ span: this.tokenSpan(this.CONSUME(K.all)), text: "all", percent: 100 }) },
    {
      ALT: (): ShareText => {
        const first = this.LA(1);
        const { text, value } = this.SUBRULE(this.count);
        this.CONSUME(Percent);
        return { span: this.span(first), text: `${text} %`, percent: value };
      },
    },
  ];
  readonly share = this.RULE("share", (): ShareText => this.OR<ShareText>(this.shares));

  private readonly toWeekday = (): WeekdayWord => {
    this.CONSUME(K.to);
    return weekdayWord(this.CONSUME1(Weekday));
  };
  private readonly weekdayRange = this.RULE("weekdayRange", (): WeekdayRange => {
    const first = this.CONSUME(Weekday);
    const to = this.OPTION(this.toWeekday);
    return { span: this.span(first), from: weekdayWord(first), to };
  });
  readonly weekdays = this.RULE("weekdays", (): WeekdayRange[] => {
    const ranges: WeekdayRange[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void ranges.push(this.SUBRULE(this.weekdayRange)) });
    return ranges;
  });

  private readonly dayChoices = [
    {
      ALT: (): Days => {
        const first = this.LA(1);
        const ranges = this.SUBRULE(this.weekdays);
        return { span: this.span(first), kind: "weekdays", ranges };
      },
    },
    {
      ALT: (): Days => {
        const first = this.CONSUME(K.every);
        this.CONSUME(K.day);
        return { span: this.span(first), kind: "every day" };
      },
    },
    {
      ALT: (): Days => {
        const first = this.CONSUME(K.on);
        const dates = this.SUBRULE(this.dateList);
        return { span: this.span(first), kind: "dates", dates };
      },
    },
  ];
  /** The days of a session and of practice. */
  readonly days = this.RULE("days", (): Days => this.OR<Days>(this.dayChoices));

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

  private readonly steps = [
    { ALT: () => this.CONSUME(StepName).image as StepWord },
    {
      ALT: (): StepWord => {
        this.CONSUME(K.half);
        this.CONSUME(K.step);
        return "half step";
      },
    },
    {
      ALT: (): StepWord => {
        this.CONSUME(K.whole);
        this.CONSUME1(K.step);
        return "whole step";
      },
    },
    {
      ALT: (): StepWord => {
        this.CONSUME(K.minor);
        this.CONSUME(K.third);
        return "minor third";
      },
    },
    {
      ALT: (): StepWord => {
        this.CONSUME(K.major);
        this.CONSUME1(K.third);
        return "major third";
      },
    },
  ];
  readonly step = this.RULE("step", (): StepWord => this.OR<StepWord>(this.steps));

  private readonly directions = [
    { ALT: (): Direction => this.CONSUME(K.up) && "up" },
    { ALT: (): Direction => this.CONSUME(K.down) && "down" },
  ];
  readonly direction = this.RULE("direction", (): Direction => this.OR<Direction>(this.directions));

  private readonly toCount = (): Count => {
    this.CONSUME(K.to);
    return this.SUBRULE1(this.count);
  };
  private readonly ranges = [
    {
      ALT: (): Range => {
        const first = this.LA(1);
        const from = this.SUBRULE(this.count);
        const to = this.OPTION(this.toCount);
        return { span: this.span(first), way: to === undefined ? "fixed" : "growth", from, to };
      },
    },
    {
      ALT: (): Range => {
        const first = this.CONSUME(K.between);
        const from = this.SUBRULE2(this.count);
        this.CONSUME(K.and);
        const to = this.SUBRULE3(this.count);
        return { span: this.span(first), way: "choice", from, to };
      },
    },
  ];
  /** `50`, `50 to 58`, `between 50 and 58`. */
  readonly range = this.RULE("range", (): Range => this.OR<Range>(this.ranges));

  readonly dynamic = this.RULE("dynamic", (): DynamicWord => {
    return this.CONSUME(Dynamic).image as DynamicWord;
  });

  private readonly rests = [
    { ALT: (): RestText => ({ span: this.tokenSpan(this.CONSUME(K.equal)), kind: "equal" }) },
    { ALT: (): RestText => ({ span: this.tokenSpan(this.CONSUME(K.none)), kind: "none" }) },
    {
      ALT: (): RestText => {
        const first = this.LA(1);
        const time = this.SUBRULE(this.time);
        return { span: this.span(first), kind: "time", time };
      },
    },
  ];
  readonly restText = this.RULE("restText", (): RestText => this.OR<RestText>(this.rests));

  private readonly allHow = [
    { ALT: () => this.CONSUME(K.slurred) },
    { ALT: () => this.CONSUME(K.tongued) },
    { ALT: () => this.CONSUME(Mark) },
  ];
  /** What follows `all`. */
  protected readonly allOf = this.RULE("allOf", (): ArticulationText => {
    const token = this.OR(this.allHow);
    return this.ACTION(() => {
      const how = token.image;
      if (!ALL_HOW.has(how)) {
        this.refuse(token, "After `all` stands `slurred`, `tongued`, `staccato` or `tenuto`.");
      }
      return { span: this.span(token), kind: `all ${how}` as "all slurred" };
    });
  });

  private readonly slurOrTongue = [
    { ALT: () => this.CONSUME(K.slur) },
    { ALT: () => this.CONSUME(K.tongue) },
  ];
  private readonly articulations = [
    {
      ALT: (): ArticulationText => {
        const first = this.CONSUME(Tonguing);
        this.CONSUME1(K.tongued);
        this.ACTION(() => {
          if (first.image === "single") this.refuse(first, "Single tonguing is written `all tongued`.");
        });
        return { span: this.span(first), kind: `${first.image} tongued` as "double tongued" };
      },
    },
    {
      ALT: (): ArticulationText => {
        const first = this.CONSUME(K.as);
        this.CONSUME(K.written);
        return { span: this.span(first), kind: "as written" };
      },
    },
    {
      ALT: (): ArticulationText => {
        const first = this.LA(1);
        const groups: { how: "slur" | "tongue"; notes: Count }[] = [];
        this.AT_LEAST_ONE(() => {
          const how = this.OR2(this.slurOrTongue).image as "slur" | "tongue";
          groups.push({ how, notes: this.SUBRULE(this.count) });
        });
        return { span: this.span(first), kind: "pattern", groups };
      },
    },
  ];
  /** An articulation that does not begin with `all`, which can also begin something else. */
  protected readonly otherArticulation = this.RULE(
    "otherArticulation",
    (): ArticulationText => this.OR<ArticulationText>(this.articulations),
  );

  readonly articulation = this.RULE("articulation", (): ArticulationText => {
    const first = this.LA(1);
    return this.OR<ArticulationText>([
      {
        ALT: () => {
          this.CONSUME(K.all);
          const rest = this.SUBRULE(this.allOf);
          return { ...rest, span: this.span(first) };
        },
      },
      { ALT: () => this.SUBRULE(this.otherArticulation) },
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

interface TimePart {
  readonly value: number;
  readonly unit: "h" | "min" | "s";
}

function weekdayWord(token: IToken): WeekdayWord {
  return token.image.slice(0, 3) as WeekdayWord;
}
