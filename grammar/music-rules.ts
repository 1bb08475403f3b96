import type { IOrAlt, IToken, TokenType } from "chevrotain";
import {
  denominatorOf,
  dotsOf,
  fractionValue,
  LeafParser,
  matches,
  numeratorOf,
  plainAccidentals,
  wholeNumber,
  wordDenominator,
} from "./leaves";
import type { Span } from "./span";
import {
  AlteredDegree,
  AnyCount,
  AnyNoteWord,
  Bar,
  Breath,
  CloseBracket,
  CloseSlur,
  Comment,
  Dynamic,
  endOf,
  Fraction,
  Hairpin,
  K,
  LineEnd,
  Mark,
  MinorForm,
  Negative,
  NumberText,
  OddInMusic,
  ONLY_BEHIND,
  OpenBracket,
  OpenSlur,
  Pitch,
  Ratio,
  StepName,
  Tonguing,
  Tonic,
  tableOf,
  Unit,
} from "./tokens";
import type { DynamicWord, MarkWord, MusicElement, StepWord } from "./tree";

/** Something inside music that means nothing; `message` where the token alone does not say what is wrong. */
export interface OddMusic {
  readonly token: IToken;
  readonly message: string | undefined;
}

/** The kinds of element that are a sign and nothing else. */
type PlainKind = "bar" | "slur close" | "breath" | "rest" | "tie" | "held" | "pickup" | "line";

/**
 * The notes. Nothing in these rules can fail: what means nothing becomes `unread music`, and the rest is read,
 * so that one slip in a bar does not silence the exercise.
 */
export abstract class MusicParser extends LeafParser {
  /** What the notes are written as. */
  private by: "pitches" | "degrees" | "partials" = "pitches";
  /** The text the tokens were lexed from. */
  private source = "";
  /** What was not read, in the order of the text. */
  odd: OddMusic[] = [];
  /** The elements of the bracket being read. */
  private sink: MusicElement[] = [];

  /** Makes ready for the music of a text. */
  begin(by: MusicParser["by"], source: string): void {
    this.by = by;
    this.source = source;
    this.odd = [];
  }

  private add(element: MusicElement): void {
    this.sink.push(element);
  }

  private plain(token: IToken, kind: PlainKind): void {
    this.add({ span: this.tokenSpan(token), kind });
  }

  private put(first: IToken, element: Unspanned): void {
    this.add({ span: this.span(first), ...element });
  }

  private unread(read: IToken, message?: string): void {
    const token = read.tokenType === OddInMusic ? (read.payload as IToken | undefined) : read;
    // While the rules are recorded, tokens carry nothing.
    if (token === undefined) return;
    const span = this.tokenSpan(token);
    this.odd.push({ token, message });
    this.add({ span, kind: "unread music", text: this.source.slice(span.start, span.end) });
  }

  private number(token: IToken): void {
    const text = plainAccidentals(token.image);
    if (this.by === "degrees") {
      const below = text.startsWith("-");
      let figures = below ? 1 : 0;
      let alter = 0;
      // The lexer lets one kind of sign through, once or twice.
      for (let sign = text[figures]; sign === "#" || sign === "b"; sign = text[++figures]) {
        alter += sign === "#" ? 1 : -1;
      }
      const value = wholeNumber(text, figures);
      if (value >= 1 && value <= (below ? 14 : 22)) {
        const degree = below ? -value : value;
        this.add({ span: this.tokenSpan(token), kind: "degree", degree, alter, text });
      } else {
        this.unread(
          token,
          "A degree is a number from 1 to 22, or from -1 to -14 below the tonic, with `b` or `#` before it.",
        );
      }
    } else if (this.by === "partials" && token.tokenType === NumberText) {
      if (/^[1-9]\d?$/.test(text)) {
        this.add({ span: this.tokenSpan(token), kind: "partial", partial: Number(text) });
      } else this.unread(token, "A partial is a whole number: 2 is low C with no valve down.");
    } else {
      this.unread(token);
    }
  }

  private written(token: IToken): void {
    if (this.by !== "pitches") {
      this.unread(token);
      return;
    }
    const span = this.tokenSpan(token);
    this.add({ span, kind: "pitch", text: plainAccidentals(token.image) });
  }

  private fraction(token: IToken): void {
    const text = token.image;
    this.add({
      span: this.tokenSpan(token),
      kind: "value",
      text,
      num: numeratorOf(text),
      den: denominatorOf(text),
      dots: dotsOf(text),
    });
  }

