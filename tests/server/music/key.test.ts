import fc from "fast-check";
import { Note, Scale, Key as TonalKey } from "tonal";
import { describe, expect, it, test } from "vitest";
import { byOctaves, intervalBetween, transpose } from "../../../server/music/interval.js";
import {
  degreePitch,
  fifthsOf,
  isDegree,
  isMinor,
  type Key,
  keyName,
  keyOfFifths,
  keyShift,
  keyText,
  MODES,
  type Mode,
  parseMode,
  parseTonic,
  respelled,
  sameKey,
  signatureAlter,
  tonicAt,
  tonicClass,
  tonicPitch,
} from "../../../server/music/key.js";
import { midiOf, noteSign, pitchName } from "../../../server/music/pitch.js";
import { anyKey } from "./arbitrary.js";
import { FIXED } from "./fixed-seed.js";

function key(tonic: string, mode: Mode): Key {
  const read = parseTonic(tonic);
  if (read === undefined) throw new Error(`${tonic} is not a tonic`);
  return { ...read, mode };
}

/** The pitches of degrees 1–8, without octaves, as typed. */
function scaleNotes(of: Key): string[] {
  return [1, 2, 3, 4, 5, 6, 7, 8].map((degree) => pitchName(degreePitch(of, 4, degree, 0)).slice(0, -1));
}

const TONICS = ["C", "D", "E", "F", "G", "A", "B"].flatMap((letter) => [letter, `${letter}#`, `${letter}b`]);

/** What tonal calls each mode. */
const TONAL_MODES: readonly (readonly [Mode, string])[] = [
  ["major", "major"],
  ["natural minor", "aeolian"],
  ["harmonic minor", "harmonic minor"],
  ["melodic minor", "melodic minor"],
  ["dorian", "dorian"],
  ["phrygian", "phrygian"],
  ["lydian", "lydian"],
  ["mixolydian", "mixolydian"],
  ["locrian", "locrian"],
];

describe("reading a key", () => {
  test.each([
    ["C", 0, 0],
    ["F#", 3, 1],
    ["Bb", 6, -1],
    ["E♭", 2, -1],
    ["C♯", 0, 1],
  ])("tonic %s", (text, step, alter) => {
    expect(parseTonic(text)).toEqual({ step, alter });
  });

  test.each(["", "b", "c", "H", "C4", "C #", "Cmajor", "constructor"])("%j is no tonic", (text) => {
    expect(parseTonic(text)).toBeUndefined();
  });

  it("reads every mode by its own name, and minor as natural minor", () => {
    for (const mode of MODES) expect(parseMode(mode)).toBe(mode);
    expect(parseMode("minor")).toBe("natural minor");
    expect(parseMode("constructor")).toBeUndefined();
    expect(parseMode("")).toBeUndefined();
  });

  it("names keys for people and for typing", () => {
    expect(keyName(key("Bb", "major"))).toBe("B♭ major");
    expect(keyText(key("B♭", "major"))).toBe("Bb major");
    expect(keyName(key("F#", "natural minor"))).toBe("F♯ minor");
    expect(keyText(key("C#", "harmonic minor"))).toBe("C# harmonic minor");
  });

  it("reads back the key it types", () => {
    fc.assert(
      fc.property(anyKey, (k) => {
        const [tonic = "", ...mode] = keyText(k).split(" ");
        expect({ ...parseTonic(tonic), mode: parseMode(mode.join(" ")) }).toEqual(k);
      }),
      FIXED,
    );
  });
});

