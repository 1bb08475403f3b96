import { describe, expect, it } from "vitest";
import type { DayItem } from "../../../server/days/day";
import { findInstrument, type Instrument } from "../../../server/music/instrument";
import { midiOf, parsePitch } from "../../../server/music/pitch";
import { fingering } from "../../../server/music/valves";
import type { Exercise } from "../../../server/plan/exercise";
import {
  lasting,
  loadOf,
  type Profile,
  profileOf,
  tessitura,
  upperOf,
} from "../../../server/profile/profile";
import { longestPhrase } from "../../../server/rules/term/phrase-breath";
import { findingsOf, itemsOf, planOf, termOf } from "../plan-of";

const TRUMPET = findInstrument("trumpet in Bb") as Instrument;

function midi(text: string): number {
  const pitch = parsePitch(text);
  if (pitch === undefined) throw new Error(`no pitch ${text}`);
  return midiOf(pitch);
}

interface Measured {
  readonly exercise: Exercise;
  readonly profile: Profile;
  readonly wholeSeconds: number;
  /** Seconds. */
  readonly playing: number;
  readonly resting: number;
  /** Points. */
  readonly load: number;
}

/** One time through an exercise, measured at its own tempo. */
function measure(
  music: string,
  tempo = "1/4 = 60",
  lines = "key C major  meter free",
  studio = "",
): Measured {
  const plan = planOf(`${studio}
area "A"
exercise "X" { in "A"
  ${lines}
  tempo ${tempo}
  ${music.includes("{") ? music : `music { ${music} }`}
}`);
  const [exercise] = plan.exercises.values();
  if (exercise?.tempo === undefined) throw new Error("no exercise");
  expect(plan.troubles).toEqual([]);
  const profile = profileOf({ exercise, instrument: TRUMPET, settings: plan.settings });
  const { beat, bpm } = exercise.tempo;
  const wholeSeconds = 60 / ((bpm * beat.num) / beat.den);
  return {
    exercise,
    profile,
    wholeSeconds,
    playing: lasting(profile.playing, wholeSeconds),
    resting: lasting(profile.resting, wholeSeconds),
    load: loadOf(profile, plan.settings, 0, wholeSeconds),
  };
}

/** Seconds on the breath as at mf, of the phrases that may be the longest. */
function airs({ profile, wholeSeconds }: Measured): readonly number[] {
  return profile.phrases.map((phrase) => lasting(phrase.air, wholeSeconds));
}

describe("how long notes last", () => {
  // Arithmetic: (value ÷ counted value) × 60 ÷ tempo.
  it.each([
    ["1/4 C4", "1/4 = 60", 1],
    ["1/4 C4", "1/4 = 120", 0.5],
    ["1/1 C4", "1/2 = 50", 2.4],
    ["1/8 C4", "1/4. = 60", 1 / 3],
    ["1/2. C4", "1/4 = 90", 2],
    ["1/16 C4 C4 C4 C4", "1/4 = 72", 60 / 72],
    ["1/4.. C4", "1/4 = 60", 1.75],
  ])("%s at %s", (music, tempo, seconds) => expect(measure(music, tempo).playing).toBeCloseTo(seconds, 10));

  it("a fermata counts double, unless the studio says otherwise", () => {
    expect(measure("1/4 C4 fermata D4").playing).toBeCloseTo(3, 10);
    expect(
      measure("1/4 C4 fermata D4", "1/4 = 60", undefined, "studio { fermata 3 times }").playing,
    ).toBeCloseTo(4, 10);
  });

  it("tuplets share out the time they stand in", () => {
    expect(measure("triplet [ 1/8 C4 D4 E4 ]").playing).toBeCloseTo(1, 10);
    expect(measure("5:4 [ 1/16 C4 D4 E4 D4 C4 ]").playing).toBeCloseTo(1, 10);
  });

  it("rests are apart from playing", () => {
    const measured = measure("1/4 C4 rest C4 rest");
    expect([measured.playing, measured.resting]).toEqual([2, 2]);
  });

  it("a repeat is played twice, each time with its ending", () => {
    expect(measure("1/4 C4 | repeat [ D4 E4 ]").playing).toBeCloseTo(5, 10);
    // D E F, D E G A: 1 + 2 + 1 + 2 + 2 beats.
    expect(measure("1/4 C4 | repeat [ D4 E4 ] ending 1 [ F4 ] ending 2 [ G4 A4 ]").playing).toBeCloseTo(
      8,
      10,
    );
    expect(measure("repeat [ 1/4 C4 ] 1/4 D4 | repeat [ 1/4 E4 ]").playing).toBeCloseTo(5, 10);
  });

  it("a pick-up and the last bar make one", () => {
    expect(
      measure("pickup 1/4 C4 | 1/4 D4 E4 F4 | 1/2 G4", "1/4 = 60", "key C major  meter 3/4").playing,
    ).toBeCloseTo(6, 10);
  });

  it("a free bar lasts its seconds at any tempo, shared out by value", () => {
    expect(measure("free 12 s 1/1 C4", "1/4 = 40").playing).toBeCloseTo(12, 10);
    expect(measure("free 12 s 1/1 C4", "1/4 = 160").playing).toBeCloseTo(12, 10);
    const shared = measure("free 12 s 1/2 C4 1/4 rest | 1/4 C4");
    expect([shared.playing, shared.resting]).toEqual([9, 4]);
  });
});

