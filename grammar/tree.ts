import type { Span } from "./span";

/**
 * The tree of a plan text. It keeps everything the teacher wrote (comments, blank lines, the chosen spelling
 * of a value) so that the text can be built from it again, and it knows no music: pitches, keys and dates are
 * still words here. All spans are relative to the start of the declaration's piece of the file.
 */

/** What surrounds a statement without being part of it. */
export interface Trivia {
  /** Whole comment lines just above, each without its line end, from the `#` on. An empty string is a blank line between them. */
  readonly before: readonly string[];
  /** The comment at the end of the statement's own line, from the `#` on. */
  readonly after: string | undefined;
  /** Whether at least one blank line stands above (above the comments in `before`). */
  readonly blank: boolean;
}

interface Node {
  readonly span: Span;
}

interface Statement extends Node {
  readonly trivia: Trivia;
}

/** Text that could not be read. It is kept letter for letter; its finding stands in the piece's problems. */
export interface Unread extends Statement {
  readonly kind: "unread";
  readonly text: string;
}

/** What stands between two braces. */
export interface Block<T> extends Node {
  readonly items: readonly (T | Unread)[];
  /** True where the author wrote the whole block on one line. */
  readonly inline: boolean;
  /** Comment lines between the last statement and the closing brace. An empty string is a blank line. */
  readonly closing: readonly string[];
}

// ---- leaves ---------------------------------------------------------------------------------------------

/** A name in double quotes; `text` is what stands between them, in composed form (NFC). */
export interface Name extends Node {
  readonly text: string;
}

/** A bare word or code. */
export interface Word extends Node {
  readonly text: string;
}

/** A number as written: `3`, `2.5`, `three`. */
export interface Count extends Node {
  readonly text: string;
  readonly value: number;
}

/** A written pitch such as `F#4`, still as text; `♯ ♭` are already `# b`. */
export interface PitchText extends Node {
  readonly text: string;
}

/** A key such as `Bb` or `A harmonic minor`; `mode` is undefined where none was written. */
export interface KeyText extends Node {
  readonly tonic: string;
  readonly mode: ModeWord | undefined;
}

export type ModeWord =
  | "major"
  | "minor"
  | "natural minor"
  | "harmonic minor"
  | "melodic minor"
  | "dorian"
  | "phrygian"
  | "lydian"
  | "mixolydian"
  | "locrian";

/** A note value: `1/8.`, `dotted quaver`. `num/den` is without the dots. */
export interface ValueText extends Node {
  readonly text: string;
  readonly num: number;
  readonly den: number;
  readonly dots: number;
}

/** A length of time in one or more parts: `1 min 30 s`. */
export interface TimeText extends Node {
  readonly parts: readonly { readonly value: number; readonly unit: "h" | "min" | "s" }[];
}

/** A date as written, `2026-09-07`; whether it exists is checked later. */
export interface DateText extends Node {
  readonly text: string;
}

export interface DateRange extends Node {
  readonly from: DateText;
  readonly to: DateText | undefined;
}

/** `half` (50), `all` (100) or `40 %`. */
export interface ShareText extends Node {
  readonly text: string;
  readonly percent: number;
}

export type WeekdayWord = "Mon" | "Tue" | "Wed" | "Thu" | "Fri" | "Sat" | "Sun";

export interface WeekdayRange extends Node {
  readonly from: WeekdayWord;
  readonly to: WeekdayWord | undefined;
}

/** `Mon to Fri`, `Mon, Wed`, `every day`, `on 2026-10-01`. */
export type Days =
  | (Node & { readonly kind: "weekdays"; readonly ranges: readonly WeekdayRange[] })
  | (Node & { readonly kind: "every day" })
  | (Node & { readonly kind: "dates"; readonly dates: readonly DateText[] });

export interface WeekRange extends Node {
  readonly from: Count;
  readonly to: Count | undefined;
}

/** `weeks 1 to 4, 6` or `every week` (then `ranges` is undefined). */
export interface Weeks extends Node {
  readonly ranges: readonly WeekRange[] | undefined;
}

export type StepWord =
  | "half step"
  | "whole step"
  | "minor third"
  | "major third"
  | "fourth"
  | "fifth"
  | "octave";

