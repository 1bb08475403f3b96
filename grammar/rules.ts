import type { IToken } from "chevrotain";
import { FaultKeeper, fractionValue, matches } from "./leaves";
import { MusicParser } from "./music-rules";
import { blockNode, type FoldedBlock, musicNode } from "./outline";
import {
  BlockToken,
  Comma,
  endOf,
  Fraction,
  InstrumentWord,
  K,
  Mark,
  NumberText,
  Percent,
  Tonguing,
  Tonic,
  Unit,
  Weekday,
  Word as WordToken,
} from "./tokens";
import type {
  AimField,
  AreaDeclaration,
  AreaField,
  AskEntry,
  Assignment,
  Block,
  BudgetEntry,
  BudgetField,
  ChangeBlock,
  ChangeItem,
  Clause,
  Count,
  DateRange,
  DateText,
  Direction,
  ExerciseDeclaration,
  ExerciseField,
  GoalField,
  KeysClause,
  KeyText,
  LetField,
  LevelDeclaration,
  Music,
  MusicField,
  Name,
  OrnamentWord,
  Pacing,
  PauseItem,
  PercentSetting,
  PlacedKey,
  PlainSetting,
  PlayerField,
  Range,
  RecordDeclaration,
  RecordEntry,
  RecordLine,
  RoutineDeclaration,
  SessionBlock,
  ShareText,
  ShortBlock,
  StageWord,
  StepWord,
  StudentDeclaration,
  StudioDeclaration,
  StudioField,
  TermDeclaration,
  TermField,
  TimeQuantity,
  TimeSetting,
  TimeText,
  UseDeclaration,
  ValueText,
  ValvesClause,
  WeekdayWord,
  WeeksBlock,
  When,
  Word,
} from "./tree";

const WEEKDAYS: readonly WeekdayWord[] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
const ORNAMENTS = new Set(["trill", "turn", "mordent"]);
const COMBINATIONS = new Set(["open", "0", "2", "1", "12", "23", "13", "123"]);

/** What may follow the keys or valves of an assignment, at once or after other clauses. */
type TravelWord =
  | { readonly folded: true }
  | { readonly nextRound: KeysClause["nextRound"] }
  | { readonly pacing: Pacing };

type TimeOrShare =
  | { readonly time: TimeText; readonly share: undefined }
  | { readonly time: undefined; readonly share: ShareText };

interface Walk {
  readonly direction: Direction;
  readonly step: StepWord;
  readonly to: KeyText;
}

/** The statements, one rule each, and their parts. Which of them may stand where is `statements.ts`. */
export class PracticeParser extends MusicParser {
  constructor(keeper: FaultKeeper = new FaultKeeper(), skipValidations = true) {
    super(keeper, skipValidations);
    this.performSelfAnalysis();
  }

  // ---- parts ----------------------------------------------------------------------------------------------

  /** The node of a folded block. Its items are read after the statement around it, when their kind is known. */
  private readonly block = this.RULE("block", (): Block<never> => {
    const token = this.CONSUME(BlockToken);
    return this.ACTION(() => blockNode(token.payload as FoldedBlock) as Block<never>);
  });

  private readonly musicBlock = this.RULE("musicBlock", (): Music => {
    const token = this.CONSUME(BlockToken);
    return this.ACTION(() => musicNode(token.payload as FoldedBlock));
  });

  private word(token: IToken): Word {
    return { span: this.tokenSpan(token), text: token.image };
  }

  private readonly quantities = [
    { ALT: () => this.CONSUME(K.clock) },
    { ALT: () => this.CONSUME(K.playing) },
    { ALT: () => this.CONSUME(K.upper) },
    { ALT: () => this.CONSUME(K.stretch) },
  ];
  private readonly timeQuantity = this.RULE("timeQuantity", (): TimeQuantity => {
    return this.OR(this.quantities).image as TimeQuantity;
  });

  private readonly likeName = this.RULE("likeName", (): Name => {
    this.CONSUME(K.like);
    return this.SUBRULE(this.name);
  });

  private readonly barRange = this.RULE("barRange", (): { from: Count; to: Count } => {
    this.CONSUME(K.bars);
    const from = this.SUBRULE(this.count);
    this.CONSUME(K.to);
    const to = this.SUBRULE1(this.count);
    return { from, to };
  });

  private readonly when = this.RULE("when", (): When => {
    return this.OR<When>([
      { ALT: () => ({ weeks: this.SUBRULE(this.weeks) }) },
      {
        ALT: () => {
          this.CONSUME(K.from);
          return { dates: this.SUBRULE(this.dateRange) };
        },
      },
    ]);
  });

  private readonly weekOrDate = this.RULE("weekOrDate", (): { week: Count } | { date: DateText } => {
    return this.OR<{ week: Count } | { date: DateText }>([
      {
        ALT: () => {
          this.CONSUME(K.week);
          return { week: this.SUBRULE(this.count) };
        },
      },
      { ALT: () => ({ date: this.SUBRULE(this.date) }) },
    ]);
  });

  private readonly someBlock = (): Block<never> => this.SUBRULE(this.block);
  private readonly someName = (): Name => this.SUBRULE(this.name);
  private readonly someTime = (): TimeText => this.SUBRULE(this.time);
  private readonly someLike = (): Name => this.SUBRULE(this.likeName);
  private readonly someDates = (): DateRange => {
    this.CONSUME(K.from);
    return this.SUBRULE(this.dateRange);
  };

  // ---- in several blocks ------------------------------------------------------------------------------------

  readonly aim = this.RULE("aim", (): AimField => {
    const first = this.CONSUME(K.aim);
    const text = this.SUBRULE(this.name);
    return { span: this.span(first), trivia: this.trivia, kind: "aim", text };
  });

  readonly goal = this.RULE("goal", (): GoalField => {
    const first = this.CONSUME(K.goal);
    const text = this.SUBRULE(this.name);
    this.CONSUME(K.by);
    const by = this.SUBRULE(this.weekOrDate);
    return { span: this.span(first), trivia: this.trivia, kind: "goal", text, by };
  });

