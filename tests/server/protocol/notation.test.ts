import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, test } from "vitest";
import type { Hover } from "vscode-languageserver/node";
import { engraveWith, type RunningEngraver, type Toolkit } from "../../../server/notation/engrave";
import { keepingEngraver, queuedEngraver } from "../../../server/notation/engraving-queue";
import {
  EXPORT_REQUEST,
  type ExportResult,
  NOTATION_REQUEST,
  type NotationResult,
  PICTURE_REQUEST,
  type PictureResult,
  PREVIEW_REQUEST,
  type PreviewResult,
  SOUND_REQUEST,
  type SoundResult,
  THEME_NOTIFICATION,
} from "../../../server/protocol/requests";
import { Editor } from "./editor";

const URI = "file:///studio/book.practice";
const BARS = Array.from({ length: 300 }, () => "1/16 C4 D4 E4 F4 G4 A4 B4 C5 D5 C5 B4 A4 G4 F4 E4 D4").join(
  " | ",
);
const BOOK = `area "Tones"
exercise "Short [one]" {
  in "Tones"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/1 C4 ' | 1/1 D4 | }
}
exercise "Long" {
  in "Tones"  key C major  meter 4/4  tempo 1/4 = 60
  music { ${BARS} | }
}
exercise "Breathe" { in "Tones"  activity breathing  spares lips  lasts 1 min }
`;

let toolkit: Toolkit;
const engraver: RunningEngraver = {
  ...keepingEngraver(
    queuedEngraver(async (task) => engraveWith(toolkit, task)),
    100,
  ),
  stop: async () => {},
};

beforeAll(async () => {
  const silent = (): void => undefined;
  const module = await createVerovioModule({ print: silent, printErr: silent });
  enableLog(LOG_OFF, module);
  toolkit = new VerovioToolkit(module);
});

async function opened(options: object, drawing: RunningEngraver | undefined = engraver): Promise<Editor> {
  const editor = Editor.inMemory({
    now: () => performance.now(),
    turn: () => new Promise((resolve) => setImmediate(resolve)),
    disk: undefined,
    ...(drawing === undefined ? {} : { engraver: drawing }),
  });
  await editor.initialize([], { textDocument: { hover: { contentFormat: ["markdown"] } } }, options);
  await editor.open(URI, BOOK);
  return editor;
}

async function hovered(editor: Editor, text: string): Promise<string> {
  const hover = await editor.connection.sendRequest<Hover | null>("textDocument/hover", {
    textDocument: { uri: URI },
    position: editor.positionOf(URI, text, 3),
  });
  const contents = hover?.contents;
  if (typeof contents !== "object" || !("kind" in contents)) throw new Error("no words");
  return contents.value;
}

/** The drawings in a hover. */
function drawings(markdown: string): readonly string[] {
  return [...markdown.matchAll(/\(data:image\/svg\+xml;base64,([^)]*)\)/g)].map(([, data = ""]) =>
    Buffer.from(data, "base64").toString("utf8"),
  );
}

