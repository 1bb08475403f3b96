import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CancellationTokenSource, type ProtocolConnection } from "vscode-languageserver/node";
import type { Engraver } from "../../../server/notation/engrave";
import { PressError, type RunningPress } from "../../../server/output/press";
import {
  PRINT_CHOICES_REQUEST,
  PRINT_PROGRESS_NOTIFICATION,
  PRINT_REQUEST,
  type PrintChoicesResult,
  type PrintParams,
  type PrintProgressParams,
  type PrintResult,
  type PrintScope,
  type PrintWhat,
} from "../../../server/protocol/print-requests";
import { Examined, type Workshop, workshop } from "../packet/printing";
import { Editor } from "./editor";

const BOOK = `area "Tones"
exercise "Fifths" {
  in "Tones"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/2 C4 G4 | 1/1 C4 ' | }
}
`;
const PLAYERS = `level "Seniors" { instrument trumpet in Bb  breath 10 s }
student "K. M." like "Seniors"
level "Juniors" { instrument trumpet in Bb  stage first year }
`;
const AUTUMN = `term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-09-19
  weeks 1 to 2 {
    Mon "Morning" 10 min { "Fifths" in C once }
    Tue, Thu "Evening" 10 min { "Fifths" in D twice }
  }
}
term "Nothing yet" for "Juniors" { from 2027-02-01 to 2027-02-06 }
`;
const JUNIORS = `use "plan.practice"
term "Begin" for "Juniors" {
  from 2026-09-07 to 2026-09-19
  weeks 1 to 2 { Tue "Morning" 10 min { "Fifths" in C once } }
}
`;
const PLAN = "file:///studio/plan.practice";
const YOUNG = "file:///studio/young.practice";
const BARE = "file:///studio/bare.practice";

let shop: Workshop;
let engraver: Engraver;
beforeAll(async () => {
  shop = await workshop();
  const [first] = shop.engravers;
  if (first === undefined) throw new Error("no engraver");
  engraver = first;
}, 60_000);
afterAll(() => shop.stop());

/** A press that can be stopped and started again, as the one that ships. */
const shipped: RunningPress = {
  print: (files, signal) => shop.press.print(files, signal),
  stop: async () => {},
};

async function opened({
  press = shipped,
  plan = BOOK + PLAYERS + AUTUMN,
}: {
  readonly press?: RunningPress | undefined;
  readonly plan?: string;
} = {}): Promise<Editor> {
  const editor = Editor.inMemory({
    now: () => performance.now(),
    turn: () => new Promise((resolve) => setImmediate(resolve)),
    disk: undefined,
    engraver: { engrave: (task, signal) => engraver.engrave(task, signal), stop: async () => {} },
    press,
  });
  await editor.initialize([]);
  await editor.open(PLAN, plan);
  await editor.open(YOUNG, JUNIORS);
  await editor.open(BARE, "# nothing here yet\n");
  return editor;
}

const AS_USUAL: PrintParams = {
  job: 1,
  uri: PLAN,
  what: "day",
  of: "term",
  term: "Autumn",
  date: "2026-09-08",
  apart: false,
  keys: "travelled",
  paper: "a4",
  large: false,
  html: false,
};

const print = (
  { connection }: { readonly connection: ProtocolConnection },
  wish: Partial<PrintParams>,
): Promise<PrintResult> => connection.sendRequest<PrintResult>(PRINT_REQUEST, { ...AS_USUAL, ...wish });

async function choices(editor: Editor, what: PrintWhat, at: string, uri = PLAN): Promise<PrintChoicesResult> {
  return editor.connection.sendRequest<PrintChoicesResult>(PRINT_CHOICES_REQUEST, {
    uri,
    position: editor.positionOf(uri, at),
    what,
    today: "2026-09-10",
  });
}

function scopesOf(result: PrintChoicesResult): readonly PrintScope[] {
  if ("trouble" in result) throw new Error(result.trouble);
  return result.scopes;
}

function filesOf(result: PrintResult): readonly { readonly name: string; readonly content: Buffer }[] {
  if ("trouble" in result) throw new Error(result.trouble);
  return result.files.map(({ name, bytes }) => ({ name, content: Buffer.from(bytes, "base64") }));
}

