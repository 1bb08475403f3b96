import { describe, expect, it } from "vitest";
import { findingsOf, planOf } from "../plan-of";

/** A warning that nags is a defect: each of these plans looks a little like a mistake, and is none. */

const BOOK = `
area "Tone"
area "Songs"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 C4 G4 ' | }  rest equal }
exercise "Song" { in "Songs"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/2 E4 C4 ' | } }
exercise "Fast" { in "Tone"  key C major  meter 2/4  tempo 1/4 = 60  music { 1/16 C4 D4 E4 F4 1/4 G4 ' | } }
exercise "Held" { in "Tone"  key C major  meter free  tempo 1/4 = 60  music { 1/1 G4 tie | G4 tie | G4 tie | G4 held ' } }
`;

const LIMITS =
  "each day { clock at most 3 h  playing at most 2 h  stretch at most 3 h }  each week { increase at most 15 % }";

function codes(term: string, level = `stage senior  ${LIMITS}`): readonly string[] {
  const plan = planOf(`${BOOK}level "L" { ${level} }\nterm "T" for "L" {\n${term}\n}`);
  return findingsOf(plan).map((finding) => finding.code);
}

/** Every case once as it is, where nothing is said, and once changed so that the same finding comes. */
interface Case {
  readonly name: string;
  readonly code: string;
  readonly silent: string;
  readonly said: string;
  readonly level?: string;
  readonly saidLevel?: string;
}

const MINUTES = (week: number, minutes: number): string =>
  `week ${week} { Mon to Fri "S" { "A" for ${minutes} min } }`;
const WEEKS = "from 2026-09-07 to 2026-10-02\n practice Mon to Fri\n";