describe("range and register", () => {
  it("finds the lowest and the highest note", () => {
    const { profile } = measure("1/4 C4 G5 F#3 D5");
    expect([profile.low, profile.high]).toEqual([midi("F#3"), midi("G5")]);
  });

  it("upper is the time at or above the line, the line included, and moves with the key", () => {
    const { profile, wholeSeconds } = measure("1/4 C5 D5 1/2 E5");
    const upper = (line: string, by: number): number => upperOf(profile, midi(line), by, wholeSeconds);
    expect([upper("C5", 0), upper("D5", 0), upper("E5", 0), upper("F5", 0)]).toEqual([4, 3, 2, 0]);
    expect([upper("F5", 1), upper("F5", 3), upper("F5", 5), upper("C5", -1)]).toEqual([2, 3, 4, 3]);
  });

  it("a bend counts as the lowest pitch it reaches", () => {
    const { profile } = measure("1/4 G4 bend half step C5 bend minor third");
    expect([profile.low, profile.high]).toEqual([midi("F#4"), midi("A4")]);
  });

  it("a printed page has what is declared of it, in proportion to the tempo", () => {
    const plan = planOf(
      'area "A"\nexercise "X" { in "A"\n printed "A Book" page 3\n range G3 to G5\n tempo 1/4 = 88\n lasts 2 min\n upper 10 s\n}',
    );
    const [exercise] = plan.exercises.values();
    const profile = profileOf({ exercise: exercise!, instrument: TRUMPET, settings: plan.settings });
    const at = (bpm: number): readonly number[] => [
      lasting(profile.playing, 240 / bpm),
      upperOf(profile, midi("C4"), 0, 240 / bpm),
    ];
    expect([profile.low, profile.high]).toEqual([midi("G3"), midi("G5")]);
    expect(at(88).map((seconds) => Math.round(seconds * 1e6) / 1e6)).toEqual([120, 10]);
    expect(at(44).map((seconds) => Math.round(seconds * 1e6) / 1e6)).toEqual([240, 20]);
  });

  it("tessitura is the tenth, half and nine tenths of the time", () => {
    // Ten beats: one on C4, eight on G4, one on C5.
    const { profile, wholeSeconds } = measure("1/4 C4 1/1 G4 G4 1/4 C5");
    expect(tessitura(profile, 0, wholeSeconds)).toEqual({
      low: midi("C4"),
      middle: midi("G4"),
      high: midi("G4"),
    });
    expect(tessitura(profile, 2, wholeSeconds)?.middle).toBe(midi("A4"));
    expect(tessitura(measure("1/4 rest").profile, 0, wholeSeconds)).toBeUndefined();
  });

  it("partials stand on the open tube and move by combination", () => {
    // Open slots of the B♭ trumpet as written: 2 C4, 3 G4, 4 C5, 5 E5, 6 G5, 8 C6 (university brass pages).
    const { profile } = measure("partials { 1/4 2 3 4 5 6 8 }", "1/4 = 60", "meter free");
    expect([profile.low, profile.high]).toEqual([midi("C4"), midi("C6")]);
  });

  it("a handbook's range is the trumpet's", () => {
    // Written F♯3–C6 (E6 exceptional): Instruments of the Modern Symphony Orchestra, p. 40.
    expect([midiOf(TRUMPET.lowest), midiOf(TRUMPET.highest), midiOf(TRUMPET.exceptional)]).toEqual([
      midi("F#3"),
      midi("C6"),
      midi("E6"),
    ]);
    // Standard chart, in every method since Arban 1864; read from an encyclopedia's picture page.
    for (const [note, valves] of [
      ["F#3", "123"],
      ["C4", "0"],
      ["D4", "13"],
      ["G4", "0"],
      ["A4", "12"],
      ["C#5", "12"],
      ["C6", "0"],
    ] as const) {
      expect(fingering(midi(note), TRUMPET)?.combination.name).toBe(valves);
    }
  });
});