describe("signatures", () => {
  // Derived (facts, "keys"): tonic of n fifths: major "FCGDAEB"[(n+1) mod 7], minor "FCGDAEB"[(n+4) mod 7].
  it("names the tonic of n fifths as the derivation does", () => {
    const line = "FCGDAEB";
    for (let n = -7; n <= 7; n++) {
      const major = keyOfFifths(n, "major");
      const minor = keyOfFifths(n, "natural minor");
      expect(noteSign(tonicPitch(major, 4)).charAt(0)).toBe(line.charAt((n + 1 + 7) % 7));
      expect(noteSign(tonicPitch(minor, 4)).charAt(0)).toBe(line.charAt((n + 4 + 7) % 7));
      expect(fifthsOf(major)).toBe(n);
      expect(fifthsOf(minor)).toBe(n);
    }
  });

  it("agrees with tonal's major and minor keys", () => {
    for (const tonic of TONICS) {
      const major = TonalKey.majorKey(tonic);
      if (major.tonic !== "") expect(fifthsOf(key(tonic, "major")), tonic).toBe(major.alteration);
      const minor = TonalKey.minorKey(tonic);
      if (minor.tonic !== "") expect(fifthsOf(key(tonic, "natural minor")), tonic).toBe(minor.alteration);
    }
    expect(fifthsOf(key("Ab", "major"))).toBe(-4);
    expect(fifthsOf(key("F#", "harmonic minor"))).toBe(3);
    expect(fifthsOf(key("D", "dorian"))).toBe(0);
    expect(fifthsOf(key("F", "lydian"))).toBe(0);
    expect(fifthsOf(key("B", "locrian"))).toBe(0);
  });

  it("says what the signature does to a step", () => {
    expect([0, 1, 2, 3, 4, 5, 6].map((step) => signatureAlter(key("D", "major"), step))).toEqual([
      1, 0, 0, 1, 0, 0, 0,
    ]);
    expect([0, 1, 2, 3, 4, 5, 6].map((step) => signatureAlter(key("Eb", "major"), step))).toEqual([
      0, 0, -1, 0, 0, -1, -1,
    ]);
    expect([0, 1, 2, 3, 4, 5, 6].map((step) => signatureAlter(key("C", "harmonic minor"), step))).toEqual([
      0, 0, -1, 0, 0, -1, -1,
    ]);
  });

  it("counts as many accidentals as the signature has", () => {
    fc.assert(
      fc.property(anyKey, (k) => {
        const alters = [0, 1, 2, 3, 4, 5, 6].map((step) => signatureAlter(k, step));
        expect(alters.reduce((sum, alter) => sum + alter, 0)).toBe(fifthsOf(k));
      }),
      FIXED,
    );
  });

  // Derived (facts, "keys"): concert→written adds 2 fifths; beyond 7 subtract 12 (concert F♯ → written A♭, −4).
  it("writes concert keys for the B♭ trumpet", () => {
    const upWholeStep = (concert: Key) => respelled(keyOfFifths(fifthsOf(concert) + 2, concert.mode));
    expect(keyText(upWholeStep(key("F#", "major")))).toBe("Ab major");
    expect(fifthsOf(upWholeStep(key("F#", "major")))).toBe(-4);
    expect(keyText(upWholeStep(key("Bb", "major")))).toBe("C major");
    expect(keyText(upWholeStep(key("Eb", "major")))).toBe("F major");
    expect(keyText(upWholeStep(key("B", "major")))).toBe("C# major");
    expect(keyText(upWholeStep(key("G", "natural minor")))).toBe("A minor");
  });

  it("respells to at most seven accidentals, to the same sound, and leaves the rest alone", () => {
    fc.assert(
      fc.property(anyKey, (k) => {
        const written = respelled(k);
        expect(Math.abs(fifthsOf(written))).toBeLessThanOrEqual(7);
        expect(tonicClass(written)).toBe(tonicClass(k));
        expect(written.mode).toBe(k.mode);
        if (Math.abs(fifthsOf(k)) <= 7) expect(written).toBe(k);
      }),
      FIXED,
    );
  });
});

describe("scales", () => {
  test.each(TONAL_MODES)("%s agrees with tonal in every key", (mode, tonal) => {
    for (const tonic of TONICS) {
      const of = key(tonic, mode);
      if (!sameKey(respelled(of), of)) continue;
      expect(scaleNotes(of), `${tonic} ${mode}`).toEqual([...Scale.get(`${tonic} ${tonal}`).notes, tonic]);
    }
  });

  it("covers every mode of the language", () => {
    expect(TONAL_MODES.map(([mode]) => mode)).toEqual(MODES);
    expect(MODES.filter((mode) => isMinor(key("C", mode)))).toEqual([
      "natural minor",
      "harmonic minor",
      "melodic minor",
      "dorian",
      "phrygian",
      "locrian",
    ]);
  });

  it("brings the melodic minor down in its natural form", () => {
    const down = [8, 7, 6, 5].map((d) => pitchName(degreePitch(key("A", "melodic minor"), 4, d, 0, "down")));
    expect(down).toEqual(["A5", "G5", "F5", "E5"]);
    const up = [5, 6, 7, 8].map((d) => pitchName(degreePitch(key("A", "melodic minor"), 4, d, 0, "up")));
    expect(up).toEqual(["E5", "F#5", "G#5", "A5"]);
  });

  test.each([
    ["C", 4, 1, 0, "C4"],
    ["C", 4, 8, 0, "C5"],
    ["C", 4, 22, 0, "C7"],
    ["C", 4, 3, -1, "Eb4"],
    ["D", 4, 3, -1, "F4"],
    ["D", 4, 4, 1, "G#4"],
    ["C", 4, -7, 0, "B3"],
    ["C", 4, -5, 0, "G3"],
    ["C", 4, -1, 0, "C3"],
    ["C", 4, -14, 0, "B2"],
    ["C", 4, -8, 0, "C2"],
    ["Bb", 3, 2, 0, "C4"],
    ["Bb", 3, -7, 0, "A3"],
    ["Cb", 4, 1, 0, "Cb4"],
    ["B", 3, 7, 0, "A#4"],
    ["C#", 4, 3, 2, "G4"],
  ])("%s major from octave %i, degree %i altered %i, is %s", (tonic, octave, degree, alter, expected) => {
    expect(pitchName(degreePitch(key(tonic, "major"), octave, degree, alter))).toBe(expected);
  });

  test.each([0, 23, -15, 1.5, Number.NaN])("%d is no degree", (degree) => {
    expect(isDegree(degree)).toBe(false);
    expect(() => degreePitch(key("C", "major"), 4, degree, 0)).toThrow(RangeError);
  });

  const anyDegree = fc.integer({ min: -14, max: 22 }).filter((degree) => degree !== 0);

  it("keeps every degree within its key", () => {
    fc.assert(
      fc.property(anyKey, anyDegree, fc.integer({ min: 2, max: 6 }), (any, degree, octave) => {
        const k = respelled(any);
        const p = degreePitch(k, octave, degree, 0, "down");
        // A signature fixes every note of the scale but the raised seventh of the harmonic minor.
        const leading = k.mode === "harmonic minor" && Math.abs(degree) % 7 === 0;
        expect(p.alter).toBe(signatureAlter(k, p.step) + (leading ? 1 : 0));
        expect(p.step).toBe((k.step + ((Math.abs(degree) - 1) % 7)) % 7);
      }),
      FIXED,
    );
  });

  it("keeps degrees a whole number of octaves apart alike", () => {
    fc.assert(
      fc.property(anyKey, fc.integer({ min: 1, max: 7 }), (any, degree) => {
        const k = respelled(any);
        const middle = midiOf(degreePitch(k, 4, degree, 0));
        const others = [degree + 7, degree + 14, -degree, -degree - 7].map((d) =>
          midiOf(degreePitch(k, 4, d, 0)),
        );
        expect(others.map((midi) => midi - middle)).toEqual([12, 24, -12, -24]);
      }),
      FIXED,
    );
  });

  it("transposes a degree to the same degree of the other key", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -5, max: 6 }),
        fc.integer({ min: -5, max: 6 }),
        fc.constantFrom(...MODES),
        anyDegree,
        (one, other, mode, degree) => {
          const from = keyOfFifths(one, mode);
          const to = keyOfFifths(other, mode);
          const moved = transpose(degreePitch(from, 4, degree, 0), keyShift(from, to));
          const tonic = transpose(tonicPitch(from, 4), keyShift(from, to));
          expect(moved).toEqual(degreePitch(to, tonic.octave, degree, 0));
        },
      ),
      FIXED,
    );
  });
});

