import { describe, expect, test } from "vitest";
import {
  FILES_REQUEST,
  TEXT_REQUEST,
  type TextParams,
  type TextResult,
} from "../../../server/protocol/requests";
import {
  CARRY_CHECK_REQUEST,
  CARRY_CHOICES_REQUEST,
  CARRY_REQUEST,
  type CarryAnswers,
  type CarryChoicesResult,
  type CarryResult,
  COMPARE_REQUEST,
  type CompareParams,
  type CompareResult,
  type OldText,
  TERM_REPORT_REQUEST,
  type TermReportResult,
} from "../../../server/protocol/year-requests";
import type { Host } from "../../../server/serve";
import { FIRST_AUTUMN, SECOND_AUTUMN } from "../compare/story";
import { tablesOf } from "../pages/tables-of";
import { Editor } from "./editor";

const HOST: Host = {
  now: () => performance.now(),
  turn: () => new Promise((resolve) => setImmediate(resolve)),
  disk: undefined,
};
const URI = "file:///studio/2026/autumn.practice";
const BOOK = "file:///studio/book.practice";

/** The story's studio in two files: its term, and all that the term uses. */
function split(text: string): { readonly book: string; readonly plan: string } {
  const at = text.indexOf('\nterm "');
  return { book: text.slice(0, at), plan: `use "../book.practice"\n${text.slice(at)}` };
}

async function opened(files: Readonly<Record<string, string>>): Promise<Editor> {
  const editor = Editor.inMemory(HOST);
  await editor.initialize(["file:///studio"]);
  for (const [uri, text] of Object.entries(files)) await editor.open(uri, text);
  return editor;
}