  /** What is one token long, and how each is read. */
  private readonly signs: readonly (readonly [type: TokenType, read: (token: IToken) => void])[] = [
    [Pitch, (token) => this.written(token)],
    [Fraction, (token) => this.fraction(token)],
    [NumberText, (token) => this.number(token)],
    [Negative, (token) => this.number(token)],
    [AlteredDegree, (token) => this.number(token)],
    [Bar, (token) => this.plain(token, "bar")],
    [OpenSlur, (token) => this.add({ span: this.tokenSpan(token), kind: "slur open", lip: false })],
    [CloseSlur, (token) => this.plain(token, "slur close")],
    [LineEnd, (token) => this.plain(token, "line")],
    [Breath, (token) => this.plain(token, "breath")],
    [K.rest, (token) => this.plain(token, "rest")],
    [K.tie, (token) => this.plain(token, "tie")],
    [K.held, (token) => this.plain(token, "held")],
    [K.pickup, (token) => this.plain(token, "pickup")],
    [Mark, (token) => this.put(token, { kind: "mark", mark: token.image as MarkWord })],
    [Dynamic, (token) => this.put(token, { kind: "dynamic", dynamic: token.image as DynamicWord })],
    [Hairpin, (token) => this.put(token, { kind: "hairpin", way: token.image as "cresc" | "dim" })],
    [
      Tonguing,
      (token) => this.put(token, { kind: "tonguing", how: token.image as "single" | "double" | "triple" }),
    ],
    [Comment, (token) => this.put(token, { kind: "comment", text: token.image.trimEnd() })],
    [OddInMusic, (token) => this.unread(token)],
    ...[...ONLY_BEHIND].map((type) => [type, (token: IToken) => this.unread(token)] as const),
  ];

  /** The same by the index of their token: a run of them is read without asking the rule for each. */
  private readonly signAt = tableOf(this.signs);

  private readonly moreSigns = (): void => {
    for (;;) {
      const token = this.LA(1);
      const read = this.signAt[token.tokenTypeIdx];
      if (read === undefined) return;
      this.SKIP_TOKEN();
      read(token);
    }
  };

  /** Kept between calls: making some thirty closures for every note would cost more than reading it. */
  private readonly alternatives: IOrAlt<unknown>[] = [
    ...this.signs.map(([type, read]) => ({ ALT: () => read(this.CONSUME(type)) })),
    { ALT: () => this.SUBRULE(this.noteWords) },
    { ALT: () => this.SUBRULE(this.lipSlur) },
    { ALT: () => this.SUBRULE(this.bend) },
    { ALT: () => this.SUBRULE(this.attack) },
    { ALT: () => this.SUBRULE(this.freeBar) },
    { ALT: () => this.SUBRULE(this.keyChange) },
    { ALT: () => this.SUBRULE(this.meterChange) },
    { ALT: () => this.SUBRULE(this.tuplet) },
    { ALT: () => this.SUBRULE(this.repeated) },
    { ALT: () => this.SUBRULE(this.endingBracket) },
    { ALT: () => this.SUBRULE(this.looseBracket) },
  ];

  private readonly oneElement = (): void => {
    this.OR(this.alternatives);
    this.ACTION(this.moreSigns);
  };

  /** Reads up to the end, or up to the `]` that belongs to an open bracket. */
  readonly elements = this.RULE("elements", (): MusicElement[] => {
    const outer = this.sink;
    const mine: MusicElement[] = [];
    this.sink = mine;
    this.MANY(this.oneElement);
    this.sink = outer;
    return mine;
  });

  /** `dotted eighth`, `quarter` */
  private readonly noteWords = this.RULE("noteWords", (): void => {
    const first = this.LA(1);
    let dotted = false;
    let word: IToken | undefined;
    this.OR([
      {
        ALT: () => {
          this.CONSUME(K.dotted);
          dotted = true;
          this.OPTION(() => {
            word = this.CONSUME(AnyNoteWord);
          });
        },
      },
      {
        ALT: () => {
          word = this.CONSUME1(AnyNoteWord);
        },
      },
    ]);
    if (word === undefined) {
      this.unread(first, "After `dotted` stands a note value: `dotted quarter`, `dotted quaver`.");
      return;
    }
    const span = this.span(first);
    const text = dotted ? `dotted ${word.image}` : word.image;
    const den = wordDenominator(word.image);
    this.add({ span, kind: "value", text, num: 1, den, dots: dotted ? 1 : 0 });
  });

  private readonly lipSlur = this.RULE("lipSlur", (): void => {
    const first = this.CONSUME(K.lip);
    let open = false;
    this.OPTION(() => {
      this.CONSUME(OpenSlur);
      open = true;
    });
    if (open) this.put(first, { kind: "slur open", lip: true });
    else this.unread(first, "A lip slur is written like `lip (C4 G4 C5)`: here the `(` is missing.");
  });

  private readonly bend = this.RULE("bend", (): void => {
    const first = this.CONSUME(K.bend);
    let step: StepWord | undefined;
    this.OPTION({
      GATE: () => {
        const one = this.LA(1);
        const two = this.LA(2).tokenType;
        return one.tokenType === StepName || two === K.step || two === K.third;
      },
      DEF: () => {
        step = this.SUBRULE(this.step);
      },
    });
    if (step === undefined) {
      this.unread(first, "A bend is written like `bend half step`, `bend whole step` or `bend minor third`.");
    } else this.put(first, { kind: "bend", step });
  });