export type Direction = "up" | "down";
export type DynamicWord = "ppp" | "pp" | "p" | "mp" | "mf" | "f" | "ff" | "fff";

/** `50`, `50 to 58` (growth) or `between 50 and 58` (choice). */
export interface Range extends Node {
  readonly way: "fixed" | "growth" | "choice";
  readonly from: Count;
  readonly to: Count | undefined;
}

export type ArticulationText = Node &
  (
    | {
        readonly kind:
          | "all slurred"
          | "all tongued"
          | "all staccato"
          | "all tenuto"
          | "double tongued"
          | "triple tongued"
          | "as written";
      }
    | {
        readonly kind: "pattern";
        readonly groups: readonly { readonly how: "slur" | "tongue"; readonly notes: Count }[];
      }
  );

/** `equal`, `none` or a length of time. */
export type RestText = Node &
  (
    | { readonly kind: "equal" }
    | { readonly kind: "none" }
    | { readonly kind: "time"; readonly time: TimeText }
  );

// ---- statements that may stand in several blocks ----------------------------------------------------------

export interface AimField extends Statement {
  readonly kind: "aim";
  readonly text: Name;
}

export interface GoalField extends Statement {
  readonly kind: "goal";
  readonly text: Name;
  readonly by: { readonly week: Count } | { readonly date: DateText };
}

/** `let day-upper stand on 2026-11-17 because "…"` */
export interface LetField extends Statement {
  readonly kind: "let";
  readonly code: Word;
  readonly on: DateText | undefined;
  readonly because: Name;
}

// ---- declarations -----------------------------------------------------------------------------------------

export type Declaration =
  | UseDeclaration
  | StudioDeclaration
  | AreaDeclaration
  | ExerciseDeclaration
  | RoutineDeclaration
  | LevelDeclaration
  | StudentDeclaration
  | TermDeclaration
  | RecordDeclaration;

export interface UseDeclaration extends Statement {
  readonly kind: "use";
  readonly path: Name;
}

export interface AreaDeclaration extends Statement {
  readonly kind: "area";
  readonly name: Name;
  readonly block: Block<AreaField> | undefined;
}

export type AreaField =
  | AimField
  | LetField
  | (Statement & { readonly kind: "at least every"; readonly days: Count });

// ---- studio

export type TimeSetting = "horn down" | "breath between";
export type PercentSetting = "soft breath" | "loud breath" | "tempo jump" | "rest";
export type PlainSetting = "tuning" | "fermata" | "load exponent" | "dynamic step" | "untouched";

export interface StudioDeclaration extends Statement {
  readonly kind: "studio";
  readonly name: Name | undefined;
  readonly block: Block<StudioField> | undefined;
}

export type StudioField =
  | AimField
  | LetField
  | (Statement & { readonly kind: "time setting"; readonly setting: TimeSetting; readonly time: TimeText })
  | (Statement & {
      readonly kind: "percent setting";
      readonly setting: PercentSetting;
      readonly share: ShareText;
    })
  | (Statement & { readonly kind: "plain setting"; readonly setting: PlainSetting; readonly value: Count })
  | (Statement & {
      readonly kind: "finding";
      readonly code: Word;
      readonly severity: "error" | "warning" | "note" | "off";
    });

// ---- exercise

export interface ExerciseDeclaration extends Statement {
  readonly kind: "exercise";
  readonly name: Name;
  readonly like: Name | undefined;
  readonly block: Block<ExerciseField> | undefined;
}

