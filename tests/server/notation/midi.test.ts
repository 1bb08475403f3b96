import ToneMidi from "@tonejs/midi";
import { parseMidi } from "midi-file";
import { describe, expect, test } from "vitest";
import { fifthsOf } from "../../../server/music/key";
import { midiOf as writtenMidi } from "../../../server/music/pitch";
import { toNumber } from "../../../server/music/rhythm";
import { midiOf } from "../../../server/notation/midi";
import type { Sheet } from "../../../server/notation/sheet";
import { STARTING_SETTINGS } from "../../../server/plan/settings";
import { lasting, profileOf } from "../../../server/profile/profile";
import { asCsv, findMidicsv, secondsAt } from "./midicsv";
import { EXERCISES, everyPlacement, instrumentOf, sample, sheetOf, sheetOfMusic, TRUMPET } from "./samples";

const midicsv = await findMidicsv();
const withNotes = EXERCISES.filter((each) => each.content.kind === "notes");

/** The notes that sound, in order, as MIDI numbers: repeats played out, tied notes once. */
function sounding(sheet: Sheet): readonly number[] {
  return sheet.order
    .flatMap((index) => sheet.bars[index]?.events ?? [])
    .filter((event) => event.kind === "note" && !event.tied)
    .map((event) =>
      event.kind === "note" ? writtenMidi(event.pitch) + sheet.instrument.transposition.semitones : 0,
    );
}

/** Seconds of one time through, as the profile has it. */
function profileSeconds(exercise: (typeof EXERCISES)[number]): number {
  const profile = profileOf({ exercise, instrument: TRUMPET, settings: STARTING_SETTINGS });
  const { tempo } = exercise;
  if (tempo === undefined) throw new Error("no tempo");
  const whole = 60 / (tempo.bpm * toNumber(tempo.beat));
  return lasting(profile.playing, whole) + lasting(profile.resting, whole);
}

function file(music: string, fields = "") {
  const bytes = midiOf(sheetOfMusic(music, fields));
  return { bytes, events: parseMidi(bytes).tracks.flat(), tone: new ToneMidi.Midi(bytes) };
}

describe("every exercise of the sample book, in all its keys", () => {
  test.each(withNotes.map((each) => [each.name, each] as const))(
    "@tonejs/midi reads our pitches and tempo: %s",
    (_, exercise) => {
      for (const placement of everyPlacement(exercise)) {
        const sheet = sheetOf(exercise, { placements: [placement], cells: 1 });
        const read = new ToneMidi.Midi(midiOf(sheet));
        const notes = read.tracks.flatMap((track) => track.notes);
        expect(notes.map((note) => note.midi)).toEqual(sounding(sheet));
        expect(read.header.ppq).toBe(480);
        expect(read.tracks.at(-1)?.instrument.number).toBe(56);
        const { tempo } = sheet;
        const quarters = tempo.bpm * 4 * toNumber(tempo.beat);
        if (sheet.bars[0]?.freeSeconds === undefined)
          expect(read.header.tempos[0]?.bpm).toBeCloseTo(quarters, 3);
        // Notes follow each other: one player has one voice.
        for (const [index, note] of notes.entries()) {
          const next = notes[index + 1];
          if (next !== undefined) expect(note.ticks + note.durationTicks).toBeLessThanOrEqual(next.ticks);
        }
      }
    },
  );

  test("midicsv reads our pitches, tempi and total duration to a millisecond", () => {
    for (const exercise of withNotes) {
      for (const placement of everyPlacement(exercise)) {
        const sheet = sheetOf(exercise, { placements: [placement], cells: 1 });
        const rows = asCsv(midicsv, midiOf(sheet));
        const notes = rows.filter((row) => row.kind === "Note_on_c" && Number(row.rest[2]) > 0);
        expect(notes.map((row) => Number(row.rest[1]))).toEqual(sounding(sheet));
        const ends = rows.filter((row) => row.kind === "End_track").map((row) => row.tick);
        expect(new Set(ends).size).toBe(1);
        const total = secondsAt(rows, ends[0] ?? 0, 480);
        expect(Math.abs(total - profileSeconds(exercise))).toBeLessThan(0.001);
      }
    }
  });

  test("our own file, read without any library, lasts what the profile says", () => {
    for (const exercise of withNotes) {
      const [home] = everyPlacement(exercise);
      const sheet = sheetOf(exercise, { ...(home === undefined ? {} : { placements: [home] }), cells: 1 });
      expect(Math.abs(lengthOf(midiOf(sheet)) - profileSeconds(exercise))).toBeLessThan(0.001);
    }
  });
});

