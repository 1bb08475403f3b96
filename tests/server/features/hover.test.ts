import { describe, expect, it } from "vitest";
import { hoverAt } from "../../../server/features/hover";
import { drawnPlan, textIn } from "./write-fixture";
import { BOOK, PLAYERS, studio, studioWith } from "./writing-studio";

function hovered(picture: string, markdown = false, lineEnd = "\n") {
  const { checked, path, file, position } = drawnPlan(picture, lineEnd);
  const hover = hoverAt(checked, path, position, { markdown });
  const contents = hover?.contents;
  const text = typeof contents === "object" && "value" in contents ? contents.value : undefined;
  return {
    text,
    lines: text?.split("\n") ?? [],
    over: hover?.range === undefined ? "" : textIn(file, hover.range),
    contents,
  };
}

const inBook = (from: string, to: string): string =>
  studio('"Slow fifths"  once').replace(BOOK, BOOK.replace(from, to));
const inPlayers = (from: string, to: string): string =>
  studio('"Slow fifths"  once').replace(PLAYERS, PLAYERS.replace(from, to));

describe("words", () => {
  it("tells what a word of the language means", () => {
    const { lines, over } = hovered(inBook("  rest      equal", "  re‸st      equal"));
    expect(lines).toEqual(["rest", "a rest: after each time through, in a session, or inside music"]);
    expect(over).toBe("rest");
  });

  it("takes the words of a phrase together", () => {
    const { lines, over } = hovered(inPlayers("upper from", "up‸per from"));
    expect(lines).toEqual(["upper from", "the lowest note of the upper register"]);
    expect(over).toBe("upper from");
  });

  it("tells what a finding is about where its code is written", () => {
    const { lines, over } = hovered(studio('let day-up‸per stand because "so"'));
    expect(lines[0]).toBe("day-upper: a day too much in the upper register");
    expect(over).toBe("day-upper");
  });

  it("has nothing to tell of blank lines, comments and files that are not there", () => {
    expect(hovered("‸\n").text).toBeUndefined();
    expect(hovered("# re‸st\n").text).toBeUndefined();
    const { checked } = drawnPlan("# rest");
    expect(
      hoverAt(checked, "elsewhere.practice", { line: 0, character: 0 }, { markdown: true }),
    ).toBeUndefined();
  });
});

describe("an exercise", () => {
  it("tells its area and key, its range, how long it lasts as a sum, and its aim", () => {
    const { lines, over } = hovered(inBook('exercise "Slow fifths"', 'exercise "Slow ‸fifths"'));
    expect(over).toBe('"Slow fifths"');
    expect(lines).toEqual([
      "Slow fifths",
      "Long tones, C major",
      "C4 (low C) to C5 (third-space C), written",
      "0:04 once through at half = 60: 4 half notes × 60 ÷ 60",
      "then as long a rest as was played",
      "upper 0:00, from F5 up, for Seniors",
      "aim: the same ring on both",
    ]);
  });

  it("is drawn in Markdown where the editor shows it, with the teacher's own signs as they are", () => {
    const picture = inBook('"the same ring on both"', '"*ring* <both>"').replace(
      'Slow fifths" {',
      'Slow ‸fifths" {',
    );
    const { text } = hovered(picture, true);
    expect(text).toContain("**Slow fifths**  \n");
    expect(text).toContain("aim: \\*ring\\* \\<both\\>");
    expect(hovered('area "Flo‸w" {\n  aim "x"\n}\n'.replace("Flo‸w", "1. Flo‸w"), true).text).toMatch(
      /^\*\*1\\\. Flow/,
    );
  });
});

describe("an assignment", () => {
  it("tells the days it falls on, what they ask and the sum, and then of its exercise", () => {
    const { lines, over } = hovered(studio('"Slow fif‸ths"  keys C, G  tempo 60 to 66  twice'));
    expect(over).toBe('"Slow fifths"');
    expect(lines.slice(0, 4)).toEqual([
      "“Slow fifths” in “Morning”",
      "on 14 days, Mon 2026-09-07 to Fri 2026-09-25",
      "Mon 2026-09-07: C major at 60, 0:16, up to C5 (third-space C)",
      "Tue 2026-09-08: G major at 60, 0:16, up to G4 (second-line G)",
    ]);
    expect(lines).toContain("first day: 2 × (4 s playing + 4 s rest after it) = 0:16");
    expect(lines).toContain("Long tones, C major");
  });

  it("tells days in a row that ask the very same in one line", () => {
    const growing = hovered(studio('"Slow fif‸ths"  in C  tempo 60 to 62  twice')).lines.slice(1, 5);
    expect(growing).toEqual([
      "on 14 days, Mon 2026-09-07 to Fri 2026-09-25",
      "Mon 2026-09-07 to Fri 2026-09-11, 5 days: C major at 60, 0:16, up to C5 (third-space C)",
      "Mon 2026-09-14 to Fri 2026-09-18, 4 days: C major at 61, 0:16, up to C5 (third-space C)",
      "Mon 2026-09-21 to Fri 2026-09-25, 5 days: C major at 62, 0:15, up to C5 (third-space C)",
    ]);
    const { lines } = hovered(studio('"Slow fif‸ths"  in C  twice'));
    expect(lines[2]).toBe("each day: C major at 60, 0:16, up to C5 (third-space C)");
  });

  it("tells the meaning a word has there", () => {
    const { lines, over } = hovered(studio('"Slow fifths"  f‸or 1 min'));
    expect(over).toBe("for");
    expect(lines.slice(0, 2)).toEqual(["for", "for how many minutes"]);
    expect(lines.join("\n")).toContain("first day: 7 × (4 s playing + 4 s rest after it) = 0:56");
  });

  it("tells what a key makes of it", () => {
    const { lines, over } = hovered(studio('"Étude in thirds"  in B‸b  once'));
    expect(over).toBe("Bb");
    expect(lines).toEqual([
      "B♭ major",
      "2 flats",
      "“Étude in thirds” goes from B♭4 (third-line B♭) to C6 (high C)",
      "too far for K. M.",
    ]);
  });

  it("tells how quick a tempo is", () => {
    const { lines } = hovered(studio('"Étude in thirds"  tempo 8‸0 to 90  once'));
    expect(lines).toEqual([
      "quarter = 80 to 90",
      "its sixteenths pass at 5.3 to 6.0 a second",
      "growing from the first taught week of the block to the last",
      "written at 80",
    ]);
  });

  it("says which player's exercise stands in for it", () => {
    const picture = studioWith(
      '  week 1 {\n    Mon "Morning" {\n      "Slow ‸fifths"  once\n    }\n  }\n  change "K. M." {\n    leave out "Slow fifths"\n  }',
    );
    expect(hovered(picture).lines[1]).toBe("on Mon 2026-09-07");
  });
});