describe("load", () => {
  it("one minute of written G4 at mf is one point", () => {
    // By definition: f₀ is the home note, written G4.
    expect(measure("1/1 G4", "1/1 = 10").load * 10).toBeCloseTo(1, 10);
  });

  it.each([
    // Pitch ratios of equal temperament: 2^(half steps ÷ 12).
    ["C4", "G4", 1.4983],
    ["C4", "C5", 2],
    ["C4", "C6", 4],
    ["F#3", "C6", 5.6569],
    ["C4", "C#4", 1.059463],
  ])("from %s to %s it grows with the frequency: %d", (low, high, ratio) => {
    expect(measure(`1/1 ${high}`).load / measure(`1/1 ${low}`).load).toBeCloseTo(ratio, 4);
  });

  it("carried an octave higher it doubles, and the exponent is the studio's", () => {
    const { exercise, wholeSeconds } = measure("1/4 C4 E4");
    const at = (studio: string): number => {
      const { settings } = planOf(studio);
      const profile = profileOf({ exercise, instrument: TRUMPET, settings });
      return loadOf(profile, settings, 12, wholeSeconds) / loadOf(profile, settings, 0, wholeSeconds);
    };
    expect(at("")).toBeCloseTo(2, 10);
    expect(at("studio { load exponent 2 }")).toBeCloseTo(4, 10);
    expect(at("studio { load exponent 0 }")).toBeCloseTo(1, 10);
  });

  it("doubles for 15 dB", () => {
    // Fletcher & Tarnopolsky 1999, J. Acoust. Soc. Am. 105(2):874–881, abstract: 15 dB per doubling of pressure.
    const at = (dynamic: string): number => measure(`${dynamic} 1/1 G4`).load / measure("mf 1/1 G4").load;
    // 5 dB a step: mf to f is a third of a doubling; p lies two steps below, fff three above.
    expect(at("f")).toBeCloseTo(2 ** (1 / 3), 10);
    expect(at("p")).toBeCloseTo(2 ** (-2 / 3), 10);
    expect(at("fff")).toBeCloseTo(2, 10);
    const wide = measure("f 1/1 G4", "1/4 = 60", undefined, "studio { dynamic step 6 dB }").load;
    // +6 dB 1.3195 (2^(ΔdB/15)).
    expect(wide / measure("1/1 G4").load).toBeCloseTo(1.3195, 4);
  });
});