export type ExerciseField =
  | AimField
  | LetField
  | (Statement & { readonly kind: "in"; readonly area: Name })
  | (Statement & { readonly kind: "key"; readonly key: KeyText })
  /** `free` is undefined `value`. */
  | (Statement & { readonly kind: "meter"; readonly value: ValueText | undefined })
  | (Statement & { readonly kind: "tempo"; readonly beat: ValueText; readonly bpm: Count })
  | MusicField
  | (Statement & { readonly kind: "rest"; readonly rest: RestText })
  | (Statement & { readonly kind: "dynamic"; readonly dynamic: DynamicWord })
  | (Statement & { readonly kind: "articulation"; readonly articulation: ArticulationText })
  | (Statement & { readonly kind: "rhythm"; readonly values: readonly ValueText[] })
  | (Statement & { readonly kind: "ornament"; readonly ornament: OrnamentWord; readonly on: ValueText })
  | (Statement & { readonly kind: "moved"; readonly direction: Direction; readonly step: StepWord })
  | (Statement & {
      readonly kind: "series";
      readonly cells: Count | undefined;
      readonly direction: Direction;
      readonly step: StepWord;
    })
  | (Statement & {
      readonly kind: "printed";
      readonly title: Name;
      readonly page: Count | undefined;
      readonly bars: { readonly from: Count; readonly to: Count } | undefined;
    })
  | (Statement & { readonly kind: "range"; readonly low: PitchText; readonly high: PitchText })
  | (Statement & { readonly kind: "lasts"; readonly time: TimeText })
  | (Statement & { readonly kind: "upper"; readonly time: TimeText })
  | (Statement & { readonly kind: "activity"; readonly activity: Word | Name; readonly quoted: boolean })
  | (Statement & { readonly kind: "lips"; readonly how: "loads" | "spares" });

export type OrnamentWord = "trill" | "turn" | "mordent";

export interface MusicField extends Statement {
  readonly kind: "music";
  /** What the notes are written as. */
  readonly by: "pitches" | "degrees" | "partials";
  /** `degrees from C4`; undefined for the other two. */
  readonly from: PitchText | undefined;
  readonly music: Music;
}

export interface Music extends Node {
  readonly elements: readonly MusicElement[];
  /** True where the author wrote all of it on one line. */
  readonly inline: boolean;
}

export type MusicElement = Node &
  (
    | ({ readonly kind: "value" } & ValueText)
    | ({ readonly kind: "pitch" } & PitchText)
    /** `degree` is 1 to 22 or −1 to −14 (see REFERENCE), `alter` in half steps. */
    | { readonly kind: "degree"; readonly degree: number; readonly alter: number; readonly text: string }
    | { readonly kind: "partial"; readonly partial: number }
    | { readonly kind: "rest" }
    | { readonly kind: "slur open"; readonly lip: boolean }
    | { readonly kind: "slur close" }
    | { readonly kind: "bar" }
    | { readonly kind: "breath" }
    | { readonly kind: "tie" }
    | { readonly kind: "held" }
    | { readonly kind: "mark"; readonly mark: MarkWord }
    | { readonly kind: "bend"; readonly step: StepWord }
    | { readonly kind: "dynamic"; readonly dynamic: DynamicWord }
    | { readonly kind: "hairpin"; readonly way: "cresc" | "dim" }
    | { readonly kind: "tonguing"; readonly how: "single" | "double" | "triple" }
    | { readonly kind: "attack"; readonly how: "air" | "lip" | "tongue" }
    | { readonly kind: "pickup" }
    | { readonly kind: "free"; readonly time: TimeText }
    | { readonly kind: "key change"; readonly key: KeyText }
    | { readonly kind: "meter change"; readonly value: ValueText | undefined }
    /** `triplet [ … ]` is 3 in the time of 2; `word` true where written as the word. */
    | {
        readonly kind: "tuplet";
        readonly notes: number;
        readonly inTimeOf: number;
        readonly word: boolean;
        readonly elements: readonly MusicElement[];
      }
    | { readonly kind: "repeat"; readonly elements: readonly MusicElement[] }
    | { readonly kind: "ending"; readonly number: 1 | 2; readonly elements: readonly MusicElement[] }
    /** The author began a new line here. */
    | { readonly kind: "line" }
    /** A comment to the end of the line, from the `#` on; a "line" follows it. */
    | { readonly kind: "comment"; readonly text: string }
    /** Letters that mean nothing here; the finding stands in the problems. */
    | { readonly kind: "unread music"; readonly text: string }
  );

export type MarkWord =
  | "accent"
  | "staccato"
  | "tenuto"
  | "marcato"
  | "fermata"
  | "trill"
  | "turn"
  | "mordent";

// ---- players

export interface LevelDeclaration extends Statement {
  readonly kind: "level";
  readonly name: Name;
  readonly like: Name | undefined;
  readonly block: Block<PlayerField> | undefined;
}