describe("sessions, weeks and terms", () => {
  it("sums a session up", () => {
    const { lines, over } = hovered(
      studio('"Slow fifths"  twice', '"Gates"  once').replace('"Morning"', '"Mor‸ning"'),
    );
    expect(over).toBe('Mon to Fri "Morning" 30 min');
    expect(lines).toEqual([
      "Morning",
      "on 14 days, first Mon 2026-09-07:",
      "0:16 “Slow fifths” in C major",
      "0:10 “Gates” on open valves",
      "together 0:24 of 30:00: playing 0:16",
    ]);
  });

  it("tells of the session behind the name of a day", () => {
    const { lines, over } = hovered(studio('"Slow fifths"  twice').replace('Mon to Fri "', 'M‸on to Fri "'));
    expect(over).toBe("Mon");
    expect(lines.slice(0, 2)).toEqual(["Mon", "Monday"]);
    expect(lines).toContain("0:16 “Slow fifths” in C major");
  });

  it("tells what each week of a block holds, and what it may hold", () => {
    const { lines, over } = hovered(
      studio('"Étude in thirds"  20 times').replace("weeks 1 to 3", "wee‸ks 1 to 3"),
    );
    expect(over).toBe("weeks 1 to 3");
    // Once through at quarter = 80 is 6 s, of which six sixteenths and the last bar, 4.125 s, lie at F5 or above.
    expect(lines).toEqual([
      "Seniors",
      "week 1: playing 10 of 140 min, upper 7 of 5 min, 5 days",
      "week 2: playing 8 of 112 min, upper 6 of 4 min, 4 days",
      "week 3: playing 10 of 140 min, upper 7 of 5 min, 5 days",
    ]);
  });

  it("tells what a whole term asks", () => {
    const { lines } = hovered(studio('"Slow fifths"  twice').replace('term "Autumn"', 'term "Aut‸umn"'));
    expect(lines.slice(0, 3)).toEqual([
      "Autumn",
      "3 taught weeks, Mon 2026-09-07 to Sat 2026-09-26",
      "closed Wed 2026-09-16, fair",
    ]);
    expect(lines).toContain("fullest day Mon 2026-09-07: playing 0:08, upper 0:00");
  });
});

describe("players and notes", () => {
  it("tells what holds for a student and where each figure comes from", () => {
    const { lines } = hovered(inPlayers('student "K. M."', 'student "K. ‸M."'));
    expect(lines[0]).toBe("K. M.: student, like “Seniors”");
    expect(lines).toContain("limit F♯3 to B♭5");
    expect(lines).toContain("range G3 to A5 (as “Seniors”)");
    expect(lines).toContain("breath 10 s (from the stage: senior)");
    expect(lines).toContain("upper a day 1:00 (as “Seniors”)");
  });

  it("tells how a written note sounds and is fingered", () => {
    const { lines, over } = hovered(inBook("1/2 C4 G4", "1/2 C4 ‸G4"));
    expect(over).toBe("G4");
    // Sounding F4 of the equal temperament: 349.2 Hz; the third partial lies 2 cents high.
    expect(lines).toEqual([
      "G4: second-line G",
      "sounds F4 on the trumpet in B♭, 349.2 Hz",
      "partial 3, open, about 2 cents sharp",
      "also valves 13",
    ]);
  });

  it("tells what note a degree and a partial are", () => {
    expect(hovered(inBook("1/16 1 3 2", "1/16 1 ‸3 2")).lines[0]).toBe("B4: third-line B");
    expect(hovered(inBook("lip (2 3 4 3)", "lip (2 3 ‸4 3)")).lines[0]).toBe("C5: third-space C");
  });
});

describe("half-typed and foreign text", () => {
  it("still knows names in lines that cannot be read", () => {
    expect(hovered(studio('"Slow fif‸ths"  in C onc')).lines).toContain("Long tones, C major");
  });

  it("answers in files with Windows line ends", () => {
    const { over, lines } = hovered(studio('"Slow fif‸ths"  twice'), false, "\r\n");
    expect(over).toBe('"Slow fifths"');
    expect(lines[1]).toBe("on 14 days, Mon 2026-09-07 to Fri 2026-09-25");
  });
});