const CASES: readonly Case[] = [
  {
    name: "after a holiday there is nothing fair to compare with",
    code: "week-climbs",
    silent: `${WEEKS} closed 2026-09-14 to 2026-09-18\n ${MINUTES(1, 30)}\n ${MINUTES(2, 60)}`,
    said: `${WEEKS} ${MINUTES(1, 30)}\n ${MINUTES(2, 60)}`,
  },
  {
    name: "after a week with one closed day",
    code: "week-climbs",
    silent: `${WEEKS} closed 2026-09-09\n ${MINUTES(1, 30)}\n ${MINUTES(2, 60)}`,
    said: `${WEEKS} ${MINUTES(1, 30)}\n ${MINUTES(2, 60)}`,
  },
  {
    name: "after a light week",
    code: "week-climbs",
    silent: `${WEEKS} light 2026-09-07 to 2026-09-11\n ${MINUTES(1, 60)}\n ${MINUTES(2, 60)}`,
    said: `${WEEKS} ${MINUTES(1, 30)}\n ${MINUTES(2, 60)}`,
  },
  {
    name: "after a part week at the start of the term",
    code: "week-climbs",
    silent: `from 2026-09-09 to 2026-10-02\n practice Mon to Fri\n ${MINUTES(1, 40)}\n ${MINUTES(2, 40)}`,
    said: `${WEEKS} ${MINUTES(1, 20)}\n ${MINUTES(2, 40)}`,
  },
  {
    name: "in week 1, however much it holds",
    code: "week-climbs",
    silent: `${WEEKS} ${MINUTES(1, 90)}`,
    said: `${WEEKS} ${MINUTES(1, 60)}\n ${MINUTES(2, 90)}`,
  },
  {
    name: "under an hour of playing a week",
    code: "week-climbs",
    silent: `${WEEKS} ${MINUTES(1, 10)}\n ${MINUTES(2, 20)}`,
    said: `${WEEKS} ${MINUTES(1, 15)}\n ${MINUTES(2, 30)}`,
  },
  {
    name: "within what is allowed",
    code: "week-climbs",
    silent: `${WEEKS} ${MINUTES(1, 60)}\n ${MINUTES(2, 68)}`,
    said: `${WEEKS} ${MINUTES(1, 60)}\n ${MINUTES(2, 72)}`,
  },
  {
    name: "first years play too little for easing to matter",
    code: "no-concert-easing",
    silent: `${WEEKS} concert 2026-09-17 "C" { playing 5 min }\n every week { every day "S" { "A" 3 times } }`,
    said: `${WEEKS} concert 2026-09-17 "C" { playing 5 min }\n every week { every day "S" { "A" 3 times } }`,
    level: "stage first year",
    saidLevel: "stage years 2 to 3",
  },
  {
    name: "eased before a concert",
    code: "no-concert-easing",
    silent: `${WEEKS} concert 2026-09-17 "C" { playing 5 min }\n ease 2 days before concerts to half\n every week { every day "S" { "A" 4 times } }`,
    said: `${WEEKS} concert 2026-09-17 "C" { playing 5 min }\n every week { every day "S" { "A" 4 times } }`,
  },
  {
    name: "a concert on the first day has no days before it",
    code: "no-concert-easing",
    silent: `${WEEKS} concert 2026-09-07 "C" { playing 5 min }\n every week { every day "S" { "A" 4 times } }`,
    said: `${WEEKS} concert 2026-09-09 "C" { playing 5 min }\n every week { every day "S" { "A" 4 times } }`,
  },
  {
    name: "a tone held to the end of the breath",
    code: "phrase-breath",
    silent: `${WEEKS} every week { Mon "S" { "Held" } }`,
    said: `${WEEKS} every week { Mon "S" { "Held" tempo 1/4 = 60  "A" tempo 20 } }`,
  },
  {
    name: "the articulation changed, and the tempo with it",
    code: "tempo-jumps",
    silent: `${WEEKS} week 1 { Mon "S" { "Fast" tempo 60 } }\n week 2 { Mon "S" { "Fast" tempo 90 all slurred } }`,
    said: `${WEEKS} week 1 { Mon "S" { "Fast" tempo 60 } }\n week 2 { Mon "S" { "Fast" tempo 90 } }`,
  },
  {
    name: "a tempo that falls, or rises within a week",
    code: "tempo-jumps",
    silent: `${WEEKS} week 1 { Mon "S" { "A" tempo 60 }\n Tue "S" { "A" tempo 90 } }\n week 2 { Mon "S" { "A" tempo 50 } }`,
    said: `${WEEKS} week 1 { Mon "S" { "A" tempo 60 } }\n week 2 { Mon "S" { "A" tempo 90 } }`,
  },
  {
    name: "an area missing on short days",
    code: "area-untouched",
    silent: `${WEEKS} short every Tue\n short every Wed\n every week { Mon, Thu, Fri "S" { "A"  "Song" }\n Tue, Wed "S" { "A"  "Song"  short { "A" } } }`,
    said: `${WEEKS} every week { Mon "S" { "A"  "Song" }\n Tue, Wed, Thu, Fri "S" { "A" } }`,
  },
  {
    name: "an area missing on the day of a concert and while easing",
    code: "area-untouched",
    silent: `${WEEKS} concert 2026-09-11 "C"\n ease 2 days before concerts to half\n week 1 { Mon "S" { "Song" }\n Tue to Fri "S" { "A" } }\n weeks 2 to 4 { every day "S" { "A"  "Song" } }`,
    said: `${WEEKS} week 1 { Mon "S" { "Song" }\n Tue to Fri "S" { "A" } }\n weeks 2 to 4 { every day "S" { "A"  "Song" } }`,
  },
  {
    name: "an area that the term never touches is not for this level",
    code: "area-untouched",
    silent: `${WEEKS} every week { every day "S" { "A" } }`,
    said: `${WEEKS} week 1 { Mon "S" { "Song" } }\n weeks 2 to 4 { every day "S" { "A" } }`,
  },
  {
    name: "minutes that are not filled",
    code: "session-minutes",
    silent: `${WEEKS} every week { every day "S" 20 min { "A" } }`,
    said: `${WEEKS} every week { every day "S" 1 min { "A" 20 times } }`,
  },
  {
    name: "little rest in under ten minutes of playing",
    code: "too-little-rest",
    silent: `${WEEKS} every week { every day "S" { "A" 60 times rest none tempo 30 } }`,
    said: `${WEEKS} every week { every day "S" { "A" 100 times rest none tempo 30 } }`,
  },
  {
    name: "two sessions of one name on different days",
    code: "weeks-overlap",
    silent: `${WEEKS} every week { Mon "S" { "A" }\n Tue "S" { "A" } }`,
    said: `${WEEKS} every week { Mon "S" { "A" }\n Mon "S" { "A" } }`,
  },
  {
    name: "a walk of one round, and one whose next round is moved",
    code: "walk-restarts",
    silent: `from 2026-09-07 to 2026-09-11\n practice Mon to Fri\n every week { every day "S" { "A" keys C up by half step to E  "Song" keys C, F next round up by half step } }`,
    said: `from 2026-09-07 to 2026-09-11\n practice Mon to Fri\n every week { every day "S" { "A" keys C up by half step to E  "Song" keys C, F } }`,
  },
  {
    name: "six days of seven where nothing else is said",
    code: "no-day-off",
    silent: 'from 2026-09-07 to 2026-09-13\n practice Mon to Sat\n every week { every day "S" { "A" } }',
    said: 'from 2026-09-07 to 2026-09-13\n practice Mon to Sun\n every week { every day "S" { "A" } }',
  },
  {
    name: "a tempo beyond single tonguing, slurred",
    code: "tongue-speed",
    silent: `${WEEKS} every week { Mon "S" { "Fast" tempo 120 all slurred } }`,
    said: `${WEEKS} every week { Mon "S" { "Fast" tempo 120 all tongued } }`,
  },
];

