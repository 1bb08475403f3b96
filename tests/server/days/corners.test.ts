import { describe, expect, test } from "vitest";
import { placementName } from "../../../server/days/placement";
import { midiOf } from "../../../server/music/pitch";
import { dayOf, fileOf, findingsOf, itemsOf, planOf, termOf } from "../plan-of";

/** Corners where two constructs meet; each was once read otherwise than the reference has it. */

const BOOK = `area "A"

exercise "Q" {
  in        "A"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/1 C5 | }
}

exercise "G" {
  in        "A"
  key       G major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/1 G4 | }
}

exercise "Third" {
  in        "A"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  degrees from C5 { 1/1 3 | }
}

level "L" {
  upper from E5
}
`;

function term(body: string, fields = ""): string {
  return `${BOOK}
term "T" for "L" {
  from      2027-02-01 to 2027-02-28
  practice  Mon to Fri
${fields}
  weeks 1 to 4 {
    Mon to Fri "M" {
      ${body}
    }
  }
}
`;
}

function names(text: string, dates: readonly string[]): readonly string[] {
  const days = termOf(planOf(text), "L");
  return dates.map((date) =>
    itemsOf(dayOf(days, date))
      .map(({ passes }) => placementName(passes[0]!.placement))
      .join(),
  );
}

const WEEK = ["2027-02-01", "2027-02-02", "2027-02-03", "2027-02-04", "2027-02-05"];

describe("borrowed music", () => {
  test("what is like a moved exercise is moved with it; a second move takes the place of the first", () => {
    const plan = planOf(`${BOOK}
exercise "Low" like "Q" {
  moved     down by fourth
}

exercise "Low, slower" like "Low" {
  tempo     1/4 = 50
}

exercise "Lower" like "Low" {
  moved     down by fifth
}
`);
    const first = (name: string): number => {
      const { content } = plan.exercises.get(name)!;
      if (content.kind !== "notes") throw new Error("not notes");
      const [event] = content.score.bars[0]!.events;
      return event?.kind === "note" && event.pitch !== undefined ? midiOf(event.pitch) : 0;
    };
    expect([first("Low"), first("Low, slower"), first("Lower")]).toEqual([67, 67, 65]);
  });

  test("findings point at the music where it is written", () => {
    const file = fileOf(`${BOOK}
exercise "Long" {
  in        "A"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/1 C5 | D5 | E5 | }
}

exercise "Longer" like "Long" {
  tempo     1/4 = 50
}

level "Short" {
  breath    5 s
}

term "T" for "Short" {
  from      2027-02-01 to 2027-02-07
  every week { Mon "M" { "Longer" } }
}
`);
    const finding = findingsOf(file.plan).find((each) => each.code === "phrase-breath")!;
    const phrase = file.at(finding.related.find((each) => each.message === "the phrase")!.place);
    expect(file.text.slice(phrase.start, phrase.end)).toBe("C5 | D5 | E5");
  });
});

describe("keys", () => {
  test("each key of a list is measured in its own mode", () => {
    const days = termOf(planOf(term('"Third"  keys C, C minor')), "L");
    // The third of C major is E5, in the upper register; that of C minor is E♭5, below it.
    expect(WEEK.slice(0, 4).map((date) => dayOf(days, date).totals.upper)).toEqual([4, 0, 4, 0]);
  });

  test("folded keys stay folded in later rounds", () => {
    const days = termOf(planOf(term('"Q"  keys C, G folded next round up by fifth')), "L");
    const shifts = days.days.flatMap((day) =>
      itemsOf(day).map((item) => item.passes[0]!.placement.semitones),
    );
    expect(Math.max(...shifts)).toBeLessThan(12);
    expect(Math.min(...shifts)).toBeGreaterThan(-12);
  });

  test("all keys of a series are played each day", () => {
    const text = term('"S"  all keys C, D, E  once').replace(
      'level "L"',
      `exercise "S" {
  in        "A"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/1 C5 | }
  series    3 cells down by half step
}

level "L"`,
    );
    // Three cells of 4 s in each of three keys.
    expect(dayOf(termOf(planOf(text), "L"), "2027-02-01").totals.playing).toBe(36);
  });

  test("minutes grow by whole minutes", () => {
    const days = termOf(planOf(term('"Q"  rest none  for 1 to 3 min')), "L");
    // 1, 5/3, 7/3 and 3 minutes are 1, 2, 2 and 3; a time through with its breath takes 6 s.
    const mondays = ["2027-02-01", "2027-02-08", "2027-02-15", "2027-02-22"];
    expect(mondays.map((date) => itemsOf(dayOf(days, date))[0]!.clock)).toEqual([60, 120, 120, 180]);
  });
});

describe("changes and the record", () => {
  test("two exercises can stand in for each other", () => {
    const text = term(
      '"Q"\n      "G"',
      '  change "L" {\n    replace "Q" with "G"\n    replace "G" with "Q"\n  }',
    );
    const days = termOf(planOf(text), "L");
    expect(itemsOf(dayOf(days, "2027-02-01")).map((item) => item.exercise.name)).toEqual(["G", "Q"]);
  });

  test("what stands in from another home key is played in the keys asked for", () => {
    const text = term('"Q"  keys C, D', '  change "L" {\n    replace "Q" with "G"\n  }');
    expect(names(text, WEEK.slice(0, 2))).toEqual(["C major", "D major"]);
  });

  test("a lesson that did not pass the exercise played holds its key, whatever the line names", () => {
    const fields = '  lesson every Tue\n  change "L" {\n    replace "Q" with "G"\n  }';
    const record = '\nrecord of "T" {\n  2027-02-02 "L" not passed "G"\n}\n';
    const asked = '"Q"  keys C, D when passed';
    expect(names(term(asked, fields), ["2027-02-01", "2027-02-03"])).toEqual(["C major", "D major"]);
    expect(names(term(asked, fields) + record, ["2027-02-01", "2027-02-03"])).toEqual(["C major", "C major"]);
  });
});