describe("the report of a term", () => {
  const report = (editor: Editor, more: object = {}): Promise<TermReportResult> =>
    editor.connection.sendRequest<TermReportResult>(TERM_REPORT_REQUEST, {
      uri: URI,
      position: { line: 0, character: 0 },
      file: false,
      ...more,
    });

  test("is of the first who plays it, or of those asked for, and follows the text", async () => {
    const editor = await opened({ [URI]: FIRST_AUTUMN });
    const first = await report(editor);
    expect(first).toMatchObject({ term: "Autumn 2025", players: ["Seniors", "K. M."], shown: ["Seniors"] });
    expect(first?.place.position).toEqual(editor.positionOf(URI, 'term "Autumn 2025"', "term ".length));
    expect(first?.page.body).toContain("<h2 id=");
    expect(first?.page.body).not.toMatch(/<script|style=|<link|(href|src)="(?!#)/);
    expect(first?.page.file).toBeUndefined();
    const both = await report(editor, { players: ["Seniors", "K. M."] });
    expect(both?.page.body).toContain("Autumn 2025: K. M.");
    await editor.replace(URI, "twice", "3 times");
    // Each day of week 1 has one time through more: 16 s of Fifths on two days.
    const more = await report(editor);
    expect(more?.page.body).not.toBe(first?.page.body);
  });

  test("keeps to its term by name while others are written above it, and goes to the place where the name is gone", async () => {
    const editor = await opened({
      [URI]: `${FIRST_AUTUMN}${SECOND_AUTUMN.slice(SECOND_AUTUMN.indexOf('term "'))}`,
    });
    const found = await report(editor, { term: "Autumn 2026" });
    expect(found?.term).toBe("Autumn 2026");
    const { place } = found ?? {};
    await editor.replace(URI, 'term "Autumn 2026"', 'term "Late autumn"');
    expect((await report(editor, { ...place, term: "Autumn 2026" }))?.term).toBe("Late autumn");
  });

  test("waits for the plans of the folder, for until then nobody plays the term", async () => {
    const { book, plan } = split(FIRST_AUTUMN);
    const editor = Editor.inMemory(HOST);
    editor.connection.onRequest(FILES_REQUEST, () => [BOOK, URI]);
    editor.connection.onRequest<TextResult, void>(TEXT_REQUEST, async ({ uri }: TextParams) => {
      await HOST.turn();
      return { text: uri === BOOK ? book : plan };
    });
    await editor.initialize(["file:///studio"], {}, { files: true });
    await editor.open(URI, plan);
    expect((await report(editor))?.players).toEqual(["Seniors", "K. M."]);
  });

  test("is a file by itself where one is asked for, and nothing where there is no term", async () => {
    const editor = await opened({ [URI]: FIRST_AUTUMN, [BOOK]: split(FIRST_AUTUMN).book });
    const { page } = (await report(editor, { file: true })) ?? {};
    expect(page?.file?.name).toBe("Autumn 2025, Seniors.html");
    expect(page?.file?.text).toMatch(/^<!doctype html>/);
    expect(await report(editor, { uri: BOOK })).toBeNull();
  });
});

describe("a comparison", () => {
  const old = split(FIRST_AUTUMN);
  const fresh = split(SECOND_AUTUMN);

  /** Asks as a client does that has the texts at hand: again, with what is wanted, until there is an answer. */
  async function compared(
    editor: Editor,
    texts: Readonly<Record<string, string | OldText["trouble"]>>,
    more: Partial<CompareParams> & { readonly with?: string } = {},
  ) {
    const told: OldText[] = [];
    const uri = more.uri ?? URI;
    for (let round = 1; ; round++) {
      const result: CompareResult = await editor.connection.sendRequest<CompareResult>(COMPARE_REQUEST, {
        uri,
        file: more.file ?? false,
        before: {
          uri: more.with ?? uri,
          called: "the last commit",
          listed: more.before?.listed ?? [more.with ?? uri],
          texts: told,
        },
      } satisfies CompareParams);
      if (!("wanted" in result)) return { result, told, round };
      for (const each of result.wanted) {
        const text = texts[each];
        told.push(
          text === "not-text" || text === "unreadable"
            ? { uri: each, trouble: text }
            : text === undefined
              ? { uri: each, trouble: "missing" }
              : { uri: each, text },
        );
      }
    }
  }

  test("asks for the texts it needs, and no more, and says what differs", async () => {
    const editor = await opened({ [URI]: fresh.plan, [BOOK]: fresh.book });
    const { result, told } = await compared(editor, { [URI]: old.plan, [BOOK]: old.book });
    if (!("page" in result)) throw new Error(JSON.stringify(result));
    expect(told.map(({ uri }) => uri).toSorted()).toEqual([
      "file:///studio.practice",
      "file:///studio/2026/autumn.practice",
      "file:///studio/2026/studio.practice",
      "file:///studio/book.practice",
      "file:///studio/studio.practice",
    ]);
    expect(result.page.body).toContain("autumn.practice as it is now, beside the last commit");
    expect(result.page.body).toContain("“Bells”: bar 2 rewritten; bar 4 put in");
    expect(tablesOf(result.page.body).get("Each week before and after")?.[1]).toEqual([
      "1",
      "1:36",
      "1:04",
      "1:04",
      "0:40",
      "0:08",
      "0:08",
    ]);
    expect(result.page.body).not.toMatch(/<script|style=|<link|(href|src)="(?!#)/);
  });

  test.each(["vscode-vfs://host/owner/studio", "memfs:/studio"])(
    "comes to an end for files of %s",
    async (root) => {
      const [plan, book] = [`${root}/2026/autumn.practice`, `${root}/book.practice`];
      const editor = Editor.inMemory(HOST);
      await editor.initialize([root]);
      await editor.open(plan, fresh.plan);
      await editor.open(book, fresh.book);
      const { result, round } = await compared(editor, { [plan]: old.plan, [book]: old.book }, { uri: plan });
      expect("page" in result ? result.page.body : "").toContain("gone: “Hymn”");
      expect(round).toBeLessThan(5);
    },
  );

  test("with itself is empty, however it is laid out", async () => {
    const editor = await opened({ [URI]: old.plan.replaceAll("  ", " "), [BOOK]: old.book });
    const { result } = await compared(editor, { [URI]: old.plan, [BOOK]: old.book });
    expect("page" in result ? result.page.body : "").toContain("These plans mean the same.");
  });

  test("of a folder takes in what was there and is gone", async () => {
    const editor = await opened({ [BOOK]: fresh.book });
    const { result } = await compared(
      editor,
      { [URI]: old.plan, [BOOK]: old.book },
      { uri: "file:///studio", before: { uri: "", called: "", texts: [], listed: [URI, BOOK] }, file: true },
    );
    if (!("page" in result)) throw new Error(JSON.stringify(result));
    expect(result.page.body).toContain("gone: “Autumn 2025”");
    expect(result.page.file?.name).toBe("studio, what differs.html");
  });

  test("with another file names both", async () => {
    const last = "file:///studio/2025/autumn-2025.practice";
    const editor = await opened({ [URI]: fresh.plan, [BOOK]: fresh.book });
    const { result } = await compared(editor, { [last]: old.plan, [BOOK]: old.book }, { with: last });
    expect("page" in result ? result.page.body : "").toContain("autumn.practice, beside the last commit");
  });

  test("says what cannot be read on one side, and compares the rest", async () => {
    const editor = await opened({ [URI]: fresh.plan, [BOOK]: fresh.book });
    const broken = old.plan.replace("practice Mon, Wed", "practice Mon, }{");
    const { result } = await compared(editor, { [URI]: broken, [BOOK]: "not-text" });
    if (!("page" in result)) throw new Error(JSON.stringify(result));
    expect(result.page.body).toMatch(
      /autumn\.practice \(the last commit\): \d places? cannot be read\. The rest/,
    );
    expect(result.page.body).toContain(
      "../book.practice (the last commit): This file is not written in UTF-8.",
    );
    expect(result.page.body).toContain("new: “Bells”, “March”, “Slow fifths”");
  });

  test("with a revision that does not have the file is refused in words", async () => {
    const editor = await opened({ [URI]: fresh.plan, [BOOK]: fresh.book });
    const { result } = await compared(editor, {});
    expect(result).toEqual({
      trouble: "The last commit has no plan “autumn.practice”, so there is nothing to compare it with.",
    });
  });

  test("leaves the addresses of today as the editor writes them", async () => {
    const spelt = "file:///studio/2026/%61utumn.practice";
    const editor = await opened({ [spelt]: fresh.plan, [BOOK]: fresh.book });
    await compared(editor, { [URI]: old.plan, [BOOK]: old.book });
    await editor.replace(spelt, "Slow fifths", "Slow fifth");
    expect(
      await editor.findings(spelt, (found) => found.some(({ code }) => code === "unknown-name")),
    ).not.toEqual([]);
  });
});

describe("a term begun from another", () => {
  const answers: CarryAnswers = {
    first: "2026-09-07",
    last: "2026-09-18",
    closures: "2026-09-09 to 2026-09-10 regatta, light 2026-09-14",
    bookings: false,
  };
  const place = { uri: URI, position: { line: 0, character: 0 } };
  const old = split(
    FIRST_AUTUMN.replace("practice Mon, Wed", 'practice Mon, Wed\n  closed 2025-09-10 "fog, thick"'),
  );

  test("is asked about with what the old one had", async () => {
    const editor = await opened({ [URI]: old.plan, [BOOK]: old.book });
    const choices = await editor.connection.sendRequest<CarryChoicesResult>(CARRY_CHOICES_REQUEST, place);
    expect(choices).toEqual({
      term: "Autumn 2025",
      was: { first: "2025-09-08", last: "2025-09-19" },
      first: "2026-09-07",
      last: "2026-09-18",
      closures: "2025-09-10 fog thick",
      bookings: 1,
    });
    expect(await editor.connection.sendRequest(CARRY_CHOICES_REQUEST, { ...place, uri: BOOK })).toBeNull();
  });

  test.each<["first" | "last" | "closures", Partial<CarryAnswers>, RegExp | undefined]>([
    ["first", { first: "7 September" }, /A date such as/],
    ["first", { first: "2027-02-29" }, /A date such as/],
    ["first", {}, undefined],
    ["last", { last: "2026-09-06" }, /ends before it begins/],
    ["last", { last: "" }, /A date such as/],
    ["last", {}, undefined],
    ["closures", { closures: "autumn, 2026-09-09" }, /not “autumn”/],
    ["closures", { closures: 'no lesson 2026-09-09 "exams"' }, undefined],
    ["closures", { closures: "" }, undefined],
  ])("answers to %s are looked at: %o", async (asked, more, expected) => {
    const editor = await opened({});
    const said = await editor.connection.sendRequest<string | null>(CARRY_CHECK_REQUEST, {
      asked,
      answers: { ...answers, ...more },
    });
    if (expected === undefined) expect(said).toBeNull();
    else expect(said).toMatch(expected);
  });

  test("is a plan with the new days, and what it lacks is said", async () => {
    const editor = await opened({ [URI]: old.plan, [BOOK]: old.book });
    const carried = await editor.connection.sendRequest<CarryResult>(CARRY_REQUEST, { ...place, answers });
    if ("trouble" in carried) throw new Error(carried.trouble);
    expect(carried).toMatchObject({ name: "Autumn 2026", term: "Autumn 2026" });
    expect(carried.text).toMatch(/^use "..\/book.practice"\n/);
    expect(carried.text).toContain("2026-09-07 to 2026-09-18");
    expect(carried.text).toMatch(/closed +2026-09-09 to 2026-09-10 "regatta"/);
    expect(carried.text).toMatch(/light +2026-09-14/);
    expect(carried.leftOut?.body).toContain("closed 2025-09-10 &quot;fog, thick&quot;");
    expect(carried.leftOut?.body).toContain("Fair");
    const fresh = "file:///studio/2026/autumn-2026.practice";
    await editor.open(fresh, carried.text);
    const found = await editor.findings(fresh, () => true);
    expect(found.filter(({ severity }) => severity === 1)).toEqual([]);
  });

  test("takes bookings along where they are wanted, and is refused where there is none", async () => {
    const editor = await opened({ [URI]: old.plan.replace("2025-12-01", "2025-09-17"), [BOOK]: old.book });
    const moved = await editor.connection.sendRequest<CarryResult>(CARRY_REQUEST, {
      ...place,
      answers: { ...answers, closures: "", bookings: true },
    });
    expect("text" in moved ? moved.text : "").toMatch(/booked +2026-09-16 "Fair"/);
    const none = await editor.connection.sendRequest<CarryResult>(CARRY_REQUEST, {
      uri: BOOK,
      position: place.position,
      answers,
    });
    expect(none).toHaveProperty("trouble", expect.stringContaining("no term with dates"));
  });
});
