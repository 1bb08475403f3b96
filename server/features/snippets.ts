// biome-ignore-all lint/suspicious/noTemplateCurlyInString: the places of a form are written so by the protocol.
import type { BlockKind } from "../../grammar/statements";

/**
 * What may begin a line in each block, as a form to fill in. `${1:…}` are the places that are gone through in turn,
 * `$0` is where the cursor rests; an editor that cannot fill in forms is given the words alone.
 */
export interface Form {
  /** The words it begins with, which is also how it is called. */
  readonly words: string;
  readonly form: string;
}

const form = (words: string, rest: string): Form => ({ words, form: `${words}${rest}` });

const AIM = form("aim", ' "${1:what to listen for}"');
const GOAL = form("goal", ' "${1:from memory}" by week ${2:6}');
const LET = form("let", ' ${1:code} stand because "${2:the reason}"');
const TIMES = [
  form("clock", " at most ${1:45} min"),
  form("playing", " at most ${1:28} min"),
  form("upper", " at most ${1:5} min"),
  form("stretch", " at most ${1:4} min"),
];

export const FORMS: Readonly<Record<BlockKind, readonly Form[]>> = {
  file: [
    form(
      "exercise",
      ' "${1:Name}" {\n  in        "${2:Long tones}"\n  key       ${3:C} major\n  meter     4/4\n  tempo     1/4 = ${4:72}\n  music     { ${0:1/4 C4 D4 E4 F4 | 1/1 C4 |} }\n}',
    ),
    form("area", ' "${1:Long tones}"'),
    form(
      "term",
      ' "${1:Autumn}" for "${2:Seniors}" {\n  from      ${3:2026-09-07} to ${4:2026-12-11}\n  practice  Mon to Sat\n\n  weeks 1 to ${5:4} {\n    $0\n  }\n}',
    ),
    form(
      "level",
      ' "${1:Seniors}" {\n  instrument trumpet in Bb\n  stage     ${2|senior,first year,years 2 to 3,college|}\n  $0\n}',
    ),
    form("student", ' "${1:K. M.}" like "${2:Seniors}" {\n  $0\n}'),
    form("routine", ' "${1:Morning basics}" ${2:15} min {\n  $0\n}'),
    form("record of", ' "${1:Autumn}" {\n  $0\n}'),
    form("studio", ' "${1:Our studio}" {\n  $0\n}'),
    form("use", ' "${1:book.practice}"'),
  ],
  area: [form("at least every", " ${1:4} days"), AIM, LET],
  studio: [
    form("tuning", " ${1:440} Hz"),
    form("horn down", " ${1:15} s"),
    form("breath between", " ${1:2} s"),
    form("fermata", " ${1:2} times"),
    form("load exponent", " ${1:1}"),
    form("dynamic step", " ${1:5} dB"),
    form("soft breath", " ${1:130} %"),
    form("loud breath", " ${1:70} %"),
    form("untouched at most", " ${1:3} days"),
    form("tempo jump at most", " ${1:12} %"),
    form("rest at least", " ${1:25} %"),
    form("finding", " ${1:week-climbs} ${2|warning,note,error,off|}"),
    AIM,
    LET,
  ],
  exercise: [
    form("in", ' "${1:Long tones}"'),
    form("key", " ${1:C} ${2|major,minor,harmonic minor,melodic minor,dorian|}"),
    form("meter", " ${1|4/4,3/4,2/4,6/8,free|}"),
    form("tempo", " ${1|1/4,1/2,1/8|} = ${2:72}"),
    form("music", " { ${0:1/4 C4 D4 E4 F4 | 1/1 C4 |} }"),
    form("degrees from", " ${1:C4} { ${0:1/4 1 2 3 4 | 1/1 5 |} }"),
    form("partials", " { ${0:1/4 lip (2 3 4 3 | 2 3 4 3) | 1/1 2 |} }"),
    form("rest", " ${1|equal,none,20 s|}"),
    AIM,
    form("dynamic", " ${1|p,pp,mp,mf,f,ff|}"),
    form(
      "articulation",
      " ${1|all slurred,all tongued,all staccato,all tenuto,double tongued,triple tongued,slur 2 tongue 2|}",
    ),
    form("rhythm", " ${1:1/8. 1/16}"),
    form("ornament", " ${1|turn,trill,mordent|} on ${2:1/2}"),
    form("moved", " ${1|down,up|} by ${2|fourth,fifth,half step,whole step,minor third,major third|}"),
    form("series", " ${1:7} cells ${2|down,up|} by ${3|half step,whole step|}"),
    form("printed", ' "${1:title}" page ${2:12} bars ${3:1} to ${4:24}'),
    form("range", " ${1:G3} to ${2:G5}"),
    form("lasts", " ${1:2} min"),
    form("upper", " ${1:10} s"),
    form("activity", " ${1|breathing,mouthpiece,singing,listening,fingering|}"),
    form("loads lips", ""),
    form("spares lips", ""),
    LET,
  ],
  player: [
    form("instrument", " ${1:trumpet in Bb}"),
    form("stage", " ${1|senior,first year,years 2 to 3,college|}"),
    form("range", " ${1:G3} to ${2:A5}"),
    form("limit", " ${1:F#3} to ${2:C6}"),
    form("upper from", " ${1:F5}"),
    form("breath", " ${1:10} s"),
    form("tongue", " sixteenths at ${1:105}"),
    form("keys", " ${1:C, G, F}"),
    form(
      "each day",
      " {\n  clock at most ${1:45} min\n  playing at most ${2:28} min\n  upper at most ${3:5} min\n}",
    ),
    form("each week", " { increase at most ${1:15} % }"),
    AIM,
    LET,
  ],
  budget: [
    ...TIMES,
    form("load", " at most ${1:40} points"),
    form("increase", " at most ${1:15} %"),
    form("days", " at most ${1:6}"),
  ],
  term: [
    form("weeks", " ${1:1} to ${2:4} {\n  $0\n}"),
    form("week", " ${1:1} {\n  $0\n}"),
    form("every week", " {\n  $0\n}"),
    form("from", " ${1:2026-09-07} to ${2:2026-12-11}"),
    form("practice", " ${1:Mon to Sat}"),
    form("closed", ' ${1:2026-10-26} to ${2:2026-10-31} "${3:half-term}"'),
    form("light", ' ${1:2026-11-02} "${2:back to school}"'),
    form("no lesson", ' ${1:2026-11-10} "${2:teacher away}"'),
    form("lesson every", " ${1:Tue} { clock ${2:30} min  playing ${3:half} }"),
    form("booked every", ' ${1:Thu} "${2:Wind band}" { clock ${3:40} min  playing ${4:half} }'),
    form("concert", ' ${1:2026-11-20} "${2:Harbour concert}" { clock ${3:60} min  playing ${4:15} min }'),
    form("ease", " ${1:3} days before concerts to ${2:half}"),
    form("short every", " ${1:Wed}"),
    form("change", ' "${1:K. M.}" {\n  $0\n}'),
    GOAL,
    AIM,
    LET,
  ],
  asks: [
    form("clock", " ${1:40} min"),
    form("playing", " ${1:half}"),
    form("upper", " ${1:4} min"),
    form("stretch", " ${1:3} min"),
    form("load", " ${1:20} points"),
  ],
  weeks: [
    form("Mon to Fri", ' "${1:Morning}" ${2:15} min {\n  $0\n}'),
    form("every day", ' "${1:Morning}" ${2:15} min {\n  $0\n}'),
    form("on", ' ${1:2026-10-01} "${2:Morning}" ${3:15} min {\n  $0\n}'),
    AIM,
    LET,
  ],
  session: [form("rest", " ${1:1} min"), form("short", " ${1:5} min {\n  $0\n}"), AIM, GOAL, LET],
  assignment: [AIM, GOAL, LET],
  change: [
    form("replace", ' "${1:Slow fifths}" with "${2:Low slow fifths}"'),
    form("leave out", ' "${1:Slow fifths}"'),
    form("ill", " ${1:2026-10-05} to ${2:2026-10-07}"),
    form("back at half", " ${1:2026-10-08} to ${2:2026-10-10}"),
  ],
  record: [form("week", ' ${1:1} "${2:K. M.}" ${3:done}')],
};

/** A form as text, every place filled with what it proposes, the first of several. */
export function filledForm(form: string): string {
  return form
    .replace(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, "$1")
    .replace(/\$\{\d+:([^}]*)\}/g, "$1")
    .replace(/\$\d+/g, "");
}

/** Text that means itself in a form. */
export function formText(text: string): string {
  return text.replace(/[\\$}]/g, "\\$&");
}