describe("bookings", () => {
  test("a concert every week is eased for", () => {
    const days = termOf(
      planOf(term('"Q"  4 times', '  concert every Fri "Club"\n  ease 2 days before concerts to half')),
      "L",
    );
    expect(WEEK.map((date) => itemsOf(dayOf(days, date))[0]!.passes[0]!.times)).toEqual([4, 4, 2, 2, 4]);
  });

  test("every day is every day of practice", () => {
    const days = termOf(planOf(term('"Q"', '  booked every day "Band" { clock 10 min  playing half }')), "L");
    expect(["2027-02-05", "2027-02-06"].map((date) => dayOf(days, date).bookings.length)).toEqual([1, 0]);
  });
});

describe("one time through", () => {
  function stretchOf(music: string): number {
    const text = term('"M"').replace(
      'level "L"',
      `exercise "M" {
  in        "A"
  key       C major
  meter     3/4
  tempo     1/4 = 60
  music     { ${music} }
}

level "L"`,
    );
    return dayOf(termOf(planOf(text), "L"), "2027-02-01").totals.stretch;
  }

  test("rests that follow each other let the horn come down together", () => {
    // Five bars of three seconds make 15 s; four make 12 s, and then the stretch runs on through them.
    expect(stretchOf("1/2. C5 | rest | rest | rest | rest | rest | C5 |")).toBe(3);
    expect(stretchOf("1/2. C5 | rest | rest | rest | rest | C5 |")).toBe(18);
  });

  test("a repeated degree of the melodic minor waits for where the line goes", () => {
    const { exercises } = planOf(`${BOOK}
exercise "Mel" {
  in        "A"
  key       A melodic minor
  meter     4/4
  tempo     1/4 = 60
  degrees from A4 { 1/4 7 tie 7 6 5 | 1/2 6 6 | 1/1 7 | }
}
`);
    const { content } = exercises.get("Mel")!;
    if (content.kind !== "notes") throw new Error("not notes");
    const pitches = content.score.bars.flatMap((bar) =>
      bar.events.map((event) =>
        event.kind === "note" && event.pitch !== undefined ? midiOf(event.pitch) : 0,
      ),
    );
    // G5 G5 F5 E5 going down; F♯5 F♯5 G♯5 going up.
    expect(pitches).toEqual([79, 79, 77, 76, 78, 78, 80]);
  });

  test("a note no brass instrument has is refused, and nothing is counted for it", () => {
    const { plan } = fileOf(BOOK.replace("1/1 C5 |", "1/1 C9 |"));
    expect(findingsOf(plan).map((each) => each.code)).toContain("impossible-pitch");
  });
});

describe("pick-ups", () => {
  const bars = (music: string, meter = "3/4"): readonly string[] =>
    findingsOf(
      fileOf(`area "A"

exercise "Tune" {
  in        "A"
  key       G major
  meter     ${meter}
  tempo     1/4 = 90
  music     { ${music} }
}
`).plan,
    )
      .filter((each) => each.code === "bar-length")
      .map((each) => each.message.split(" where ")[0]!);

  test("two repeated parts, each with its own, as in many a traditional tune", () => {
    const part = "repeat [ pickup 1/4 D4 | 1/4 G4 A4 B4 | 1/2 G4 ]";
    expect(bars(`${part} ${part}`)).toEqual([]);
    expect(bars(`${part} repeat [ pickup 1/4 D4 | 1/4 G4 A4 B4 | 1/2. G4 ]`)).toEqual(["Bar 4 holds 3/4"]);
  });

  test("a first ending leads back to it, a second one does not", () => {
    const begin = "repeat [ pickup 1/4 D4 | 1/4 G4 A4 B4 | ]";
    expect(bars(`${begin} ending 1 [ 1/2 G4 ] ending 2 [ 1/2. G4 | ] 1/4 G4 A4 B4 | 1/2 G4`)).toEqual([]);
    expect(bars(`${begin} ending 1 [ 1/2. G4 ] ending 2 [ 1/2. G4 | ] 1/4 G4 A4 B4 | 1/2 G4`)).toEqual([
      "Bar 2 holds 3/4",
    ]);
  });

  test("a part without one ends in a full bar, the piece's own leaves room at the very end", () => {
    expect(bars("repeat [ pickup 1/4 D4 | 1/2 G4 ] repeat [ 1/2. G4 | A4 ]")).toEqual([]);
    expect(bars("pickup 1/4 D4 | repeat [ 1/2. G4 | A4 ] 1/2. B4 | 1/2 G4")).toEqual([]);
  });

  test("one that is longer than a bar of another meter leaves no room to speak of", () => {
    expect(bars("pickup 1/2 D4 | 1/1 G4 | meter 2/4 1/2 A4", "4/4")).toEqual([]);
  });
});
