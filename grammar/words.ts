/**
 * Every word of the language with its meaning in a musician's words. The token list, the highlighting, the
 * "Words at a glance" page of the reference and the editor's hovers are all made from this one table.
 */

/** The words of one kind. All words of a group with a `token` are read as that one token. */
interface WordGroup {
  readonly title: string;
  readonly token: string | undefined;
  readonly rows: readonly (readonly [phrase: string, meaning: string])[];
}

export const WORD_GROUPS = [
  {
    title: "Declarations",
    token: undefined,
    rows: [
      ["use", "brings in what another file declares"],
      ["studio", "figures and house rules for everybody"],
      ["area", "an area of the daily basics"],
      ["exercise", "one exercise of the book"],
      ["routine", "a session kept under a name"],
      ["level", "what players of one standard can do and may do"],
      ["student", "one student: initials are enough"],
      ["term", "a curriculum from one day to another"],
      ["record of", "what was really played in a term"],
      ["like", "takes everything from another, except what is said here"],
      ["for", "whose term it is; on an assignment, for how many minutes"],
    ],
  },
  {
    title: "Anywhere",
    token: undefined,
    rows: [
      ["aim", "what to listen for"],
      ["goal", "what should be reached, and by when"],
      ["by week", "the week by which a goal is reached"],
      ["let stand", "leaves a finding as it is, with a reason"],
      ["because", "the reason why a finding stands"],
      ["on", "on this one day"],
      ["to", "as far as, this one included"],
      ["from", "beginning with, this one included"],
      ["at most", "not more than"],
      ["at least", "not less than"],
      ["at least every days", "how long an area may be left alone"],
      ["every", "each one of them"],
      ["day", "one day"],
      ["half", "half of it; also a half note"],
      ["all", "all of it, or all of them in one day"],
    ],
  },
  {
    title: "Exercises",
    token: undefined,
    rows: [
      ["in", "the area of an exercise; on an assignment, the key"],
      ["key", "the home key; inside music, a change of key"],
      ["major", "the major mode"],
      ["minor", "the minor mode, natural where nothing else is said"],
      ["meter", "what every bar must fill; inside music, a change of meter"],
      ["free", "a meter without bars to fill; inside music, a bar with a length of its own"],
      ["tempo", "how fast: the note value counted, and how many to the minute"],
      ["music", "the notes"],
      ["degrees from", "the notes as scale degrees above this tonic"],
      ["partials", "the notes as partials of the tube"],
      ["rest", "a rest: after each time through, in a session, or inside music"],
      ["equal", "a rest as long as was played"],
      ["none", "no rest"],
      ["dynamic", "the dynamic at the start"],
      ["articulation", "how all the notes are tongued or slurred"],
      ["slurred", "everything under slurs"],
      ["tongued", "every note tongued"],
      ["as written", "the articulation that stands in the music"],
      ["slur tongue", "a pattern of slurred and tongued notes"],
      ["rhythm", "values given to the notes in turn"],
      ["ornament", "an ornament on the long notes"],
      ["moved", "the whole exercise moved by an interval"],
      ["up by", "upwards by this step"],
      ["down by", "downwards by this step"],
      ["series cells", "one small cell, step by step"],
      ["printed", "a printed study or part, by its title"],
      ["page", "the page it stands on"],
      ["bars", "the bars that are played"],
      ["range", "lowest and highest note; for a player, the comfortable ones"],
      ["lasts", "how long one time through takes"],
      ["upper", "time in the upper register"],
      ["activity", "work without notes"],
      ["loads lips", "counts as playing"],
      ["spares lips", "counts as rest"],
      ["half step", "a half step"],
      ["whole step", "a whole step"],
      ["minor third", "a minor third"],
      ["major third", "a major third"],
    ],
  },
  {
    title: "Inside music",
    token: undefined,
    rows: [
      ["lip", "before a slur: on one valve combination"],
      ["tie", "joined to the next note of the same pitch"],
      ["held", "to the end of the breath"],
      ["bend", "bent down with the lips and back"],
      ["attack", "how notes start from here on"],
      ["air", "started by the air alone"],
      ["pickup", "the first bar is short"],
      ["triplet", "three in the time of two"],
      ["repeat", "twice through"],
      ["ending", "the first or the second ending"],
    ],
  },
  {
    title: "Players",
    token: undefined,
    rows: [
      ["instrument", "what is played, and its pitch"],
      ["stage", "where to take the figures from that are not stated"],
      ["first year", "in the first year of playing"],
      ["years", "`years 2 to 3`: in the second or third year"],
      ["senior", "in the last years of school"],
      ["college", "at a conservatory or college"],
      ["limit", "never outside of these notes"],
      ["upper from", "the lowest note of the upper register"],
      ["breath", "how long one breath lasts at mf"],
      ["tongue at", "the fastest tonguing"],
      ["keys", "the keys a term should reach; on an assignment, the keys it travels through"],
      ["each day", "the budget of a day"],
      ["each week", "the budget of a week"],
      ["clock", "playing and rest together"],
      ["playing", "the time the notes sound"],
      ["stretch", "the longest run without the horn coming down"],
      ["load", "the computed load, in points"],
      ["points", "one point is one minute of the home note at mf"],
      ["increase", "how much more than the week before"],
      ["days", "how many days"],
    ],
  },
  {
    title: "The studio",
    token: undefined,
    rows: [
      ["tuning Hz", "the pitch of A4"],
      ["horn down", "the shortest rest that lets the lips recover"],
      ["breath between", "the breath between two times through"],
      ["load exponent", "how steeply the load grows with pitch"],
      ["dynamic step dB", "from one dynamic to the next"],
      ["soft breath", "how long a breath lasts at p and softer"],
      ["loud breath", "how long a breath lasts at f and louder"],
      ["untouched", "how many practice days an area may be left alone"],
      ["tempo jump", "how much a tempo may grow from one week to the next"],
      ["finding", "how serious a finding is"],
      ["error", "it must be mended"],
      ["warning", "it should be looked at"],
      ["note", "good to know; in the record, a remark"],
      ["off", "not shown"],
    ],
  },
  {
    title: "Terms and sessions",
    token: undefined,
    rows: [
      ["practice", "the days of practice"],
      ["closed", "the horn stays in the case"],
      ["light", "light practice"],
      ["no lesson", "practice goes on, the lesson falls away"],
      ["lesson", "the day of the lesson"],
      ["booked", "a rehearsal that asks of the same lips"],
      ["concert", "a concert"],
      ["ease before concerts", "smaller amounts on the days before"],
      ["short", "the short version of a session, or the days that take it"],
      ["weeks", "a block of weeks, numbered by taught weeks"],
      ["change", "what differs for one student"],
      ["replace with", "one exercise in place of another"],
      ["leave out", "without this exercise"],
      ["ill", "no practice"],
      ["back at half", "half of every amount"],
      ["valves", "the valve combinations it travels through"],
      ["open", "no valve down"],
      ["above", "this key lies above the home key"],
      ["below", "this key lies below the home key"],
      ["folded", "far keys come back by octaves"],
      ["next round", "when the walk is through, it begins again, moved by this step"],
      ["onward", "each day goes on where the last one stopped"],
      ["afresh", "each day starts from the first key"],
      ["when passed", "the key moves on after a lesson that passed it"],
      ["between and", "the player's own choice between two values"],
      ["once", "one time through"],
      ["twice", "two times through"],
      ["times", "how many times through"],
      ["drop when tired", "left out first"],
    ],
  },
  {
    title: "The record",
    token: undefined,
    rows: [
      ["done", "all of it was practised"],
      ["missed", "none of it was practised"],
      ["except", "what was left out"],
      ["felt", "how hard it felt, 0 to 10"],
      ["passed", "passed at the lesson"],
      ["not passed", "not passed at the lesson"],
    ],
  },
  {
    title: "Units",
    token: undefined,
    rows: [
      ["h", "hours"],
      ["min", "minutes"],
      ["s", "seconds"],
    ],
  },
  {
    title: "Modes",
    token: "Mode",
    rows: [
      ["dorian", "a mode"],
      ["phrygian", "a mode"],
      ["lydian", "a mode"],
      ["mixolydian", "a mode"],
      ["locrian", "a mode"],
    ],
  },
  {
    title: "Forms of minor",
    token: "MinorForm",
    rows: [
      ["natural", "natural minor"],
      ["harmonic", "harmonic minor: a raised seventh"],
      ["melodic", "melodic minor: sixth and seventh raised on the way up"],
    ],
  },
  {
    title: "Larger steps",
    token: "StepName",
    rows: [
      ["fourth", "a perfect fourth"],
      ["fifth", "a perfect fifth"],
      ["octave", "an octave"],
    ],
  },
  {
    title: "After a note",
    token: "Mark",
    rows: [
      ["accent", "with an accent"],
      ["marcato", "strongly marked"],
      ["fermata", "held; counts double unless the studio says otherwise"],
      ["staccato", "short"],
      ["tenuto", "broad"],
      ["trill", "an ornament"],
      ["turn", "an ornament"],
      ["mordent", "an ornament"],
    ],
  },
  {
    title: "Louder and softer",
    token: "Hairpin",
    rows: [
      ["cresc", "growing to the next dynamic"],
      ["dim", "dying away to the next dynamic"],
    ],
  },
  {
    title: "Ways of tonguing",
    token: "Tonguing",
    rows: [
      ["single", "single tonguing"],
      ["double", "double tonguing"],
      ["triple", "triple tonguing"],
    ],
  },
  {
    title: "Dynamics",
    token: "Dynamic",
    rows: [
      ["ppp", "as soft as can be"],
      ["pp", "very soft"],
      ["p", "soft"],
      ["mp", "rather soft"],
      ["mf", "rather loud"],
      ["f", "loud"],
      ["ff", "very loud"],
      ["fff", "as loud as can be"],
    ],
  },
  {
    title: "Note values",
    token: "NoteWord",
    rows: [
      ["semibreve", "1/1"],
      ["minim", "1/2"],
      ["quarter", "1/4"],
      ["crotchet", "1/4"],
      ["eighth", "1/8"],
      ["quaver", "1/8"],
      ["sixteenth", "1/16"],
      ["semiquaver", "1/16"],
      ["thirty-second", "1/32"],
      ["demisemiquaver", "1/32"],
      ["halves", "1/2"],
      ["minims", "1/2"],
      ["quarters", "1/4"],
      ["crotchets", "1/4"],
      ["eighths", "1/8"],
      ["quavers", "1/8"],
      ["sixteenths", "1/16"],
      ["semiquavers", "1/16"],
      ["thirty-seconds", "1/32"],
      ["demisemiquavers", "1/32"],
    ],
  },
  {
    title: "Whole notes and dots",
    token: undefined,
    rows: [
      ["whole", "1/1"],
      ["dotted", "before a note value: half as long again"],
    ],
  },
  {
    title: "Weekdays",
    token: "Weekday",
    rows: [
      ["Mon", "Monday"],
      ["Tue", "Tuesday"],
      ["Wed", "Wednesday"],
      ["Thu", "Thursday"],
      ["Fri", "Friday"],
      ["Sat", "Saturday"],
      ["Sun", "Sunday"],
      ["Monday", "Mon"],
      ["Tuesday", "Tue"],
      ["Wednesday", "Wed"],
      ["Thursday", "Thu"],
      ["Friday", "Fri"],
      ["Saturday", "Sat"],
      ["Sunday", "Sun"],
    ],
  },
  {
    title: "Counts",
    token: "CountWord",
    rows: [
      ["one", "1"],
      ["two", "2"],
      ["three", "3"],
      ["four", "4"],
      ["five", "5"],
      ["six", "6"],
      ["seven", "7"],
      ["eight", "8"],
      ["nine", "9"],
      ["ten", "10"],
      ["eleven", "11"],
      ["twelve", "12"],
    ],
  },
] as const satisfies readonly WordGroup[];