/** Seconds of a file of two tracks by the specification alone: chunks, variable lengths, running status, tempi. */
function lengthOf(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const ticksPerQuarter = view.getUint16(12);
  let at = 14;
  const tempi: (readonly [tick: number, microseconds: number])[] = [];
  let longest = 0;
  while (at < bytes.length) {
    const end = at + 8 + view.getUint32(at + 4);
    at += 8;
    let tick = 0;
    let status = 0;
    const variable = (): number => {
      let value = 0;
      for (;;) {
        const byte = view.getUint8(at++);
        value = value * 128 + (byte & 0x7f);
        if (byte < 0x80) return value;
      }
    };
    while (at < end) {
      tick += variable();
      if (view.getUint8(at) >= 0x80) status = view.getUint8(at++);
      if (status === 0xff) {
        const type = view.getUint8(at++);
        const length = variable();
        if (type === 0x51) tempi.push([tick, view.getUint32(at - 1) & 0xffffff]);
        at += length;
      } else at += status >> 4 === 0xc || status >> 4 === 0xd ? 1 : 2;
    }
    longest = Math.max(longest, tick);
  }
  let seconds = 0;
  let from = 0;
  let quarter = 500_000;
  for (const [tick, microseconds] of [...tempi, [longest, 0] as const]) {
    seconds += ((tick - from) * quarter) / 1e6 / ticksPerQuarter;
    from = tick;
    quarter = microseconds;
  }
  return seconds;
}

describe("the specification", () => {
  // Standard MIDI Files 1.0 (RP-001), "Set Tempo": microseconds per quarter, 24 bits, high byte first.
  test.each([
    [120, [0x07, 0xa1, 0x20]],
    [60, [0x0f, 0x42, 0x40]],
    [72, [0x0c, 0xb7, 0x35]],
    [96, [0x09, 0x89, 0x68]],
    [132, [0x06, 0xef, 0x91]],
    [144, [0x06, 0x5b, 0x9b]],
  ])("a tempo of %i", (bpm, bytes) => {
    const hex = Buffer.from(midiOf(sheetOfMusic("1/1 C4 |", `tempo 1/4 = ${bpm}`))).toString("hex");
    expect(hex).toContain(`ff5103${Buffer.from(bytes).toString("hex")}`);
  });

  // The same document's table of variable-length quantities.
  test.each([
    [0x00, "00"],
    [0x40, "40"],
    [0x7f, "7f"],
    [0x80, "8100"],
    [0x2000, "c000"],
    [0x3fff, "ff7f"],
    [0x4000, "818000"],
    [0x100000, "c08000"],
  ])("a length of %i ticks", (ticks, hex) => {
    // A rest of so many ticks before the only note: the note's delta time is the length.
    const sheet = sheetOfMusic("1/4 rest C4 1/2 D4 |");
    const [bar] = sheet.bars;
    if (bar === undefined) throw new Error("no bar");
    const value = { num: ticks, den: 4 * 480 };
    const events = bar.events.map((event, index) => (index === 0 ? { ...event, value } : event));
    const bytes = Buffer.from(midiOf({ ...sheet, bars: [{ ...bar, events }] })).toString("hex");
    // Program change to 56 counted from 0, then the delta time, then note 58 (written C4 on a B flat trumpet) on.
    expect(bytes).toContain(`00c038${hex}903a`);
  });

  test("the key that sounds, between seven flats and seven sharps", () => {
    const keyOf = (key: string) => {
      const bytes = midiOf(sheetOfMusic("1/1 C4 |", `key ${key}`));
      const event = parseMidi(bytes)
        .tracks.flat()
        .find((each) => each.type === "keySignature");
      return event?.type === "keySignature" ? [event.key, event.scale] : undefined;
    };
    // Written C on a B flat trumpet sounds B flat: two flats. FF 59 02 sf mi, sf −7…7 (same document).
    expect(keyOf("C major")).toEqual([-2, 0]);
    expect(keyOf("D minor")).toEqual([-3, 1]);
    // Written C flat, seven flats, would sound nine; B double flat is A, three sharps.
    expect(keyOf("Cb major")).toEqual([3, 0]);
    expect(keyOf("C# major")).toEqual([5, 0]);
  });

  test("every key of every instrument stays within seven", () => {
    for (const words of ["trumpet in Bb", "trumpet in D", "piccolo trumpet in A", "cornet in Eb"]) {
      for (const placement of everyPlacement(sample("Five steps"))) {
        const sheet = sheetOf(sample("Five steps"), {
          placements: [placement],
          instrument: instrumentOf(words),
        });
        const key = parseMidi(midiOf(sheet))
          .tracks.flat()
          .find((each) => each.type === "keySignature");
        if (key?.type !== "keySignature") throw new Error("no key");
        expect(Math.abs(key.key)).toBeLessThanOrEqual(7);
        const { steps, semitones } = instrumentOf(words).transposition;
        const written = sheet.bars[0]?.key;
        if (written === undefined) throw new Error("no written key");
        expect((key.key - fifthsOf(written) - 7 * semitones + 12 * steps) % 12).toBeCloseTo(0);
      }
    }
  });

  test("the meter, with the clicks of its beat", () => {
    const meterOf = (meter: string, music: string) =>
      file(music, `meter ${meter}`).events.find((event) => event.type === "timeSignature");
    expect(meterOf("6/8", "1/4. C4 D4 |")).toMatchObject({ numerator: 6, denominator: 8, metronome: 36 });
    expect(meterOf("3/4", "1/2. C4 |")).toMatchObject({ numerator: 3, denominator: 4, metronome: 24 });
  });
});