describe("nothing is said", () => {
  it.each(CASES.map((each) => [`${each.code}: ${each.name}`, each] as const))("%s", (_, each) => {
    expect(codes(each.silent, each.level)).not.toContain(each.code);
    expect(codes(each.said, each.saidLevel ?? each.level)).toContain(each.code);
  });
});

describe("said once", () => {
  it("a finding of a whole term stands once, with its days and players", () => {
    const plan = planOf(`${BOOK}
level "L" { stage senior }
student "K. M." like "L" { }
student "J. T." like "L" { }
term "T" for "L" { ${WEEKS} every week { every day "S" { "A" tempo 20 } } }`);
    const findings = findingsOf(plan).filter((each) => each.code === "phrase-breath");
    expect(findings).toHaveLength(1);
    expect(findings[0]?.dates).toHaveLength(20);
    expect(findings[0]?.players).toEqual(["L", "K. M.", "J. T."]);
    expect(findings[0]?.message).toBe(
      "“A” asks for 12 s in one breath at 20; L has 10 s. The same on 19 more days, the last on 2026-10-02. Also for K. M. and J. T.",
    );
  });

  it("let stand keeps the finding as a note with its reason, that day alone where one is named", () => {
    const with_ = (line: string): readonly (string | undefined)[] =>
      findingsOf(
        planOf(`${BOOK}level "L" { stage senior }
term "T" for "L" { from 2026-09-07 to 2026-09-08\n every week { every day "S" { "A" tempo 20  "Song" }\n ${line} } }`),
      )
        .filter((each) => each.code === "phrase-breath")
        .map((each) => `${each.severity}: ${each.standing ?? "–"}`);
    expect(with_("")).toEqual(["warning: –"]);
    expect(with_('let phrase-breath stand because "slow on purpose"')).toEqual(["note: slow on purpose"]);
    expect(with_('let phrase-breath stand on 2026-09-08 because "slow on purpose"')).toEqual([
      "warning: –",
      "note: slow on purpose",
    ]);
  });

  it("the studio sets how serious a finding is, or turns it off", () => {
    const severity = (studio: string): readonly string[] =>
      findingsOf(
        planOf(`${studio}${BOOK}level "L" { stage senior }
term "T" for "L" { from 2026-09-07 to 2026-09-08\n every week { every day "S" { "A" tempo 20  "Song" } } }`),
      )
        .filter((each) => each.code === "phrase-breath")
        .map((each) => each.severity);
    expect(severity("")).toEqual(["warning"]);
    expect(severity("studio { finding phrase-breath error }")).toEqual(["error"]);
    expect(severity("studio { finding phrase-breath off }")).toEqual([]);
  });

  it("a concert day says what is left for practice", () => {
    const plan =
      planOf(`${BOOK}level "L" { stage senior  each day { playing at most 20 min  stretch at most 1 h } }
term "T" for "L" { ${WEEKS} concert 2026-09-17 "C" { clock 1 h  playing 15 min }\n every week { every day "S" { "A" 100 times } } }`);
    const [finding] = findingsOf(plan).filter((each) => each.code === "day-playing");
    expect(finding?.message).toBe(
      "Thu 2026-09-17: 21:40 of playing for L, of 20:00 at most. The concert leaves 5:00 for practice.",
    );
  });
});