async function examined<R>(pdf: Uint8Array, look: (file: Examined) => Promise<R>): Promise<R> {
  const file = new Examined(pdf);
  try {
    return await look(file);
  } finally {
    file.remove();
  }
}

describe("what there is to choose from", () => {
  test("is the term at the cursor with its days, the next from today first, then the whole studio", async () => {
    const editor = await opened();
    const [term, studio] = scopesOf(await choices(editor, "day", 'term "Autumn"'));
    expect(term).toMatchObject({ of: "term", title: "Autumn", players: ["Seniors", "K. M."], likely: 2 });
    expect(term?.dates.map(({ date }) => date)).toEqual([
      "2026-09-07",
      "2026-09-08",
      "2026-09-10",
      "2026-09-14",
      "2026-09-15",
      "2026-09-17",
    ]);
    expect(term?.dates[2]).toEqual({
      date: "2026-09-10",
      label: "Thursday 10 September 2026",
      detail: "Week 1",
    });
    expect(studio).toMatchObject({ of: "studio", players: ["Seniors", "K. M.", "Juniors"] });
    expect(studio?.dates[0]?.detail).toBe("");
  });

  test("begins with the day that the cursor's line is for", async () => {
    const editor = await opened();
    const [term] = scopesOf(await choices(editor, "day", '"Fifths" in C once'));
    expect(term?.dates[term.likely]?.date).toBe("2026-09-14");
  });

  test("has weeks by their Mondays", async () => {
    const [term] = scopesOf(await choices(await opened(), "week", '"Fifths" in C once'));
    expect(term?.dates).toEqual([
      { date: "2026-09-07", label: "Week of Monday 7 September 2026", detail: "Week 1" },
      { date: "2026-09-14", label: "Week of Monday 14 September 2026", detail: "Week 2" },
    ]);
  });

  test("is for a packet the term, then the book", async () => {
    const scopes = scopesOf(await choices(await opened(), "packet", 'term "Autumn"'));
    expect(scopes.map(({ of, title }) => [of, title])).toEqual([
      ["term", "Autumn"],
      ["book", ""],
    ]);
  });

  test("is the studio's days where the file has no term, and nothing where there is nothing", async () => {
    const editor = await opened();
    expect(scopesOf(await choices(editor, "day", "nothing here", BARE)).map(({ of }) => of)).toEqual([
      "studio",
    ]);
    expect(await choices(editor, "packet", "nothing here", BARE)).toEqual({
      trouble: "There is no exercise in these files to print.",
    });
    const bookAlone = await opened({ plan: BOOK });
    await bookAlone.close(YOUNG);
    expect(await choices(bookAlone, "day", "exercise")).toEqual({
      trouble: "There is no term here to print from.",
    });
  });
});

describe("pages as PDF", () => {
  test("of a player's day hold that day, and equal the next time", async () => {
    const editor = await opened();
    const [file, ...more] = filesOf(await print(editor, { player: "K. M." }));
    expect(file?.name).toBe("K. M., Tue 2026-09-08.pdf");
    expect(more).toEqual([]);
    const pdf = file?.content ?? Buffer.alloc(0);
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
    const text = await examined(pdf, (each) => each.text());
    expect(text).toMatch(/K\. M\. Tuesday 8 September 2026.*Fifths D major, twice, quarter = 60/);
    const [again] = filesOf(await print(editor, { player: "K. M." }));
    expect(again?.content.equals(pdf)).toBe(true);
  });

  test("of the whole studio's week go into one file, or one for each player", async () => {
    const editor = await opened();
    const wish = { what: "week", of: "studio", term: undefined, date: "2026-09-10" } as const;
    const [one, ...none] = filesOf(await print(editor, wish));
    expect(one?.name).toBe("The studio, week of 2026-09-07.pdf");
    expect(none).toEqual([]);
    const titles = await examined(one?.content ?? Buffer.alloc(0), async (each) =>
      (await each.bookmarks()).map(({ title }) => title).join(" / "),
    );
    for (const player of ["Seniors", "K. M.", "Juniors"]) expect(titles).toContain(player);
    const apart = filesOf(await print(editor, { ...wish, apart: true }));
    expect(apart.map(({ name }) => name)).toEqual([
      "Seniors, week of 2026-09-07.pdf",
      "K. M., week of 2026-09-07.pdf",
      "Juniors, week of 2026-09-07.pdf",
    ]);
  });

  test("of a packet are on the paper that is asked for, in large print too", async () => {
    const editor = await opened();
    const [file] = filesOf(
      await print(editor, { what: "packet", player: "K. M.", paper: "letter", large: true }),
    );
    expect(file?.name).toBe("K. M., packet.pdf");
    const pdf = file?.content ?? Buffer.alloc(0);
    expect(await examined(pdf, (each) => each.paper())).toContain("612 x 792");
    const text = await examined(pdf, (each) => each.text());
    for (const key of ["C major", "D major"]) expect(text).toContain(key);
    const [book] = filesOf(
      await print(editor, { what: "packet", of: "book", term: undefined, keys: "home" }),
    );
    expect(await examined(book?.content ?? Buffer.alloc(0), (each) => each.text())).not.toContain("D major");
  });

  test("come with what is to be said: errors in the plan, letters that no face has", async () => {
    const plan = (BOOK + PLAYERS + AUTUMN)
      .replaceAll("Fifths", "練習")
      .replace("once }", 'once  "Gone" once }');
    const made = await print(await opened({ plan }), {});
    expect(made).toMatchObject({
      remarks: [
        "“plan.practice” has 1 error; the pages hold what could be read.",
        "The faces of these pages lack 2 letters, for which an empty box stands: 練 習",
      ],
    });
  });
});