describe("hovers with notation", () => {
  test("stand above the words, in ink for the theme, and change with it", async () => {
    const editor = await opened({ theme: "dark" });
    const dark = await hovered(editor, '"Short [one]"');
    expect(dark).toMatch(/^!\[Short {2}one {1,2}\]\(data:image\/svg\+xml;base64,/);
    expect(dark.indexOf("data:")).toBeLessThan(dark.indexOf("**Short"));
    const [svg = ""] = drawings(dark);
    expect(svg).toMatch(/^<svg .*#dcdcdc/s);
    expect(svg).not.toMatch(/currentColor|<style|style=/);
    await editor.connection.sendNotification(THEME_NOTIFICATION, { kind: "light" });
    expect(drawings(await hovered(editor, '"Short [one]"'))[0]).toContain("#262626");
  });

  test("hold a long piece's beginning, within what an editor shows, and say so", async () => {
    const long = await hovered(await opened({ theme: "light" }), '"Long"');
    expect(long.length).toBeLessThan(100_000);
    expect(drawings(long).length).toBeGreaterThan(0);
    expect(long).toMatch(/_the first \d+ of 300 bars_/);
    expect(long).toContain("**Long**");
  });

  test("are words alone for work without notes, for editors that show no pictures, and where nothing draws", async () => {
    const editor = await opened({ theme: "light" });
    expect(drawings(await hovered(editor, '"Breathe"'))).toEqual([]);
    expect(drawings(await hovered(await opened({}), '"Long"'))).toEqual([]);
    const broken: RunningEngraver = {
      engrave: async () => {
        throw new Error("no ink");
      },
      stop: async () => {},
    };
    const words = await hovered(await opened({ theme: "light" }, broken), '"Long"');
    expect(words).toMatch(/^\*\*Long\*\*/);
  });
});

describe("a page that previews", () => {
  async function asked() {
    const editor = await opened({});
    const view = await editor.connection.sendRequest<PreviewResult>(PREVIEW_REQUEST, {
      uri: URI,
      position: editor.positionOf(URI, '"Short [one]"', 3),
    });
    const music = view?.items[0]?.music;
    if (music === undefined) throw new Error("no music");
    return { editor, music };
  }

  test("is told of notation, then gets its pictures by their names", async () => {
    const { editor, music } = await asked();
    const notation = await editor.connection.sendRequest<NotationResult>(NOTATION_REQUEST, {
      music,
      fingerings: true,
      width: 500,
    });
    const [picture] = notation?.pictures ?? [];
    const drawn = await editor.connection.sendRequest<PictureResult>(PICTURE_REQUEST, {
      name: picture?.name,
    });
    if (drawn === null || "trouble" in drawn) throw new Error("no picture");
    expect(drawn.svg).toMatch(/^<svg .*currentColor/s);
    expect(drawn.svg).toContain('<g id="e0" class="note"><rect class="field"');
    expect(drawn.notes.map(({ name }) => name)).toEqual(["e0", "e1"]);
  });

  test("is told when a picture was forgotten", async () => {
    const { editor } = await asked();
    const drawn = await editor.connection.sendRequest<PictureResult>(PICTURE_REQUEST, { name: "p0" });
    expect(drawn).toEqual({ trouble: "", unknown: true });
  });

  test("gets the music in time", async () => {
    const { editor, music } = await asked();
    const sound = await editor.connection.sendRequest<SoundResult>(SOUND_REQUEST, {
      music,
      pitch: "sounding",
      metronome: false,
      countIn: false,
      drone: false,
      turns: false,
    });
    expect(sound?.seconds).toBe(8);
  });
});

describe("files for other programs", () => {
  async function exported(text: string, form: string): Promise<ExportResult> {
    const editor = await opened({});
    return editor.connection.sendRequest<ExportResult>(EXPORT_REQUEST, {
      uri: URI,
      position: editor.positionOf(URI, text, 3),
      form,
    });
  }
  const bytes = (result: ExportResult): Buffer => {
    if ("trouble" in result) throw new Error(result.trouble);
    return Buffer.from(result.bytes, "base64");
  };

  test("are made of the exercise at the cursor", async () => {
    const xml = await exported('"Short [one]"', "musicxml");
    expect(xml).toMatchObject({ fileName: "Short [one].musicxml" });
    expect(bytes(xml).toString("utf8")).toContain("<work-title>Short [one]</work-title>");
    expect(
      bytes(await exported('"Short [one]"', "midi"))
        .subarray(0, 4)
        .toString(),
    ).toBe("MThd");
    expect(bytes(await exported('"Short [one]"', "svg")).toString("utf8")).toMatch(
      /^<svg (?!.*currentColor)/s,
    );
  });

  test("are not made of what has no notes, and the reason is said", async () => {
    expect(await exported('"Breathe"', "midi")).toEqual({ trouble: "“Breathe” is work without notes." });
    expect(await exported('area "Tones"', "midi")).toEqual({
      trouble: "Put the cursor into an exercise, or on its line in a session.",
    });
  });
});