describe("in time", () => {
  test("repeats and endings are played out", () => {
    const { tone } = file("repeat [ 1/1 C4 | ] ending 1 [ D4 | ] ending 2 [ E4 | ]");
    expect(tone.tracks.at(-1)?.notes.map((note) => [note.midi, note.ticks])).toEqual([
      [58, 0],
      [60, 1920],
      [58, 3840],
      [62, 5760],
    ]);
  });

  test("articulation is length", () => {
    const { tone } = file("1/4 C4 D4 staccato E4 tenuto F4 marcato | 1/4 (G4 A4) 1/2 G4 ' |");
    expect(tone.tracks.at(-1)?.notes.map((note) => note.durationTicks)).toEqual([
      432, 240, 480, 360, 480, 432, 816,
    ]);
  });

  test("tied notes sound once", () => {
    const { tone } = file("1/1 C4 tie | 1/2 C4 D4 |");
    expect(tone.tracks.at(-1)?.notes.map((note) => note.ticks)).toEqual([0, 2880]);
  });

  test("a fermata is held, a free bar lasts its seconds, and the tempo comes back", () => {
    const { tone } = file("1/2 C4 D4 fermata | free 9 s 1/1 E4 | 1/1 F4 |");
    const notes = tone.tracks.at(-1)?.notes ?? [];
    // At 60: two seconds, four held, nine as said.
    expect(notes.map((note) => Math.round(note.time * 1000))).toEqual([0, 2000, 6000, 15000]);
    expect(tone.header.tempos.map(({ bpm }) => Math.round(bpm * 10) / 10)).toEqual([60, 30, 26.7, 60]);
  });

  test("a bar slower than a file can say is spread out, and lasts as long", () => {
    const bytes = midiOf(sheetOfMusic("free 10 min 1/4 C4 | free 20 s 1/1 D4 |"));
    expect(lengthOf(bytes)).toBeCloseTo(620, 3);
  });

  test("between the cells of a series is the rest", () => {
    const { tone, bytes } = file("1/1 G4 |", "series 3 cells down by half step\n  rest 7 s");
    const notes = tone.tracks.at(-1)?.notes ?? [];
    expect(notes.map((note) => Math.round(note.time * 1000))).toEqual([0, 11000, 22000]);
    expect(lengthOf(bytes)).toBeCloseTo(26, 3);
  });

  test("five in the time of four starts on whole ticks, without drift", () => {
    const { tone } = file("5:4 [ 1/16 C4 D4 E4 F4 G4 ] 7:4 [ 1/16 C4 D4 E4 F4 G4 A4 B4 ] 1/2 C5 |");
    const ticks = tone.tracks.at(-1)?.notes.map((note) => note.ticks);
    expect(ticks).toEqual([0, 96, 192, 288, 384, 480, 549, 617, 686, 754, 823, 891, 960]);
  });

  test("louder under a crescendo, louder for an accent", () => {
    const { tone } = file("p cresc 1/4 C4 D4 E4 F4 | f C4 accent C4 C4 C4 |");
    const loudness = tone.tracks.at(-1)?.notes.map((note) => Math.round(note.velocity * 127)) ?? [];
    expect(loudness.slice(0, 4)).toEqual([52, 63, 73, 84]);
    expect(loudness.slice(4)).toEqual([106, 94, 94, 94]);
  });

  test("a bend goes down and comes back before the note ends", () => {
    const { events } = file("1/1 G4 bend whole step |");
    const bends = events.filter((event) => event.type === "pitchBend").map((event) => event.value);
    // Of a wheel that reaches an octave, a whole step is a sixth.
    expect(Math.min(...bends)).toBe(-Math.round(8192 / 6));
    expect(bends.at(-1)).toBe(0);
  });

  test("a long name with letters of every kind is kept as UTF-8", () => {
    const { events } = file("1/1 C4 |");
    expect(events[0]).toMatchObject({ type: "trackName", text: "Test" });
    const bytes = Buffer.from(midiOf(sheetOf(sample("Frère Jacques"))));
    expect(bytes.includes(Buffer.from("Frère Jacques", "utf8"))).toBe(true);
  });
});