describe("an exercise worked out by hand", () => {
  // Tempo 1/4 = 60: a quarter lasts 1 s. Bar 1: G4 G4 tongued, C5 for 2 s. Bar 2: f G5 for 2 s, then 2 s of rest.
  const measured = measure("1/4 G4 G4 1/2 C5 ' | f 1/2 G5 rest |", "1/4 = 60", "key C major  meter 4/4");
  const { profile, wholeSeconds } = measured;

  it("playing 6 s, rest 2 s", () => expect([measured.playing, measured.resting]).toEqual([6, 2]));

  it("upper from C5: 4 s, from F5: 2 s", () => {
    expect(upperOf(profile, midi("C5"), 0, wholeSeconds)).toBe(4);
    expect(upperOf(profile, midi("F5"), 0, wholeSeconds)).toBe(2);
  });

  it("load: 2 s at 1, 2 s at 2^(5/12), 2 s an octave up at f", () => {
    // (2·1 + 2·1.33484 + 2·2·1.25992) ÷ 60 = (2 + 2.66968 + 5.03968) ÷ 60 = 0.16182
    expect(measured.load).toBeCloseTo(0.16182, 5);
  });

  it("breath: 4 s before the breath asks for more than 2 s at f after it, which take 2 ÷ 0.7 s", () => {
    expect(airs(measured)).toEqual([4]);
    expect(airs(measure("f 1/2 G5"))[0]).toBeCloseTo(2 / 0.7, 10);
  });
});

describe("breath", () => {
  // How much longer soft breaths last is common practice, no source; studio settings 130 % and 70 %.
  it("soft tones last longer, loud ones shorter, by the studio's bands", () => {
    expect(airs(measure("p 1/1 C4"))[0]).toBeCloseTo(4 / 1.3, 10);
    expect(airs(measure("ppp 1/1 C4"))[0]).toBeCloseTo(4 / 1.3, 10);
    expect(airs(measure("mp 1/1 C4"))[0]).toBeCloseTo(4, 10);
    expect(airs(measure("f 1/1 C4"))[0]).toBeCloseTo(4 / 0.7, 10);
    expect(airs(measure("p 1/1 C4", "1/4 = 60", undefined, "studio { soft breath 200 % }"))[0]).toBeCloseTo(
      2,
      10,
    );
  });

  it("a phrase ends at a breath, at a rest long enough, and at the end; not at a bar line", () => {
    expect(airs(measure("1/4 C4 | D4 | E4 | F4"))).toEqual([4]);
    expect(airs(measure("1/4 C4 | D4 ' E4 | F4"))).toEqual([2]);
    expect(airs(measure("1/4 C4 1/8 rest 1/4 D4"))).toEqual([1]);
    // A sixteenth rest is too short to breathe in (common practice, no source), unless a breath is written.
    expect(airs(measure("1/4 C4 1/16 rest 1/4 D4"))).toEqual([2]);
    expect(airs(measure("1/4 C4 1/16 rest ' 1/4 D4"))).toEqual([1]);
  });

  it("a tone held to the end of the breath is not checked", () => {
    const measured = measure("1/1 C4 held ' 1/4 D4");
    expect(airs(measured)).toEqual([1]);
    expect(measured.profile.held).toBe(true);
    expect(measured.playing).toBe(5);
  });

  it("the phrase that asks most is the one that is named", () => {
    const { profile, wholeSeconds } = measure("1/1 C4 ' f 1/2. C4 ' p 1/1 C4");
    const worst = longestPhrase({ profile, wholeSeconds });
    expect(worst?.seconds).toBeCloseTo(3, 10);
    expect(worst?.air).toBeCloseTo(3 / 0.7, 10);
  });
});