describe("what cannot be printed", () => {
  test("is said: a day without practice, a term that is empty, one that is gone", async () => {
    const editor = await opened();
    expect(await print(editor, { date: "2026-09-13", player: "K. M." })).toEqual({
      trouble: "There is nothing to practise for K. M. on Sun 2026-09-13.",
      web: false,
    });
    expect(await print(editor, { term: "Nothing yet", date: "2027-02-01" })).toEqual({
      trouble: "There is nothing to practise for anybody on Mon 2027-02-01.",
      web: false,
    });
    expect(await print(editor, { what: "packet", term: "Nothing yet" })).toEqual({
      trouble: "There is nothing to practise in this term, and so nothing to put into a packet.",
      web: false,
    });
    expect(await print(editor, { term: "Renamed" })).toEqual({
      trouble: "There is no term here to print from.",
      web: false,
    });
  });

  test("is offered as web pages where there is no press to be had", async () => {
    const broken: RunningPress = {
      print: async () => {
        throw new PressError("No press.");
      },
      stop: async () => {},
    };
    const editor = await opened({ press: broken });
    expect(await print(editor, {})).toEqual({ trouble: "No press.", web: true });
    const [file] = filesOf(await print(editor, { html: true, player: "K. M." }));
    expect(file?.name).toBe("K. M., Tue 2026-09-08.html");
    expect(file?.content.toString("utf8")).toMatch(/^<!doctype html>.*Fifths.*<svg/is);
  });
});

test("progress is told, and who cancels gets nothing; the next job is done all the same", async () => {
  const pressing = { begun: (): void => {} };
  const begun = new Promise<void>((resolve) => {
    pressing.begun = resolve;
  });
  let stops = 0;
  /** Sets the first job only when it is cancelled. */
  const slow: RunningPress = {
    print: (files, signal) => {
      if (stops > 0) return shop.press.print(files, signal);
      pressing.begun();
      return new Promise((_, failed) => signal?.addEventListener("abort", () => failed(signal.reason)));
    },
    stop: async () => {
      stops++;
    },
  };
  const editor = await opened({ press: slow });
  const setting = new Promise<PrintProgressParams>((resolve) => {
    editor.connection.onNotification(PRINT_PROGRESS_NOTIFICATION, (params: PrintProgressParams) => {
      if (params.words.startsWith("Setting")) resolve(params);
    });
  });
  const source = new CancellationTokenSource();
  const cancelled = editor.connection.sendRequest<PrintResult | null>(
    PRINT_REQUEST,
    { ...AS_USUAL, job: 7 },
    source.token,
  );
  await begun;
  expect(await setting).toEqual({ job: 7, words: "Setting the pages" });
  source.cancel();
  expect(await cancelled).toBeNull();
  expect(stops).toBe(1);
  expect(filesOf(await print(editor, { job: 8 }))).toHaveLength(1);
});