  readonly letStand = this.RULE("letStand", (): LetField => {
    const first = this.CONSUME(K.let);
    const code = this.word(this.CONSUME(WordToken));
    this.CONSUME(K.stand);
    let on: DateText | undefined;
    this.OPTION(() => {
      this.CONSUME(K.on);
      on = this.SUBRULE(this.date);
    });
    this.CONSUME(K.because);
    const because = this.SUBRULE(this.name);
    return { span: this.span(first), trivia: this.trivia, kind: "let", code, on, because };
  });

  // ---- declarations -----------------------------------------------------------------------------------------

  readonly use = this.RULE("use", (): UseDeclaration => {
    const first = this.CONSUME(K.use);
    const path = this.SUBRULE(this.name);
    return { span: this.span(first), trivia: this.trivia, kind: "use", path };
  });

  readonly area = this.RULE("area", (): AreaDeclaration => {
    const first = this.CONSUME(K.area);
    const name = this.SUBRULE(this.name);
    const block = this.OPTION(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "area", name, block };
  });

  readonly studio = this.RULE("studio", (): StudioDeclaration => {
    const first = this.CONSUME(K.studio);
    const name = this.OPTION(this.someName);
    const block = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "studio", name, block };
  });

  readonly exercise = this.RULE("exercise", (): ExerciseDeclaration => {
    const first = this.CONSUME(K.exercise);
    const name = this.SUBRULE(this.name);
    const like = this.OPTION(this.someLike);
    const block = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "exercise", name, like, block };
  });

  readonly level = this.RULE("level", (): LevelDeclaration => {
    const first = this.CONSUME(K.level);
    const name = this.SUBRULE(this.name);
    const like = this.OPTION(this.someLike);
    const block = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "level", name, like, block };
  });

  readonly student = this.RULE("student", (): StudentDeclaration => {
    const first = this.CONSUME(K.student);
    const name = this.SUBRULE(this.name);
    const like = this.OPTION(this.someLike);
    const block = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "student", name, like, block };
  });

  readonly routine = this.RULE("routine", (): RoutineDeclaration => {
    const first = this.CONSUME(K.routine);
    const name = this.SUBRULE(this.name);
    const minutes = this.OPTION(this.someTime);
    const block = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "routine", name, minutes, block };
  });

  readonly term = this.RULE("term", (): TermDeclaration => {
    const first = this.CONSUME(K.term);
    const name = this.SUBRULE(this.name);
    this.CONSUME(K.for);
    const players: Name[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void players.push(this.SUBRULE1(this.name)) });
    const block = this.OPTION(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "term", name, players, block };
  });

  readonly record = this.RULE("record", (): RecordDeclaration => {
    const first = this.CONSUME(K.record);
    this.CONSUME(K.of);
    const term = this.SUBRULE(this.name);
    const block = this.OPTION(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "record", term, block };
  });

  // ---- area and studio --------------------------------------------------------------------------------------

  readonly atLeastEvery = this.RULE("atLeastEvery", (): AreaField => {
    const first = this.CONSUME(K.at);
    this.CONSUME(K.least);
    this.CONSUME(K.every);
    const days = this.SUBRULE(this.count);
    this.SUBRULE(this.dayWord);
    return { span: this.span(first), trivia: this.trivia, kind: "at least every", days };
  });

  private timeSetting(first: IToken, setting: TimeSetting, time: TimeText): StudioField {
    return { span: this.span(first), trivia: this.trivia, kind: "time setting", setting, time };
  }

  private percentSetting(first: IToken, setting: PercentSetting, share: ShareText): StudioField {
    return { span: this.span(first), trivia: this.trivia, kind: "percent setting", setting, share };
  }

  private plainSetting(first: IToken, setting: PlainSetting, value: Count): StudioField {
    return { span: this.span(first), trivia: this.trivia, kind: "plain setting", setting, value };
  }

  readonly hornDown = this.RULE("hornDown", (): StudioField => {
    const first = this.CONSUME(K.horn);
    this.CONSUME(K.down);
    const time = this.SUBRULE(this.time);
    return this.timeSetting(first, "horn down", time);
  });

  readonly breathBetween = this.RULE("breathBetween", (): StudioField => {
    const first = this.CONSUME(K.breath);
    this.CONSUME(K.between);
    const time = this.SUBRULE(this.time);
    return this.timeSetting(first, "breath between", time);
  });

  readonly softBreath = this.RULE("softBreath", (): StudioField => {
    const first = this.CONSUME(K.soft);
    this.CONSUME(K.breath);
    const share = this.SUBRULE(this.share);
    return this.percentSetting(first, "soft breath", share);
  });

  readonly loudBreath = this.RULE("loudBreath", (): StudioField => {
    const first = this.CONSUME(K.loud);
    this.CONSUME(K.breath);
    const share = this.SUBRULE(this.share);
    return this.percentSetting(first, "loud breath", share);
  });

  readonly tempoJump = this.RULE("tempoJump", (): StudioField => {
    const first = this.CONSUME(K.tempo);
    this.CONSUME(K.jump);
    this.CONSUME(K.at);
    this.CONSUME(K.most);
    const share = this.SUBRULE(this.share);
    return this.percentSetting(first, "tempo jump", share);
  });

  readonly restShare = this.RULE("restShare", (): StudioField => {
    const first = this.CONSUME(K.rest);
    this.CONSUME(K.at);
    this.CONSUME(K.least);
    const share = this.SUBRULE(this.share);
    return this.percentSetting(first, "rest", share);
  });

  readonly tuning = this.RULE("tuning", (): StudioField => {
    const first = this.CONSUME(K.tuning);
    const value = this.SUBRULE(this.count);
    this.CONSUME(K.Hz);
    return this.plainSetting(first, "tuning", value);
  });

  readonly fermataTimes = this.RULE("fermataTimes", (): StudioField => {
    const first = this.CONSUME(Mark);
    this.ACTION(() => {
      if (first.image !== "fermata")
        this.refuse(first, "Of the signs after a note, the studio settles only the `fermata`.");
    });
    const value = this.SUBRULE(this.count);
    this.CONSUME(K.times);
    return this.plainSetting(first, "fermata", value);
  });

  readonly loadExponent = this.RULE("loadExponent", (): StudioField => {
    const first = this.CONSUME(K.load);
    this.CONSUME(K.exponent);
    const value = this.SUBRULE(this.count);
    return this.plainSetting(first, "load exponent", value);
  });

  readonly dynamicStep = this.RULE("dynamicStep", (): StudioField => {
    const first = this.CONSUME(K.dynamic);
    this.CONSUME(K.step);
    const value = this.SUBRULE(this.count);
    this.CONSUME(K.dB);
    return this.plainSetting(first, "dynamic step", value);
  });

  readonly untouched = this.RULE("untouched", (): StudioField => {
    const first = this.CONSUME(K.untouched);
    this.CONSUME(K.at);
    this.CONSUME(K.most);
    const value = this.SUBRULE(this.count);
    this.SUBRULE(this.dayWord);
    return this.plainSetting(first, "untouched", value);
  });

  readonly finding = this.RULE("finding", (): StudioField => {
    const first = this.CONSUME(K.finding);
    const code = this.word(this.CONSUME(WordToken));
    const severity = this.OR([
      { ALT: () => this.CONSUME(K.error) },
      { ALT: () => this.CONSUME(K.warning) },
      { ALT: () => this.CONSUME(K.note) },
      { ALT: () => this.CONSUME(K.off) },
    ]).image as "error" | "warning" | "note" | "off";
    return { span: this.span(first), trivia: this.trivia, kind: "finding", code, severity };
  });

  // ---- exercise ---------------------------------------------------------------------------------------------

  readonly inArea = this.RULE("inArea", (): ExerciseField => {
    const first = this.CONSUME(K.in);
    const area = this.SUBRULE(this.name);
    return { span: this.span(first), trivia: this.trivia, kind: "in", area };
  });

  readonly homeKey = this.RULE("homeKey", (): ExerciseField => {
    const first = this.CONSUME(K.key);
    const key = this.SUBRULE(this.key);
    return { span: this.span(first), trivia: this.trivia, kind: "key", key };
  });

  readonly meter = this.RULE("meter", (): ExerciseField => {
    const first = this.CONSUME(K.meter);
    const value = this.OR<ValueText | undefined>([
      {
        ALT: () => {
          const token = this.CONSUME(Fraction);
          return fractionValue(token, this.tokenSpan(token));
        },
      },
      { ALT: () => void this.CONSUME(K.free) },
    ]);
    return { span: this.span(first), trivia: this.trivia, kind: "meter", value };
  });

  readonly tempo = this.RULE("tempo", (): ExerciseField => {
    const first = this.CONSUME(K.tempo);
    const beat = this.SUBRULE(this.beat);
    const bpm = this.SUBRULE(this.count);
    return { span: this.span(first), trivia: this.trivia, kind: "tempo", beat, bpm };
  });

  readonly music = this.RULE("music", (): MusicField => {
    const first = this.CONSUME(K.music);
    const music = this.SUBRULE(this.musicBlock);
    return {
      span: this.span(first),
      trivia: this.trivia,
      kind: "music",
      by: "pitches",
      from: undefined,
      music,
    };
  });

  readonly degrees = this.RULE("degrees", (): MusicField => {
    const first = this.CONSUME(K.degrees);
    this.CONSUME(K.from);
    const from = this.SUBRULE(this.pitch);
    const music = this.SUBRULE(this.musicBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "music", by: "degrees", from, music };
  });

  readonly partials = this.RULE("partials", (): MusicField => {
    const first = this.CONSUME(K.partials);
    const music = this.SUBRULE(this.musicBlock);
    return {
      span: this.span(first),
      trivia: this.trivia,
      kind: "music",
      by: "partials",
      from: undefined,
      music,
    };
  });

  readonly rest = this.RULE("rest", (): ExerciseField => {
    const first = this.CONSUME(K.rest);
    const rest = this.SUBRULE(this.restText);
    return { span: this.span(first), trivia: this.trivia, kind: "rest", rest };
  });

  readonly startDynamic = this.RULE("startDynamic", (): ExerciseField => {
    const first = this.CONSUME(K.dynamic);
    const dynamic = this.SUBRULE(this.dynamic);
    return { span: this.span(first), trivia: this.trivia, kind: "dynamic", dynamic };
  });

  readonly articulationField = this.RULE("articulationField", (): ExerciseField => {
    const first = this.CONSUME(K.articulation);
    const articulation = this.SUBRULE(this.articulation);
    return { span: this.span(first), trivia: this.trivia, kind: "articulation", articulation };
  });

  readonly rhythm = this.RULE("rhythm", (): ExerciseField => {
    const first = this.CONSUME(K.rhythm);
    const values: ValueText[] = [];
    this.AT_LEAST_ONE(() => void values.push(this.SUBRULE(this.value)));
    return { span: this.span(first), trivia: this.trivia, kind: "rhythm", values };
  });

  readonly ornament = this.RULE("ornament", (): ExerciseField => {
    const first = this.CONSUME(K.ornament);
    const mark = this.CONSUME(Mark);
    this.ACTION(() => {
      if (!ORNAMENTS.has(mark.image)) this.refuse(mark, "An ornament is a `trill`, a `turn` or a `mordent`.");
    });
    this.CONSUME(K.on);
    const on = this.SUBRULE(this.value);
    const ornament = mark.image as OrnamentWord;
    return { span: this.span(first), trivia: this.trivia, kind: "ornament", ornament, on };
  });

  readonly moved = this.RULE("moved", (): ExerciseField => {
    const first = this.CONSUME(K.moved);
    const direction = this.SUBRULE(this.direction);
    this.CONSUME(K.by);
    const step = this.SUBRULE(this.step);
    return { span: this.span(first), trivia: this.trivia, kind: "moved", direction, step };
  });

  readonly series = this.RULE("series", (): ExerciseField => {
    const first = this.CONSUME(K.series);
    let cells: Count | undefined;
    this.OPTION(() => {
      cells = this.SUBRULE(this.count);
      this.CONSUME(K.cells);
    });
    const direction = this.SUBRULE(this.direction);
    this.CONSUME(K.by);
    const step = this.SUBRULE(this.step);
    return { span: this.span(first), trivia: this.trivia, kind: "series", cells, direction, step };
  });

  readonly printed = this.RULE("printed", (): ExerciseField => {
    const first = this.CONSUME(K.printed);
    const title = this.SUBRULE(this.name);
    let page: Count | undefined;
    this.OPTION(() => {
      this.CONSUME(K.page);
      page = this.SUBRULE(this.count);
    });
    const bars = this.OPTION1(() => this.SUBRULE(this.barRange));
    return { span: this.span(first), trivia: this.trivia, kind: "printed", title, page, bars };
  });

  readonly lasts = this.RULE("lasts", (): ExerciseField => {
    const first = this.CONSUME(K.lasts);
    const time = this.SUBRULE(this.time);
    return { span: this.span(first), trivia: this.trivia, kind: "lasts", time };
  });

  readonly upperTime = this.RULE("upperTime", (): ExerciseField => {
    const first = this.CONSUME(K.upper);
    const time = this.SUBRULE(this.time);
    return { span: this.span(first), trivia: this.trivia, kind: "upper", time };
  });

  readonly activity = this.RULE("activity", (): ExerciseField => {
    const first = this.CONSUME(K.activity);
    return this.OR<ExerciseField>([
      {
        ALT: () => {
          const activity = this.SUBRULE(this.name);
          return { span: this.span(first), trivia: this.trivia, kind: "activity", activity, quoted: true };
        },
      },
      {
        ALT: () => {
          const activity = this.word(this.CONSUME(WordToken));
          return { span: this.span(first), trivia: this.trivia, kind: "activity", activity, quoted: false };
        },
      },
    ]);
  });

  readonly lips = this.RULE("lips", (): ExerciseField => {
    const first = this.LA(1);
    const how = this.OR([{ ALT: () => this.CONSUME(K.loads) }, { ALT: () => this.CONSUME(K.spares) }])
      .image as "loads" | "spares";
    this.CONSUME(K.lips);
    return { span: this.span(first), trivia: this.trivia, kind: "lips", how };
  });

  /** Of an exercise and of a player. */
  readonly pitchRange = this.RULE("pitchRange", (): ExerciseField & PlayerField => {
    const first = this.CONSUME(K.range);
    const low = this.SUBRULE(this.pitch);
    this.CONSUME(K.to);
    const high = this.SUBRULE1(this.pitch);
    return { span: this.span(first), trivia: this.trivia, kind: "range", low, high };
  });

  // ---- players ----------------------------------------------------------------------------------------------

  readonly instrument = this.RULE("instrument", (): PlayerField => {
    const first = this.CONSUME(K.instrument);
    const start = this.LA(1);
    const words: string[] = [];
    this.AT_LEAST_ONE(() => void words.push(this.CONSUME(InstrumentWord).image));
    this.OPTION(() => {
      words.push(this.CONSUME(K.in).image);
      words.push(this.CONSUME(Tonic).image.replace("♭", "b").replace("♯", "#"));
    });
    const span = this.span(start);
    return {
      span: this.span(first),
      trivia: this.trivia,
      kind: "instrument",
      words: { span, text: words.join(" ") },
    };
  });

  readonly stage = this.RULE("stage", (): PlayerField => {
    const first = this.CONSUME(K.stage);
    const stage = this.OR<StageWord>([
      {
        ALT: () => {
          this.CONSUME(K.first);
          this.CONSUME(K.year);
          return "first year";
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.years);
          const from = this.CONSUME(NumberText);
          this.CONSUME(K.to);
          const to = this.CONSUME1(NumberText);
          this.ACTION(() => {
            if (from.image !== "2" || to.image !== "3") {
              this.refuse(from, "The stages are `first year`, `years 2 to 3`, `senior` and `college`.");
            }
          });
          return "years 2 to 3";
        },
      },
      { ALT: () => this.CONSUME(K.senior) && "senior" },
      { ALT: () => this.CONSUME(K.college) && "college" },
    ]);
    return { span: this.span(first), trivia: this.trivia, kind: "stage", stage };
  });

  readonly limit = this.RULE("limit", (): PlayerField => {
    const first = this.CONSUME(K.limit);
    const low = this.SUBRULE(this.pitch);
    this.CONSUME(K.to);
    const high = this.SUBRULE1(this.pitch);
    return { span: this.span(first), trivia: this.trivia, kind: "limit", low, high };
  });

  readonly upperFrom = this.RULE("upperFrom", (): PlayerField => {
    const first = this.CONSUME(K.upper);
    this.CONSUME(K.from);
    const pitch = this.SUBRULE(this.pitch);
    return { span: this.span(first), trivia: this.trivia, kind: "upper from", pitch };
  });

  readonly breath = this.RULE("breath", (): PlayerField => {
    const first = this.CONSUME(K.breath);
    const time = this.SUBRULE(this.time);
    return { span: this.span(first), trivia: this.trivia, kind: "breath", time };
  });

  readonly tongue = this.RULE("tongue", (): PlayerField => {
    const first = this.CONSUME(K.tongue);
    let how: "single" | "double" | "triple" = "single";
    this.OPTION(() => {
      how = this.CONSUME(Tonguing).image as "single" | "double" | "triple";
    });
    const value = this.SUBRULE(this.value);
    this.CONSUME(K.at);
    const bpm = this.SUBRULE(this.count);
    return { span: this.span(first), trivia: this.trivia, kind: "tongue", how, value, bpm };
  });

  readonly keyList = this.RULE("keyList", (): PlayerField => {
    const first = this.CONSUME(K.keys);
    const keys: KeyText[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void keys.push(this.SUBRULE(this.key)) });
    return { span: this.span(first), trivia: this.trivia, kind: "keys", keys };
  });

  readonly budget = this.RULE("budget", (): BudgetField => {
    const first = this.CONSUME(K.each);
    const period = this.OR([{ ALT: () => this.CONSUME(K.day) }, { ALT: () => this.CONSUME(K.week) }]).image as
      | "day"
      | "week";
    const block = this.SUBRULE(this.block);
    return { span: this.span(first), trivia: this.trivia, kind: "each", period, block };
  });

  readonly timeAtMost = this.RULE("timeAtMost", (): BudgetEntry => {
    const first = this.LA(1);
    const what = this.SUBRULE(this.timeQuantity);
    this.CONSUME(K.at);
    this.CONSUME(K.most);
    const time = this.SUBRULE(this.time);
    return { span: this.span(first), trivia: this.trivia, kind: "time at most", what, time };
  });

  readonly loadAtMost = this.RULE("loadAtMost", (): BudgetEntry => {
    const first = this.CONSUME(K.load);
    this.CONSUME(K.at);
    this.CONSUME(K.most);
    const points = this.SUBRULE(this.count);
    this.CONSUME(K.points);
    return { span: this.span(first), trivia: this.trivia, kind: "load at most", points };
  });

  readonly increaseAtMost = this.RULE("increaseAtMost", (): BudgetEntry => {
    const first = this.CONSUME(K.increase);
    this.CONSUME(K.at);
    this.CONSUME(K.most);
    const share = this.SUBRULE(this.share);
    return { span: this.span(first), trivia: this.trivia, kind: "increase at most", share };
  });

  readonly daysAtMost = this.RULE("daysAtMost", (): BudgetEntry => {
    const first = this.CONSUME(K.days);
    this.CONSUME(K.at);
    this.CONSUME(K.most);
    const days = this.SUBRULE(this.count);
    return { span: this.span(first), trivia: this.trivia, kind: "days at most", days };
  });

  // ---- term -------------------------------------------------------------------------------------------------

  readonly fromTo = this.RULE("fromTo", (): TermField => {
    const first = this.CONSUME(K.from);
    const from = this.SUBRULE(this.date);
    this.CONSUME(K.to);
    const to = this.SUBRULE1(this.date);
    return { span: this.span(first), trivia: this.trivia, kind: "from", from, to };
  });

  readonly practiceDays = this.RULE("practiceDays", (): TermField => {
    const first = this.CONSUME(K.practice);
    const days = this.SUBRULE(this.days);
    return { span: this.span(first), trivia: this.trivia, kind: "practice", days };
  });

  readonly closure = this.RULE("closure", (): TermField => {
    const first = this.LA(1);
    const how = this.OR<"closed" | "light" | "no lesson">([
      { ALT: () => this.CONSUME(K.closed) && "closed" },
      { ALT: () => this.CONSUME(K.light) && "light" },
      {
        ALT: () => {
          this.CONSUME(K.no);
          this.CONSUME(K.lesson);
          return "no lesson";
        },
      },
    ]);
    const dates = this.SUBRULE(this.dateRange);
    const reason = this.OPTION(this.someName);
    return { span: this.span(first), trivia: this.trivia, kind: "closure", how, dates, reason };
  });

  readonly lesson = this.RULE("lesson", (): TermField => {
    const first = this.CONSUME(K.lesson);
    const days = this.SUBRULE(this.everyOrDates);
    const name = this.OPTION(this.someName);
    const asks = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "lesson", days, name, asks };
  });

  readonly booking = this.RULE("booking", (): TermField => {
    const first = this.LA(1);
    const concert = this.OR([
      { ALT: () => this.CONSUME(K.booked) && false },
      { ALT: () => this.CONSUME(K.concert) && true },
    ]);
    const days = this.SUBRULE(this.everyOrDates);
    const early = this.OPTION(this.someDates);
    const name = this.SUBRULE(this.name);
    const late = this.OPTION2({ GATE: () => early === undefined, DEF: this.laterDates });
    const within = early ?? late;
    const asks = this.OPTION1(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "booked", concert, days, within, name, asks };
  });

  /** The dates may also stand after the name. */
  private readonly laterDates = (): DateRange => {
    this.CONSUME1(K.from);
    return this.SUBRULE1(this.dateRange);
  };

  readonly ease = this.RULE("ease", (): TermField => {
    const first = this.CONSUME(K.ease);
    const days = this.SUBRULE(this.count);
    this.SUBRULE(this.dayWord);
    this.CONSUME(K.before);
    this.OR([{ ALT: () => this.CONSUME(K.concerts) }, { ALT: () => this.CONSUME(K.concert) }]);
    this.CONSUME(K.to);
    const to = this.SUBRULE(this.share);
    return { span: this.span(first), trivia: this.trivia, kind: "ease", days, to };
  });

  readonly shortDays = this.RULE("shortDays", (): TermField => {
    const first = this.CONSUME(K.short);
    const days = this.SUBRULE(this.everyOrDates);
    return { span: this.span(first), trivia: this.trivia, kind: "short days", days };
  });

  readonly weeksBlock = this.RULE("weeksBlock", (): WeeksBlock => {
    const first = this.LA(1);
    const weeks = this.SUBRULE(this.weeks);
    const block = this.OPTION(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "weeks", weeks, block };
  });

  readonly change = this.RULE("change", (): ChangeBlock => {
    const first = this.CONSUME(K.change);
    const player = this.SUBRULE(this.name);
    const block = this.OPTION(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "change", player, block };
  });

  private readonly asks = [
    {
      ALT: (): AskEntry => {
        const first = this.CONSUME(K.load);
        const points = this.SUBRULE(this.count);
        this.CONSUME(K.points);
        return { span: this.span(first), trivia: this.trivia, kind: "asks load", points };
      },
    },
    {
      ALT: (): AskEntry => {
        const first = this.LA(1);
        const what = this.SUBRULE(this.timeQuantity);
        const amount = this.SUBRULE(this.timeOrShare);
        return this.ACTION((): AskEntry => {
          const span = this.span(first);
          const { trivia } = this;
          if (amount.time !== undefined) return { span, trivia, kind: "asks time", what, time: amount.time };
          if (what !== "playing" && what !== "upper") {
            this.refuse(
              first,
              `A share can be asked of \`playing\` and \`upper\`; \`${what}\` takes a length of time.`,
            );
          }
          return { span, trivia, kind: "asks share", what: what as "playing" | "upper", share: amount.share };
        });
      },
    },
  ];
  readonly ask = this.RULE("ask", (): AskEntry => this.OR<AskEntry>(this.asks));

  private readonly timesOrShares = [
    { ALT: (): TimeOrShare => ({ time: undefined, share: this.namedShare(this.CONSUME(K.half), 50) }) },
    { ALT: (): TimeOrShare => ({ time: undefined, share: this.namedShare(this.CONSUME(K.all), 100) }) },
    {
      ALT: (): TimeOrShare => {
        const first = this.LA(1);
        const { text, value } = this.SUBRULE(this.count);
        const percent = this.OR1(this.percentOrTime);
        return this.ACTION((): TimeOrShare => {
          const span = this.span(first);
          if (percent === undefined)
            return { time: undefined, share: { span, text: `${text} %`, percent: value } };
          const [unit, more] = percent;
          return { time: { span, parts: [{ value, unit }, ...more] }, share: undefined };
        });
      },
    },
  ];
  private readonly percentOrTime = [
    { ALT: () => void this.CONSUME(Percent) },
    {
      ALT: (): [TimeText["parts"][number]["unit"], TimeText["parts"]] => {
        const unit = this.CONSUME(Unit).image as TimeText["parts"][number]["unit"];
        const more = this.OPTION({ GATE: () => matches(this.LA(2), Unit), DEF: this.someTime });
        return [unit, more?.parts ?? []];
      },
    },
  ];
  private readonly timeOrShare = this.RULE(
    "timeOrShare",
    (): TimeOrShare => this.OR<TimeOrShare>(this.timesOrShares),
  );

  private namedShare(token: IToken, percent: number): ShareText {
    return { span: this.tokenSpan(token), text: token.image, percent };
  }

  // ---- sessions ---------------------------------------------------------------------------------------------

  readonly session = this.RULE("session", (): SessionBlock => {
    const first = this.LA(1);
    const days = this.SUBRULE(this.days);
    const name = this.OPTION(this.someName);
    const minutes = this.OPTION1(this.someTime);
    const routine = this.OPTION2(this.someRoutine);
    const block = this.OPTION3(this.someBlock);
    return {
      span: this.span(first),
      trivia: this.trivia,
      kind: "session",
      days,
      name,
      minutes,
      routine,
      block,
    };
  });

  private readonly someRoutine = (): Name => {
    this.CONSUME(K.routine);
    return this.SUBRULE1(this.name);
  };

  readonly pause = this.RULE("pause", (): PauseItem => {
    const first = this.CONSUME(K.rest);
    const time = this.SUBRULE(this.time);
    return { span: this.span(first), trivia: this.trivia, kind: "pause", time };
  });

  readonly shortBlock = this.RULE("shortBlock", (): ShortBlock => {
    const first = this.CONSUME(K.short);
    const minutes = this.OPTION(this.someTime);
    const block = this.SUBRULE(this.block);
    return { span: this.span(first), trivia: this.trivia, kind: "short", minutes, block };
  });

  private clauses: Clause[] = [];
  private readonly oneClause = (): void => {
    const token = this.LA(1);
    const clause = this.OR(this.clauseOrTravelWord);
    this.ACTION(() => {
      const { clauses } = this;
      if (!("kind" in clause)) {
        this.attach(clauses, token, clause);
        return;
      }
      const twin = clauses.some(({ kind }) => ASKS[kind] === ASKS[clause.kind]);
      if (twin)
        this.refuse(token, `This says a second time ${CLAUSE_TELLS[clause.kind]}. Keep one of the two.`);
      clauses.push(clause);
    });
  };
  private readonly clauseOrTravelWord = [
    { ALT: (): Clause | TravelWord => this.SUBRULE(this.clause) },
    { ALT: (): Clause | TravelWord => this.SUBRULE(this.travelWord) },
  ];

  readonly assignment = this.RULE("assignment", (): Assignment => {
    const first = this.LA(1);
    const exercise = this.SUBRULE(this.name);
    const clauses: Clause[] = [];
    this.clauses = clauses;
    this.MANY(this.oneClause);
    const block = this.OPTION(this.someBlock);
    return { span: this.span(first), trivia: this.trivia, kind: "assignment", exercise, clauses, block };
  });

  /** Hangs `onward`, `folded` and their like on the keys they belong to, wherever they were written. */
  private attach(clauses: Clause[], token: IToken, word: TravelWord): void {
    const at = clauses.findIndex(({ kind }) => kind === "keys" || (kind === "valves" && "pacing" in word));
    const clause = clauses[at];
    if (clause === undefined) {
      this.refuse(token, `\`${token.image}\` says how keys travel: it stands after \`keys …\`.`);
      return;
    }
    clauses[at] = {
      ...clause,
      ...word,
      span: { start: clause.span.start, end: endOf(this.LA(0)) },
    } as Clause;
  }

  private readonly someBeat = (): ValueText => this.SUBRULE(this.beat);
  private readonly clauseKinds = [
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.in);
        const key = this.SUBRULE(this.key);
        return { span: this.span(first), kind: "in", key };
      },
    },
    { ALT: (): Clause => this.SUBRULE(this.keysClause) },
    { ALT: (): Clause => this.SUBRULE(this.valvesClause) },
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.all);
        const clause = this.OR1(this.allClauses);
        return this.ACTION(() => ({ ...clause, span: this.span(first) }));
      },
    },
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.tempo);
        const beat = this.OPTION(this.someBeat);
        const bpm = this.SUBRULE(this.range);
        return { span: this.span(first), kind: "tempo", beat, bpm };
      },
    },
    {
      ALT: (): Clause => {
        const first = this.LA(1);
        const times = this.SUBRULE1(this.range);
        this.CONSUME(K.times);
        return { span: this.span(first), kind: "times", times, word: "times" };
      },
    },
    { ALT: (): Clause => this.counted(this.CONSUME(K.once), 1) },
    { ALT: (): Clause => this.counted(this.CONSUME(K.twice), 2) },
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.for);
        const minutes = this.SUBRULE2(this.range);
        this.CONSUME(K.min);
        return { span: this.span(first), kind: "minutes", minutes };
      },
    },
    {
      ALT: (): Clause => {
        const first = this.LA(1);
        const articulation = this.SUBRULE(this.otherArticulation);
        return { span: this.span(first), kind: "articulation", articulation };
      },
    },
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.dynamic);
        const dynamic = this.SUBRULE(this.dynamic);
        return { span: this.span(first), kind: "dynamic", dynamic };
      },
    },
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.rest);
        const rest = this.SUBRULE(this.restText);
        return { span: this.span(first), kind: "rest", rest };
      },
    },
    {
      ALT: (): Clause => {
        const first = this.CONSUME(K.drop);
        this.CONSUME(K.when);
        this.CONSUME(K.tired);
        return { span: this.span(first), kind: "drop when tired" };
      },
    },
  ];
  private readonly clause = this.RULE("clause", (): Clause => this.OR<Clause>(this.clauseKinds));

  private readonly allClauses = [
    {
      ALT: (): Clause => {
        const keys = this.SUBRULE1(this.keysClause);
        return { ...keys, all: true };
      },
    },
    {
      ALT: (): Clause => {
        const valves = this.SUBRULE1(this.valvesClause);
        return { ...valves, all: true };
      },
    },
    {
      ALT: (): Clause => {
        const first = this.LA(0);
        const rest = this.SUBRULE(this.allOf);
        const span = this.span(first);
        return { span, kind: "articulation", articulation: { ...rest, span } };
      },
    },
  ];

  private counted(token: IToken, value: number): Clause {
    const span = this.tokenSpan(token);
    const from = { span, text: token.image, value };
    const times: Range = { span, way: "fixed", from, to: undefined };
    return { span, kind: "times", times, word: value === 1 ? "once" : "twice" };
  }

  private readonly places = [
    { ALT: (): "above" | "below" => this.CONSUME(K.above) && "above" },
    { ALT: (): "above" | "below" => this.CONSUME(K.below) && "below" },
  ];
  private readonly somePlace = (): "above" | "below" => this.OR<"above" | "below">(this.places);
  private readonly placedKey = this.RULE("placedKey", (): PlacedKey => {
    const first = this.LA(1);
    const key = this.SUBRULE(this.key);
    const place = this.OPTION(this.somePlace);
    return { span: this.span(first), key, place };
  });

  private readonly travelWords = [
    { ALT: (): TravelWord => this.CONSUME(K.folded) && { folded: true } },
    {
      ALT: (): TravelWord => {
        this.CONSUME(K.next);
        this.CONSUME(K.round);
        const direction = this.SUBRULE(this.direction);
        this.CONSUME(K.by);
        const step = this.SUBRULE(this.step);
        return { nextRound: { direction, step } };
      },
    },
    { ALT: (): TravelWord => this.CONSUME(K.onward) && { pacing: "onward" } },
    { ALT: (): TravelWord => this.CONSUME(K.afresh) && { pacing: "afresh" } },
    {
      ALT: (): TravelWord => {
        this.CONSUME(K.when);
        this.CONSUME(K.passed);
        return { pacing: "when passed" };
      },
    },
  ];
  private readonly travelWord = this.RULE(
    "travelWord",
    (): TravelWord => this.OR<TravelWord>(this.travelWords),
  );

  private keysSoFar: PlacedKey[] = [];
  private readonly walkOrList = [
    {
      ALT: (): Walk => {
        const direction = this.SUBRULE(this.direction);
        this.CONSUME(K.by);
        const step = this.SUBRULE(this.step);
        this.CONSUME(K.to);
        const to = this.SUBRULE(this.key);
        return { direction, step, to };
      },
    },
    { ALT: (): undefined => void this.MANY(this.anotherKey) },
  ];
  private readonly anotherKey = (): void => {
    this.CONSUME(Comma);
    this.keysSoFar.push(this.SUBRULE1(this.placedKey));
  };
  private readonly keysClause = this.RULE("keysClause", (): KeysClause => {
    const first = this.CONSUME(K.keys);
    const start = this.SUBRULE(this.placedKey);
    const keys = [start];
    this.keysSoFar = keys;
    const walk = this.OR<Walk | undefined>(this.walkOrList);
    const travel: KeysClause["travel"] = this.ACTION(() =>
      walk === undefined ? { kind: "list", keys } : { kind: "walk", from: start.key, ...walk },
    );
    const span = this.span(first);
    return { span, kind: "keys", all: false, travel, folded: false, nextRound: undefined, pacing: undefined };
  });

  private readonly combination = this.RULE("combination", (): Word => {
    const token = this.OR([{ ALT: () => this.CONSUME(K.open) }, { ALT: () => this.CONSUME(NumberText) }]);
    this.ACTION(() => {
      if (!COMBINATIONS.has(token.image)) {
        this.refuse(token, "The valve combinations are `open`, `2`, `1`, `12`, `23`, `13` and `123`.");
      }
    });
    return this.ACTION(() => this.word(token));
  });

  private readonly valvesClause = this.RULE("valvesClause", (): ValvesClause => {
    const first = this.CONSUME(K.valves);
    const from = this.SUBRULE(this.combination);
    let travel: ValvesClause["travel"] | undefined;
    const combinations = [from];
    this.OR([
      {
        ALT: () => {
          this.CONSUME(K.to);
          travel = { kind: "walk", from, to: this.SUBRULE1(this.combination) };
        },
      },
      {
        ALT: () => {
          this.MANY(() => {
            this.CONSUME(Comma);
            combinations.push(this.SUBRULE2(this.combination));
          });
        },
      },
    ]);
    travel ??= { kind: "list", combinations };
    return { span: this.span(first), kind: "valves", all: false, travel, pacing: undefined };
  });

  // ---- changes and the record ---------------------------------------------------------------------------------

  readonly replace = this.RULE("replace", (): ChangeItem => {
    const first = this.CONSUME(K.replace);
    const exercise = this.SUBRULE(this.name);
    this.CONSUME(K.with);
    const by = this.SUBRULE1(this.name);
    const when = this.OPTION(() => this.SUBRULE(this.when));
    return { span: this.span(first), trivia: this.trivia, kind: "replace", exercise, by, when };
  });

  readonly leaveOut = this.RULE("leaveOut", (): ChangeItem => {
    const first = this.CONSUME(K.leave);
    this.CONSUME(K.out);
    const exercise = this.SUBRULE(this.name);
    const when = this.OPTION(() => this.SUBRULE(this.when));
    return { span: this.span(first), trivia: this.trivia, kind: "leave out", exercise, when };
  });

  readonly ill = this.RULE("ill", (): ChangeItem => {
    const first = this.CONSUME(K.ill);
    const dates = this.SUBRULE(this.dateRange);
    return { span: this.span(first), trivia: this.trivia, kind: "ill", dates };
  });

  readonly backAtHalf = this.RULE("backAtHalf", (): ChangeItem => {
    const first = this.CONSUME(K.back);
    this.CONSUME(K.at);
    this.CONSUME(K.half);
    const dates = this.SUBRULE(this.dateRange);
    return { span: this.span(first), trivia: this.trivia, kind: "back at half", dates };
  });

  readonly recordLine = this.RULE("recordLine", (): RecordLine => {
    const first = this.LA(1);
    const when = this.SUBRULE(this.weekOrDate);
    const player = this.SUBRULE(this.name);
    const entries: RecordEntry[] = [];
    this.MANY(() => void entries.push(this.SUBRULE(this.recordEntry)));
    return { span: this.span(first), trivia: this.trivia, kind: "record line", when, player, entries };
  });

  private readonly inKey = this.RULE("inKey", (): KeyText => {
    this.CONSUME(K.in);
    return this.SUBRULE(this.key);
  });

  private readonly recordEntry = this.RULE("recordEntry", (): RecordEntry => {
    const first = this.LA(1);
    return this.OR<RecordEntry>([
      {
        ALT: () => {
          const days = this.SUBRULE(this.recordDays);
          return { span: this.span(first), kind: "days", days };
        },
      },
      { ALT: () => ({ span: this.tokenSpan(this.CONSUME(K.done)), kind: "done" }) },
      { ALT: () => ({ span: this.tokenSpan(this.CONSUME(K.missed)), kind: "missed" }) },
      {
        ALT: () => {
          this.CONSUME(K.except);
          const exercise = this.SUBRULE(this.name);
          return { span: this.span(first), kind: "except", exercise };
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.felt);
          const effort = this.SUBRULE(this.count);
          return { span: this.span(first), kind: "felt", effort };
        },
      },
      {
        ALT: () => {
          let passed = true;
          this.OPTION(() => {
            this.CONSUME(K.not);
            passed = false;
          });
          this.CONSUME(K.passed);
          const exercise = this.SUBRULE1(this.name);
          const key = this.OPTION1(() => this.SUBRULE(this.inKey));
          return { span: this.span(first), kind: "passed", passed, exercise, key };
        },
      },
      {
        ALT: () => {
          const exercise = this.SUBRULE2(this.name);
          const key = this.OPTION2(() => this.SUBRULE1(this.inKey));
          let bpm: Count | undefined;
          this.OPTION3(() => {
            this.CONSUME(K.at);
            bpm = this.SUBRULE1(this.count);
          });
          const times = this.OPTION4(() => this.SUBRULE(this.playedTimes));
          return { span: this.span(first), kind: "played", exercise, key, bpm, times };
        },
      },
      {
        ALT: () => {
          this.CONSUME(K.note);
          const text = this.SUBRULE3(this.name);
          return { span: this.span(first), kind: "note", text };
        },
      },
    ]);
  });

  private readonly playedTimes = this.RULE("playedTimes", (): Range => {
    return this.OR<Range>([
      {
        ALT: () => {
          const times = this.SUBRULE(this.range);
          this.CONSUME(K.times);
          return times;
        },
      },
      { ALT: () => this.numbered(this.CONSUME(K.once), 1) },
      { ALT: () => this.numbered(this.CONSUME(K.twice), 2) },
    ]);
  });

  private numbered(token: IToken, value: number): Range {
    const span = this.tokenSpan(token);
    return { span, way: "fixed", from: { span, text: token.image, value }, to: undefined };
  }

  /** `Mon Tue Thu`, with or without commas; `Mon to Fri` is written out. */
  private readonly recordDays = this.RULE("recordDays", (): WeekdayWord[] => {
    const days: WeekdayWord[] = [];
    this.AT_LEAST_ONE(() => {
      const from = this.CONSUME(Weekday).image.slice(0, 3) as WeekdayWord;
      let to = from;
      this.OPTION(() => {
        this.CONSUME(K.to);
        to = this.CONSUME1(Weekday).image.slice(0, 3) as WeekdayWord;
      });
      this.OPTION1({
        GATE: () => this.LA(2).tokenType === Weekday,
        DEF: () => void this.CONSUME(Comma),
      });
      this.ACTION(() => {
        for (let day = WEEKDAYS.indexOf(from); ; day = (day + 1) % 7) {
          days.push(WEEKDAYS[day]!);
          if (WEEKDAYS[day] === to) break;
        }
      });
    });
    return days;
  });
}

/** What a clause tells: two that tell the same contradict each other. */
const ASKS: Record<Clause["kind"], string> = {
  in: "key",
  keys: "key",
  valves: "key",
  tempo: "tempo",
  times: "amount",
  minutes: "amount",
  articulation: "articulation",
  dynamic: "dynamic",
  rest: "rest",
  "drop when tired": "drop",
};

const CLAUSE_TELLS: Record<Clause["kind"], string> = {
  in: "in which key",
  keys: "in which keys",
  valves: "on which valves",
  tempo: "how fast",
  times: "how often",
  minutes: "how long",
  articulation: "how it is tongued or slurred",
  dynamic: "how loud",
  rest: "how long to rest",
  "drop when tired": "that it is dropped when tired",
};