  private readonly attack = this.RULE("attack", (): void => {
    const first = this.CONSUME(K.attack);
    const token = this.OPTION(() =>
      this.OR([
        { ALT: () => this.CONSUME(K.air) },
        { ALT: () => this.CONSUME(K.lip) },
        { ALT: () => this.CONSUME(K.tongue) },
      ]),
    );
    const how = token?.image as "air" | "lip" | "tongue" | undefined;
    if (how === undefined) this.unread(first, "After `attack` stands `air`, `lip` or `tongue`.");
    else this.put(first, { kind: "attack", how });
  });

  private readonly freeBar = this.RULE("freeBar", (): void => {
    const first = this.CONSUME(K.free);
    let read = false;
    this.OPTION({
      GATE: () => matches(this.LA(1), AnyCount) && matches(this.LA(2), Unit),
      DEF: () => {
        const time = this.SUBRULE(this.time);
        read = true;
        this.ACTION(() => this.put(first, { kind: "free", time }));
      },
    });
    if (!read) this.unread(first, "A free bar says how long it lasts: `free 12 s`.");
  });

  private readonly keyChange = this.RULE("keyChange", (): void => {
    const first = this.CONSUME(K.key);
    let read = false;
    this.OPTION({
      // `C harmonic` without `minor` would fail inside the rule of the key, and nothing here may.
      GATE: () =>
        this.LA(1).tokenType === Tonic &&
        (this.LA(2).tokenType !== MinorForm || this.LA(3).tokenType === K.minor),
      DEF: () => {
        const key = this.SUBRULE(this.key);
        read = true;
        this.ACTION(() => this.put(first, { kind: "key change", key }));
      },
    });
    if (!read) this.unread(first, "A change of key is written like `key G major`.");
  });

  private readonly meterChange = this.RULE("meterChange", (): void => {
    const first = this.CONSUME(K.meter);
    let read = false;
    this.OPTION(() => {
      this.OR([
        {
          ALT: () => {
            const token = this.CONSUME(Fraction);
            read = true;
            this.put(first, { kind: "meter change", value: fractionValue(token, this.tokenSpan(token)) });
          },
        },
        {
          ALT: () => {
            this.CONSUME(K.free);
            read = true;
            this.put(first, { kind: "meter change", value: undefined });
          },
        },
      ]);
    });
    if (!read) this.unread(first, "A change of meter is written like `meter 3/4`.");
  });

  /** `[ … ]`; undefined where there is no bracket. */
  private readonly bracket = this.RULE("bracket", (): MusicElement[] | undefined => {
    let inner: MusicElement[] | undefined;
    this.OPTION(() => {
      const open = this.CONSUME(OpenBracket);
      inner = this.SUBRULE(this.elements);
      let closed = false;
      this.OPTION1(() => {
        this.CONSUME(CloseBracket);
        closed = true;
      });
      if (!closed) this.odd.push({ token: open, message: "This `[` is never closed: a `]` is missing." });
    });
    return inner;
  });

  /** Brackets that nothing stands before. */
  private readonly looseBracket = this.RULE("looseBracket", (): void => {
    const open = this.CONSUME(OpenBracket);
    this.SUBRULE(this.elements);
    this.OPTION(() => this.CONSUME(CloseBracket));
    const message = "Before a `[` stands `triplet`, `5:4`, `repeat` or `ending 1`.";
    this.odd.push({ token: open, message });
    const span = this.span(open);
    this.add({ span, kind: "unread music", text: this.source.slice(span.start, span.end) });
  });

  private readonly tuplet = this.RULE("tuplet", (): void => {
    const first = this.LA(1);
    this.OR([{ ALT: () => this.CONSUME(K.triplet) }, { ALT: () => this.CONSUME(Ratio) }]);
    const elements = this.SUBRULE(this.bracket);
    if (elements === undefined) {
      this.unread(first, `Its notes stand in brackets: \`${first.image} [ … ]\`.`);
      return;
    }
    const word = first.tokenType === K.triplet;
    const [notes = 3, inTimeOf = 2] = word ? [] : first.image.split(":").map(Number);
    this.put(first, { kind: "tuplet", notes, inTimeOf, word, elements });
  });

  private readonly repeated = this.RULE("repeated", (): void => {
    const first = this.CONSUME(K.repeat);
    const elements = this.SUBRULE(this.bracket);
    if (elements === undefined) this.unread(first, "What is repeated stands in brackets: `repeat [ … ]`.");
    else this.put(first, { kind: "repeat", elements });
  });

  private readonly endingBracket = this.RULE("endingBracket", (): void => {
    const first = this.CONSUME(K.ending);
    let number = "";
    this.OPTION(() => {
      number = this.CONSUME(NumberText).image;
    });
    const elements = this.SUBRULE(this.bracket);
    if (elements === undefined || (number !== "1" && number !== "2")) {
      const start = first.startOffset;
      this.odd.push({
        token: first,
        message: "An ending is written like `ending 1 [ … ]` or `ending 2 [ … ]`.",
      });
      const text = this.source.slice(start, endOf(this.LA(0)));
      this.put(first, { kind: "unread music", text });
    } else this.put(first, { kind: "ending", number: number === "1" ? 1 : 2, elements });
  });
}

/** An element before it knows its place. */
type Unspanned = MusicElement extends infer E ? (E extends { span: Span } ? Omit<E, "span"> : never) : never;