export interface StudentDeclaration extends Statement {
  readonly kind: "student";
  readonly name: Name;
  readonly like: Name | undefined;
  readonly block: Block<PlayerField> | undefined;
}

export type StageWord = "first year" | "years 2 to 3" | "senior" | "college";

export type PlayerField =
  | AimField
  | LetField
  /** The words as written, parted by single spaces: `piccolo trumpet in Bb`. */
  | (Statement & { readonly kind: "instrument"; readonly words: Word })
  | (Statement & { readonly kind: "stage"; readonly stage: StageWord })
  | (Statement & { readonly kind: "range"; readonly low: PitchText; readonly high: PitchText })
  | (Statement & { readonly kind: "limit"; readonly low: PitchText; readonly high: PitchText })
  | (Statement & { readonly kind: "upper from"; readonly pitch: PitchText })
  | (Statement & { readonly kind: "breath"; readonly time: TimeText })
  | (Statement & {
      readonly kind: "tongue";
      readonly how: "single" | "double" | "triple";
      readonly value: ValueText;
      readonly bpm: Count;
    })
  | (Statement & { readonly kind: "keys"; readonly keys: readonly KeyText[] })
  | BudgetField;

export interface BudgetField extends Statement {
  readonly kind: "each";
  readonly period: "day" | "week";
  readonly block: Block<BudgetEntry>;
}

export type BudgetEntry = Statement &
  (
    | { readonly kind: "time at most"; readonly what: TimeQuantity; readonly time: TimeText }
    | { readonly kind: "load at most"; readonly points: Count }
    | { readonly kind: "increase at most"; readonly share: ShareText }
    | { readonly kind: "days at most"; readonly days: Count }
  );

export type TimeQuantity = "clock" | "playing" | "upper" | "stretch";

// ---- term

export interface TermDeclaration extends Statement {
  readonly kind: "term";
  readonly name: Name;
  /** Levels and students. */
  readonly players: readonly Name[];
  readonly block: Block<TermField> | undefined;
}

export type TermField =
  | AimField
  | GoalField
  | LetField
  | (Statement & { readonly kind: "from"; readonly from: DateText; readonly to: DateText })
  | (Statement & { readonly kind: "practice"; readonly days: Days })
  | (Statement & {
      readonly kind: "closure";
      readonly how: "closed" | "light" | "no lesson";
      readonly dates: DateRange;
      readonly reason: Name | undefined;
    })
  | (Statement & {
      readonly kind: "lesson";
      readonly days: Days;
      readonly name: Name | undefined;
      readonly asks: Block<AskEntry> | undefined;
    })
  | (Statement & {
      readonly kind: "booked";
      readonly concert: boolean;
      /** `every Tue`, or single dates. */
      readonly days: Days;
      /** `from … to …` after `every Tue`. */
      readonly within: DateRange | undefined;
      readonly name: Name;
      readonly asks: Block<AskEntry> | undefined;
    })
  | (Statement & { readonly kind: "ease"; readonly days: Count; readonly to: ShareText })
  /** `short every Wed`, `short 2026-11-18`. */
  | (Statement & { readonly kind: "short days"; readonly days: Days })
  | WeeksBlock
  | ChangeBlock;

/** What a booking or lesson asks of the lips. */
export type AskEntry = Statement &
  (
    | { readonly kind: "asks time"; readonly what: TimeQuantity; readonly time: TimeText }
    | { readonly kind: "asks share"; readonly what: "playing" | "upper"; readonly share: ShareText }
    | { readonly kind: "asks load"; readonly points: Count }
  );

export interface WeeksBlock extends Statement {
  readonly kind: "weeks";
  readonly weeks: Weeks;
  readonly block: Block<WeeksItem> | undefined;
}

export type WeeksItem = AimField | LetField | SessionBlock;

export interface SessionBlock extends Statement {
  readonly kind: "session";
  readonly days: Days;
  readonly name: Name | undefined;
  readonly minutes: TimeText | undefined;
  readonly routine: Name | undefined;
  readonly block: Block<SessionItem> | undefined;
}

export interface RoutineDeclaration extends Statement {
  readonly kind: "routine";
  readonly name: Name;
  readonly minutes: TimeText | undefined;
  readonly block: Block<SessionItem> | undefined;
}

