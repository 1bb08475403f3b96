import { describe, expect, test } from "vitest";
import { previewOf } from "../../../server/features/preview";
import { previewNotation } from "../../../server/features/preview-notation";
import { previewSound } from "../../../server/features/preview-sound";
import type {
  MusicAsk,
  NotationParams,
  PreviewView,
  SoundParams,
  SoundView,
} from "../../../server/protocol/requests";
import { type Opened, opened, PLACES } from "./opened";

const PATHS = { pathOf: (uri: string): string => uri.replace(/^plans:\//, "") };

const STUDIO = `--- book
area "Tones"
area "Work"

exercise "Fifths" {
  in "Tones"  key C major  meter 4/4  tempo 1/2 = 50
  aim "ring"
  music { 1/2 C4 (G4 | C5 G5) ' | 1/1 C4 | }
  rest equal
}

exercise "Rungs" {
  in "Tones"  meter 4/4  tempo 1/4 = 60
  partials { 1/2 lip (2 3) | 1/1 2 | }
}

exercise "Breathe" { in "Work"  activity breathing  spares lips  lasts 1 min }
--- plan
use "book"

level "Seniors" {
  instrument trumpet in Bb
  range G3 to D5
  limit F#3 to F5
  upper from C5
  each day { clock at most 3 min  playing at most 2 min  upper at most 1 min  stretch at most 4 min }
}
student "K. M." like "Seniors" { upper from F5 }

term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-09-20
  practice Mon to Fri
  booked 2026-09-09 "Band" { clock 20 min  playing 5 min }
  weeks 1 to 2 {
    Mon "First" 10 min {
      "Fifths"  keys C, D  tempo 60  twice
      "Breathe"  once
    }
    Tue "Second" 10 min { "Rungs"  all valves open, 1  once }
  }
}
`;

/** The studio with the cursor at a text of one of its files. */
function at(text: string, into = 1): Opened {
  const where = STUDIO.indexOf(text);
  if (where < 0) throw new Error(`the studio does not hold ${text}`);
  return opened(`${STUDIO.slice(0, where + into)}‸${STUDIO.slice(where + into)}`);
}

function viewAt(text: string, player?: string, into?: number): PreviewView {
  const { checked, path, position } = at(text, into);
  const view = previewOf(checked, path, { position, player }, PLACES);
  if (view === undefined) throw new Error(`nothing is shown of ${text}`);
  return view;
}

function musicOf(view: PreviewView, number = 0): MusicAsk {
  const music = view.items[number]?.music;
  if (music === undefined) throw new Error("no music");
  return music;
}

const LOOK: Omit<NotationParams, "music"> = { fingerings: false, width: 600 };

function notationAt(text: string, more: Partial<NotationParams> = {}, player?: string) {
  const { checked } = at(text);
  const music = musicOf(viewAt(text, player));
  const notation = previewNotation(checked, { ...LOOK, music, ...more }, PATHS, PLACES);
  if (notation === undefined) throw new Error(`no notation of ${text}`);
  return notation;
}

describe("what stands at the cursor", () => {
  test("a line of a session: the exercise as the line asks for it on its first day", () => {
    const view = viewAt('"Fifths"  keys');
    expect(view).toMatchObject({
      kind: "exercise",
      title: "Fifths",
      player: "Seniors",
      players: ["Seniors", "K. M."],
    });
    expect(view.under).toEqual(["Tones", "Mon 2026-09-07, “First”"]);
    // Six halves at 60, as long a rest, twice.
    expect(view.items[0]?.asked).toEqual(["C major", "half = 60", "twice", "rest 6 s", "0:24"]);
    expect(musicOf(view)).toMatchObject({ exercise: "Fifths", where: ["0/C major//"], bpm: 60, beat: "1/2" });
  });

  test("an exercise by itself: in its own key, for whom it suits", () => {
    const view = viewAt('exercise "Fifths"', undefined, 12);
    expect(view.items).toHaveLength(1);
    expect(view.items[0]).toMatchObject({ name: "Fifths", asked: ["half = 50"], aims: ["ring"] });
    expect(musicOf(view).where).toEqual([]);
    expect(view.players).toEqual(["Seniors", "K. M."]);
  });

  test("a session: everything in it, with what is done without notes", () => {
    const view = viewAt('Mon "First"');
    expect(view.kind).toBe("session");
    expect(view.items.map(({ name, without }) => [name, without])).toEqual([
      ["Fifths", ""],
      ["Breathe", "breathing, without notes"],
    ]);
    expect(view.figures?.rows.map(({ cells }) => cells[0])).toEqual([
      "Clock",
      "Playing",
      "Upper register",
      "Longest stretch",
    ]);
  });

  test("a booking, a block of weeks, the term as a whole", () => {
    expect(viewAt("2026-09-09")).toMatchObject({
      kind: "day",
      title: "Wed 2026-09-09",
      under: ["Autumn", "Band"],
    });
    const week = viewAt("weeks 1 to 2");
    expect(week).toMatchObject({ kind: "week", title: "Week 1" });
    expect(week.figures?.rows.map(({ cells }) => cells[0])).toEqual([
      "Mon 7 Sep",
      "Tue 8 Sep",
      "Wed 9 Sep",
      "The week",
    ]);
    expect(week).toMatchObject({ weeks: [1, 2], week: 1 });
    const { checked, path, position } = at("weeks 1 to 2");
    const second = previewOf(checked, path, { position, week: 2 }, PLACES);
    expect(second).toMatchObject({ title: "Week 2", week: 2 });
    expect(previewOf(checked, path, { position, week: 9 }, PLACES)?.week).toBe(1);
    const term = viewAt('term "Autumn"');
    expect(term.kind).toBe("term");
    expect(term.figures?.rows).toHaveLength(2);
  });

  test("nothing of a player or an area, so that what was shown stays", () => {
    for (const text of ['level "Seniors"', 'area "Work"']) {
      const { checked, path, position } = at(text);
      expect(previewOf(checked, path, { position }, PLACES)).toBeUndefined();
    }
  });

  test("for the player who is chosen, and the first where that one does not play it", () => {
    expect(viewAt('"Fifths"  keys', "K. M.").player).toBe("K. M.");
    expect(viewAt('"Fifths"  keys', "Nobody").player).toBe("Seniors");
  });
});

describe("half-written exercises", () => {
  const cut = (text: string) => {
    const { checked, path, position } = opened(text);
    const view = previewOf(checked, path, { position }, PLACES);
    if (view === undefined) throw new Error("nothing is shown");
    const music = view.items[0]?.music;
    const notation =
      music === undefined ? undefined : previewNotation(checked, { ...LOOK, music }, PATHS, PLACES);
    return { view, notation };
  };
  const notes = ({ notation }: ReturnType<typeof cut>): readonly string[] =>
    [...(notation?.drafts.values() ?? [])].flatMap((draft) =>
      draft.notes().map(({ words }) => words.split(",")[0] ?? ""),
    );

  test("show the notes that can be read, where they stand, and say what is wrong", () => {
    const shown = cut('exercise "A" {\n  music { 1/4 C4 X4‸ E4 | }\n}\n');
    expect(notes(shown)).toEqual(["low C (C4)", "first-line E (E4)"]);
    expect(shown.view.missing.map(({ text }) => text)).toEqual(["`X4` means nothing between notes."]);
    expect(shown.notation?.view.pictures[0]?.places.slice(0, 4)).toEqual([1, 14, 1, 16]);
  });

  test("say what a whole exercise still needs", () => {
    const shown = cut('exercise "A" {\n  key C major\n  meter 4/4\n  music { 1/1 C4‸ | }\n}\n');
    expect(notes(shown)).toEqual(["low C (C4)"]);
    expect(shown.view.missing.map(({ text }) => text).join()).toMatch(/an area/);
  });

  test("show nothing but that where there is nothing", () => {
    const { view } = cut('exercise "A‸" {\n}\n');
    expect(view).toMatchObject({ title: "A", items: [] });
    expect(view.missing.length).toBeGreaterThan(0);
  });

  test("never fail, wherever the text breaks off", () => {
    for (let end = 0; end <= STUDIO.length; end += 7) {
      const { checked, path, position } = opened(`${STUDIO.slice(0, end)}‸\n`);
      const view = previewOf(checked, path, { position }, PLACES);
      for (const { music } of view?.items ?? []) {
        if (music !== undefined) previewNotation(checked, { ...LOOK, music }, PATHS, PLACES);
      }
    }
  });
});

describe("notation for the page", () => {
  test("marks what is high, what is beyond, what nobody should ask, and breaths", () => {
    const { drafts, view } = notationAt('"Fifths"  keys');
    const marks = [...drafts.values()].flatMap((draft) => [...draft.marks]);
    // C5 is upper; G5 is upper, over the limit of F5, and a breath follows it.
    expect(marks.map(([, names]) => names.join(" "))).toEqual(["upper", "upper never breath"]);
    expect(view.legend.map(({ mark }) => mark)).toEqual(["upper", "never", "breath"]);
  });

  test("marks for the player it is shown for", () => {
    const { drafts } = notationAt('"Fifths"  keys', {}, "K. M.");
    const marks = [...drafts.values()].flatMap((draft) => [...draft.marks.values()]);
    expect(marks.map((names) => names.join(" "))).toEqual(["upper never breath"]);
  });

  test("marks an exercise of the book for the player who is chosen from those who use it", () => {
    const marksFor = (player: string): readonly string[] => {
      const { checked, path, position } = at('exercise "Fifths"', 12);
      const music = previewOf(checked, path, { position, player }, PLACES)?.items[0]?.music;
      const notation =
        music === undefined ? undefined : previewNotation(checked, { ...LOOK, music }, PATHS, PLACES);
      return [...(notation?.drafts.values() ?? [])].flatMap(({ marks }) => [...marks.values()].map(String));
    };
    expect(marksFor("Seniors")).toEqual(["upper", "upper,never,breath"]);
    expect(marksFor("K. M.")).toEqual(["upper,never,breath"]);
  });

  test("in the key that is chosen, and the combination", () => {
    const { view } = notationAt('"Fifths"  keys');
    const [g, f] = ["G major", "F major"].map((key) => view.keys.find(({ name }) => name === key));
    // G3 to D5, just what is comfortable; F4 to C6, beyond the limit.
    expect([g?.lies, f?.lies]).toEqual(["comfortable", "too far"]);
    expect(notationAt('"Fifths"  keys', { where: g?.id }).view.title).toBe("Fifths, G major");
    const rungs = notationAt('"Rungs"  all');
    expect(rungs.view).toMatchObject({ by: "Valves", title: "Rungs, 2 combinations" });
    expect(rungs.view.keys.map(({ name }) => name)).toContain("valves 12");
  });

  test("refuses ids that mean no key of the exercise", () => {
    for (const where of ["", "0", "99/C major//", "0/H major//", "1/C major//minor", "x/y/z"]) {
      expect(notationAt('"Fifths"  keys', { where }).view.title).toBe("Fifths, C major");
    }
  });

  test("leads every event to its text", () => {
    const { view } = notationAt('"Fifths"  keys');
    expect(view.uri).toBe("plans:/book");
    const lines = STUDIO.slice("--- book\n".length).split("\n");
    const texts = view.pictures.flatMap(({ places }) =>
      Array.from({ length: places.length / 4 }, (_, index) => {
        const [line = 0, from = 0, , to = 0] = places.slice(index * 4, index * 4 + 4);
        return lines[line]?.slice(from, to);
      }),
    );
    expect(texts).toEqual(["C4", "G4", "C5", "G5", "C4"]);
  });

  test("names equal pictures alike, and others not", () => {
    const names = (text: string, more: Partial<NotationParams> = {}): readonly string[] =>
      notationAt(text, more).view.pictures.map(({ name }) => name);
    expect(names('"Fifths"  keys')).toEqual(names('"Fifths"  keys'));
    expect(names('"Fifths"  keys', { fingerings: true })).not.toEqual(names('"Fifths"  keys'));
    expect(names('"Fifths"  keys', { width: 300 })).not.toEqual(names('"Fifths"  keys'));
  });

  test("is gone where the exercise is", () => {
    const { checked } = at('"Fifths"  keys');
    const music = { ...musicOf(viewAt('"Fifths"  keys')), exercise: "Gone" };
    expect(previewNotation(checked, { ...LOOK, music }, PATHS, PLACES)).toBeUndefined();
    expect(
      previewNotation(checked, { ...LOOK, music: { ...music, uri: "plans:/none" } }, PATHS, PLACES),
    ).toBeUndefined();
  });

  test("of five hundred bars comes at once, its pictures one by one", () => {
    const bars = Array.from({ length: 500 }, () => "1/8 C4 D4 E4 F4 G4 F4 E4 D4").join(" | ");
    const { checked, path, position } = opened(
      `area "A"\nexercise "Long‸" {\n  in "A"  key C major  meter 4/4  tempo 1/4 = 60\n  music { ${bars} | }\n}\n`,
    );
    const view = previewOf(checked, path, { position }, PLACES);
    const music = view?.items[0]?.music;
    if (music === undefined) throw new Error("no music");
    const notation = previewNotation(checked, { ...LOOK, music }, PATHS, PLACES);
    expect(notation?.view.pictures.length).toBeGreaterThan(100);
    expect(JSON.stringify(notation?.view).length).toBeLessThan(200_000);
    const sound = previewSound(checked, { ...PLAIN, music }, PATHS);
    expect(sound?.tones).toHaveLength(4000);
    expect(sound?.seconds).toBeCloseTo(2000);
  });
});

const PLAIN: Omit<SoundParams, "music"> = {
  pitch: "sounding",
  metronome: false,
  countIn: false,
  drone: false,
  turns: false,
};

function soundAt(text: string, more: Partial<SoundParams> = {}): SoundView {
  const { checked } = at(text);
  const sound = previewSound(checked, { ...PLAIN, music: musicOf(viewAt(text)), ...more }, PATHS);
  if (sound === undefined) throw new Error("no sound");
  return sound;
}

describe("music in time", () => {
  const line = '"Fifths"  keys';

  test("at the tempo the line asks, and at another", () => {
    // Six halves at 60 to the minute.
    expect(soundAt(line)).toMatchObject({ seconds: 6, tempo: { beat: "half", bpm: 60, own: 60 } });
    expect(soundAt(line, { bpm: 120 }).seconds).toBe(3);
    expect(soundAt(line, { bpm: 1e9 }).tempo.bpm).toBe(400);
    expect(soundAt(line).tones.map(({ at: when }) => when)).toEqual([0, 1, 2, 3, 4]);
  });

  test("as it sounds, a whole step under what is written", () => {
    // Equal temperament on A4 = 440 Hz: B♭3 and C4.
    expect(soundAt(line).tones[0]?.hz).toBeCloseTo(233.08, 2);
    expect(soundAt(line, { pitch: "written" }).tones[0]?.hz).toBeCloseTo(261.63, 2);
  });

  test("joins what is slurred and strikes what is not", () => {
    expect(soundAt(line).tones.map(({ joined }) => joined)).toEqual([false, false, true, true, false]);
  });

  test("counts a bar in, and clicks on every beat", () => {
    const sound = soundAt(line, { countIn: true, metronome: true });
    expect(sound.seconds).toBe(8);
    expect(sound.tones[0]?.at).toBe(2);
    expect(sound.clicks.map(({ at: when, strong }) => (strong ? `${when}!` : `${when}`))).toEqual([
      "0!",
      "1",
      "2!",
      "3",
      "4!",
      "5",
      "6!",
      "7",
    ]);
  });

  test("leaves each phrase a silence of its length, marked as the player's turn", () => {
    const sound = soundAt(line, { turns: true });
    expect(sound.seconds).toBe(12);
    expect(sound.tones.map(({ at: when }) => when)).toEqual([0, 1, 2, 3, 8]);
    expect(
      sound.steps.map(({ event, at: when, yours }) => `${event}@${when}${yours ? " yours" : ""}`),
    ).toEqual([
      "0@0",
      "1@1",
      "2@2",
      "3@3",
      "0@4 yours",
      "1@5 yours",
      "2@6 yours",
      "3@7 yours",
      "4@8",
      "4@10 yours",
    ]);
  });

  test("holds a drone on the tonic, low", () => {
    // Written C is B♭: B♭2 and B♭3.
    expect(soundAt(line, { drone: true }).drone.map(Math.round)).toEqual([117, 233]);
    expect(soundAt(line).drone).toEqual([]);
  });
});