describe("from key to key", () => {
  test.each([
    ["C", "F", 3, 5],
    ["C", "B", 6, 11],
    ["C", "Bb", 6, 10],
    ["F", "C", 4, 7],
    ["C", "Db", 1, 1],
    ["C", "C#", 0, 1],
    ["C", "Cb", 7, 11],
    ["C", "B#", -1, 0],
    ["B", "C", 1, 1],
    ["F#", "Gb", 1, 0],
  ])("%s up to %s", (from, to, steps, semitones) => {
    expect(keyShift(key(from, "major"), key(to, "major"))).toEqual({ steps, semitones });
  });

  it("always lands on the other tonic, less than an octave up", () => {
    fc.assert(
      fc.property(anyKey, anyKey, (from, to) => {
        const by = keyShift(from, to);
        expect(by.semitones).toBeGreaterThanOrEqual(0);
        expect(by.semitones).toBeLessThan(12);
        const landed = transpose(tonicPitch(from, 4), by);
        expect([landed.step, landed.alter]).toEqual([to.step, to.alter]);
        const lower = transpose(tonicPitch(from, 4), byOctaves(by, -1));
        expect(intervalBetween(lower, landed)).toEqual({ steps: 7, semitones: 12 });
      }),
      FIXED,
    );
  });

  // Common practice, no source: the names keys go by.
  test.each([
    ["C", "major", "C Db D Eb E F F# G Ab A Bb B"],
    ["A", "natural minor", "A Bb B C C# D Eb E F F# G G#"],
    ["A", "harmonic minor", "A Bb B C C# D Eb E F F# G G#"],
    ["D", "dorian", "D Eb E F F# G Ab A Bb B C C#"],
    ["G", "mixolydian", "G Ab A Bb B C C# D Eb E F F#"],
  ] as const)("%s %s by half steps", (tonic, mode, names) => {
    const home = key(tonic, mode);
    const walked = names.split(" ").map((_, at) => keyText(tonicAt(home, at)).split(" ")[0]);
    expect(walked.join(" ")).toBe(names);
    const downwards = names.split(" ").map((_, at) => keyText(tonicAt(home, at - 12)).split(" ")[0]);
    expect(downwards.join(" ")).toBe(names);
  });

  it("returns home under home's own name", () => {
    const home = key("Gb", "major");
    expect(tonicAt(home, 0)).toBe(home);
    expect(tonicAt(home, 12)).toBe(home);
    expect(tonicAt(home, -12)).toBe(home);
  });

  it("sounds where it should, with at most six accidentals", () => {
    fc.assert(
      fc.property(anyKey, fc.integer({ min: -40, max: 40 }), (home, semitones) => {
        const reached = tonicAt(home, semitones);
        expect(tonicClass(reached)).toBe((((tonicClass(home) + semitones) % 12) + 12) % 12);
        if (semitones % 12 !== 0) expect(Math.abs(fifthsOf(reached))).toBeLessThanOrEqual(6);
      }),
      FIXED,
    );
  });

  it("counts tonics as tonal's chroma", () => {
    for (const tonic of TONICS) expect(tonicClass(key(tonic, "major"))).toBe(Note.get(tonic).chroma);
  });
});