describe("the tongue", () => {
  const perSecond = (measured: Measured, kind: "single" | "double" | "triple" = "single"): number =>
    measured.profile.tongue[kind] / measured.wholeSeconds;

  it.each([
    // Sixteenths per second are beats a minute × 4 ÷ 60.
    [60, 4],
    [96, 6.4],
    [120, 8],
    [132, 8.8],
    [144, 9.6],
  ])("sixteenths at %d are %d a second", (bpm, notes) => {
    expect(perSecond(measure("1/16 C4 C4 C4 C4", `1/4 = ${bpm}`))).toBeCloseTo(notes, 10);
  });

  it("slurred notes are not tongued, and fewer than four in a row are no run", () => {
    expect(perSecond(measure("1/16 (C4 D4 E4 F4) C4 C4 C4 1/4 rest C4"))).toBe(0);
    expect(perSecond(measure("1/16 C4 C4 rest C4 C4"))).toBe(0);
    expect(perSecond(measure("1/8 C4 C4 C4 C4 | 1/4 C4"))).toBeCloseTo(2, 10);
  });

  it("the fastest run counts, each kind of tonguing apart", () => {
    const measured = measure(
      "1/8 C4 C4 C4 C4 double 1/16 C4 C4 C4 C4 triple triplet [ 1/16 C4 C4 C4 C4 C4 C4 ]",
    );
    expect(perSecond(measured)).toBeCloseTo(2, 10);
    expect(perSecond(measured, "double")).toBeCloseTo(4, 10);
    expect(perSecond(measured, "triple")).toBeCloseTo(6, 10);
  });

  it("a tied note is not struck anew, and air and lip attacks are not the tongue's", () => {
    expect(perSecond(measure("1/16 C4 tie C4 tie C4 tie C4"))).toBe(0);
    expect(perSecond(measure("attack air 1/16 C4 C4 C4 C4"))).toBe(0);
  });

  it("another articulation is another tonguing", () => {
    const at = (articulation: string): number =>
      perSecond(
        measure(
          "1/16 (C4 D4 E4 F4) C4 D4 E4 F4",
          "1/4 = 60",
          `key C major\n meter free\n articulation ${articulation}`,
        ),
      );
    expect(at("all tongued")).toBeCloseTo(4, 10);
    expect(at("all slurred")).toBe(0);
    expect(at("slur 2 tongue 2")).toBe(0);
    expect(at("as written")).toBeCloseTo(4, 10);
  });
});

describe("stretch", () => {
  const BOOK = `
area "A"
exercise "X" { in "A"  key C major  meter free  tempo 1/4 = 60  music { 1/1 C4 } }
exercise "Long" { in "A"  key C major  meter free  tempo 1/4 = 60  music { 1/1 C4 | 1/1 rest rest rest rest | 1/4 C4 } }
exercise "Air" { in "A"  activity breathing  spares lips  lasts 20 s }
exercise "Buzz" { in "A"  activity mouthpiece  loads lips  lasts 10 s }
level "L" { stage college }`;
  const stretch = (work: string, studio = ""): number | undefined =>
    termOf(
      planOf(
        `${studio}${BOOK}\nterm "T" for "L" { from 2026-09-07 to 2026-09-07\n every week { Mon "S" { ${work} } } }`,
      ),
      "L",
    ).days[0]?.totals.stretch;

  // One time through is 4 s; the breath between is 2 s; 15 s bring the horn down.
  it.each([
    ['"X" once', 4],
    ['"X" twice', 10],
    ['"X" 3 times rest 14 s', 40],
    ['"X" 3 times rest 15 s', 4],
    ['"X" once\n rest 12 s\n "X" once', 22],
    // 2 s of breath and 13 s of rest are 15 s with the horn down.
    ['"X" once\n rest 13 s\n "X" once', 4],
    ['"X" once\n "Air"\n "X" twice', 10],
    // 4 s, four whole rests of 4 s, 1 s.
    ['"Long" once', 4],
    ['"Buzz"\n "X"', 16],
  ])("%s: %d s", (work, seconds) => expect(stretch(work)).toBeCloseTo(seconds, 10));

  it("how long the horn must be down is the studio's", () => {
    expect(stretch('"X" 3 times rest 14 s', "studio { horn down 14 s }")).toBeCloseTo(4, 10);
    expect(stretch('"X" 3 times rest 15 s', "studio { horn down 20 s }")).toBeCloseTo(42, 10);
  });
});