type Group = (typeof WORD_GROUPS)[number];
type Split<S extends string> = S extends `${infer Head} ${infer Tail}` ? Head | Split<Tail> : S;
type Single<G> = G extends { readonly token: undefined; readonly rows: infer R }
  ? R extends readonly (readonly [infer P extends string, string])[]
    ? Split<P>
    : never
  : never;

/** A word that is a token of its own. */
export type Keyword = Single<Group>;

/** The words that begin a declaration at the margin. */
export const DECLARATION_WORDS = [
  "use",
  "studio",
  "area",
  "exercise",
  "routine",
  "level",
  "student",
  "term",
  "record",
] as const;

/** One word or phrase of the language. */
export interface WordEntry {
  readonly phrase: string;
  readonly meaning: string;
  readonly group: string;
}

/** The whole table, one entry a phrase. */
export const WORDS: readonly WordEntry[] = WORD_GROUPS.flatMap((group) =>
  group.rows.map(([phrase, meaning]) => ({ phrase, meaning, group: group.title })),
);

/** The section "Words at a glance" of the reference, as Markdown. */
export function wordsAtAGlance(): string {
  return WORD_GROUPS.map((group) => {
    // Words of one kind are read as a line; the others need a line each.
    if (group.token !== undefined) {
      const words = group.rows.map(([phrase, meaning]) => `\`${phrase}\` (${meaning})`);
      return `**${group.title}**: ${words.join(", ")}.\n`;
    }
    const rows = group.rows.map(([phrase, meaning]) => `- \`${phrase}\`: ${meaning}`);
    return `**${group.title}**\n\n${rows.join("\n")}\n`;
  }).join("\n");
}