export type SessionItem = AimField | GoalField | LetField | Assignment | PauseItem | ShortBlock;

/** A rest with the horn down inside a session. */
export interface PauseItem extends Statement {
  readonly kind: "pause";
  readonly time: TimeText;
}

export interface ShortBlock extends Statement {
  readonly kind: "short";
  readonly minutes: TimeText | undefined;
  readonly block: Block<SessionItem>;
}

export interface Assignment extends Statement {
  readonly kind: "assignment";
  readonly exercise: Name;
  /** In the order written; at most one of each kind is meant, a second one is reported by the parser. */
  readonly clauses: readonly Clause[];
  readonly block: Block<AimField | GoalField | LetField> | undefined;
}

export type Clause = Node &
  (
    | { readonly kind: "in"; readonly key: KeyText }
    | KeysClause
    | ValvesClause
    | { readonly kind: "tempo"; readonly beat: ValueText | undefined; readonly bpm: Range }
    | { readonly kind: "times"; readonly times: Range; readonly word: "once" | "twice" | "times" }
    | { readonly kind: "minutes"; readonly minutes: Range }
    | { readonly kind: "articulation"; readonly articulation: ArticulationText }
    | { readonly kind: "dynamic"; readonly dynamic: DynamicWord }
    | { readonly kind: "rest"; readonly rest: RestText }
    | { readonly kind: "drop when tired" }
  );

export type Pacing = "onward" | "afresh" | "when passed";

export interface PlacedKey extends Node {
  readonly key: KeyText;
  readonly place: "above" | "below" | undefined;
}

export type KeysClause = Node & {
  readonly kind: "keys";
  readonly all: boolean;
  readonly travel:
    | { readonly kind: "list"; readonly keys: readonly PlacedKey[] }
    | {
        readonly kind: "walk";
        readonly from: KeyText;
        readonly direction: Direction;
        readonly step: StepWord;
        readonly to: KeyText;
      };
  readonly folded: boolean;
  readonly nextRound: { readonly direction: Direction; readonly step: StepWord } | undefined;
  readonly pacing: Pacing | undefined;
};

/** Combinations as written: `open` (or `0`), `2`, `1`, `12`, `23`, `13`, `123`. */
export type ValvesClause = Node & {
  readonly kind: "valves";
  readonly all: boolean;
  readonly travel:
    | { readonly kind: "list"; readonly combinations: readonly Word[] }
    | { readonly kind: "walk"; readonly from: Word; readonly to: Word };
  readonly pacing: Pacing | undefined;
};

export interface ChangeBlock extends Statement {
  readonly kind: "change";
  readonly player: Name;
  readonly block: Block<ChangeItem> | undefined;
}

/** For the whole term where undefined. */
export type When = { readonly weeks: Weeks } | { readonly dates: DateRange } | undefined;

export type ChangeItem = Statement &
  (
    | { readonly kind: "replace"; readonly exercise: Name; readonly by: Name; readonly when: When }
    | { readonly kind: "leave out"; readonly exercise: Name; readonly when: When }
    | { readonly kind: "ill"; readonly dates: DateRange }
    | { readonly kind: "back at half"; readonly dates: DateRange }
  );

// ---- record

export interface RecordDeclaration extends Statement {
  readonly kind: "record";
  readonly term: Name;
  readonly block: Block<RecordLine> | undefined;
}

export interface RecordLine extends Statement {
  readonly kind: "record line";
  readonly when: { readonly week: Count } | { readonly date: DateText };
  readonly player: Name;
  readonly entries: readonly RecordEntry[];
}

export type RecordEntry = Node &
  (
    | { readonly kind: "days"; readonly days: readonly WeekdayWord[] }
    | { readonly kind: "done" }
    | { readonly kind: "missed" }
    | { readonly kind: "except"; readonly exercise: Name }
    | { readonly kind: "felt"; readonly effort: Count }
    | {
        readonly kind: "passed";
        readonly passed: boolean;
        readonly exercise: Name;
        readonly key: KeyText | undefined;
      }
    | {
        readonly kind: "played";
        readonly exercise: Name;
        readonly key: KeyText | undefined;
        readonly bpm: Count | undefined;
        readonly times: Range | undefined;
      }
    | { readonly kind: "note"; readonly text: Name }
  );