describe("totals add up from notes to the term", () => {
  const plan = planOf(`
area "A"
exercise "X" { in "A"  key C major  meter 4/4  tempo 1/4 = 66
  music { p 1/4 C4 (E4 G4) rest | f 1/8 C5 D5 E5 F5 1/4. G5 1/8 A5 fermata | triplet [ 1/4 C5 B4 A4 ] 1/2 G4 | } rest equal }
exercise "Y" like "X" { articulation all tongued  moved up by minor third  rest 20 s }
exercise "P" { in "A"  printed "Book" page 1  range G3 to A5  tempo 1/4 = 80  lasts 90 s  upper 20 s }
exercise "B" { in "A"  activity mouthpiece  loads lips  lasts 1 min }
level "L" { stage senior }
term "T" for "L" {
  from 2026-09-07 to 2026-10-09
  closed 2026-09-14 to 2026-09-16
  light 2026-09-17
  lesson every Tue { clock 30 min  playing half  upper 1 min }
  concert 2026-09-25 "C" { clock 1 h  playing 20 min  upper 2 min  load 30 points }
  ease 2 days before concerts to half
  every week {
    Mon to Sat "One" { "B"  "X" all keys C, G, Bb  2 to 4 times tempo 60 to 80  "Y" for 4 min }
    Mon, Thu "Two" { "P" tempo 70 to 100 twice  rest 1 min  "X" in D once }
  }
}`);
  const term = termOf(plan, "L");
  const items = term.days.flatMap((day) => itemsOf(day));

  it("notes to item: every note of the score, one by one", () => {
    const notes = (item: DayItem): { playing: number; load: number; upper: number } => {
      const { content } = item.exercise;
      const sums = { playing: 0, load: 0, upper: 0 };
      if (content.kind !== "notes") throw new Error("no notes");
      for (const pass of item.passes) {
        for (const index of content.score.order) {
          for (const event of content.score.bars[index]!.events) {
            if (event.kind === "rest") continue;
            const fermata = event.marks.includes("fermata") ? 2 : 1;
            const seconds = (event.value.num / event.value.den) * fermata * item.wholeSeconds * pass.times;
            const pitch = midiOf(event.pitch!) + pass.placement.semitones;
            const decibels = event.dynamic === "p" ? -10 : event.dynamic === "f" ? 5 : 0;
            sums.playing += seconds;
            sums.load += (seconds / 60) * 2 ** ((pitch - midi("G4")) / 12) * 2 ** (decibels / 15);
            if (pitch >= midi("F5")) sums.upper += seconds;
          }
        }
      }
      return sums;
    };
    const played = items.filter((item) => item.exercise.content.kind === "notes");
    expect(played.length).toBeGreaterThan(40);
    for (const item of played) {
      const sums = notes(item);
      expect(item.playing).toBeCloseTo(sums.playing, 8);
      expect(item.load).toBeCloseTo(sums.load, 8);
      expect(item.upper).toBeCloseTo(sums.upper, 8);
    }
  });

  it("items to session, sessions and bookings to day", () => {
    for (const day of term.days) {
      for (const session of day.sessions) {
        for (const what of ["playing", "upper", "load"] as const) {
          expect(session[what]).toBeCloseTo(
            session.items.reduce((sum, item) => sum + item[what], 0),
            8,
          );
        }
        const rests = session.content.items.reduce(
          (sum, item) => sum + ("pause" in item ? item.pause : 0),
          0,
        );
        const clock = session.items.reduce((sum, item) => sum + item.clock, rests);
        expect(session.clock).toBeCloseTo(clock - (session.items.at(-1)?.restAfter ?? 0), 8);
        expect(session.playing).toBeLessThanOrEqual(session.clock + 1e-9);
        expect(session.stretch).toBeLessThanOrEqual(session.clock + 1e-9);
      }
      for (const what of ["playing", "upper", "load"] as const) {
        const practice = day.sessions.reduce((sum, session) => sum + session[what], 0);
        const booked = day.bookings.reduce((sum, booking) => sum + booking.asks[what], 0);
        expect(day.totals[what]).toBeCloseTo(practice + booked, 8);
      }
    }
  });

  it("a printed page in proportion to its tempo", () => {
    const printed = items.filter((item) => item.exercise.name === "P");
    expect(printed.length).toBeGreaterThan(4);
    for (const item of printed) {
      const times = item.passes.reduce((sum, pass) => sum + pass.times, 0);
      expect(item.playing).toBeCloseTo(((90 * 80) / item.bpm!) * times, 8);
      expect(item.upper).toBeCloseTo(((20 * 80) / item.bpm!) * times, 8);
    }
  });

  it("has been checked without a word of error", () => {
    expect(findingsOf(plan).filter((each) => each.severity === "error")).toEqual([]);
  });
});
