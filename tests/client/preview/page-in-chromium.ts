import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { enableLog, LOG_OFF, VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import type { FromPage, Told, ToPage } from "../../../client/preview/messages";
import { pageHtml } from "../../../client/preview/page-html";
import { previewOf } from "../../../server/features/preview";
import { type PictureDraft, previewNotation } from "../../../server/features/preview-notation";
import { previewSound } from "../../../server/features/preview-sound";
import { engraveWith, type Toolkit } from "../../../server/notation/engrave";
import { withMarks } from "../../../server/pages/notation-marks";
import {
  NOTATION_REQUEST,
  type NotationParams,
  PICTURE_REQUEST,
  type PictureParams,
  PREVIEW_REQUEST,
  type PreviewParams,
  SOUND_REQUEST,
  type SoundParams,
} from "../../../server/protocol/requests";
import type { Checked } from "../../../server/workspace/check-sources";
import { checkTexts } from "../../server/check-texts";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
/** Where the page seems to come from; nothing is asked of any network. */
const ORIGIN = "http://preview.test";

/** Colours that VS Code's light theme gives a page, as far as the page asks for them. */
const LIGHT = {
  "--vscode-editor-background": "#ffffff",
  "--vscode-editor-foreground": "#3b3b3b",
  "--vscode-foreground": "#3b3b3b",
  "--vscode-descriptionForeground": "#3b3b3b",
  "--vscode-focusBorder": "#005fb8",
  "--vscode-button-background": "#005fb8",
  "--vscode-button-foreground": "#ffffff",
  "--vscode-font-family": "sans-serif",
  "--vscode-font-size": "13px",
} as const;

/** The parts of the page as they ship. */
export async function bundledPage(): Promise<{ readonly script: string; readonly style: string }> {
  const outdir = mkdtempSync(join(tmpdir(), "leadpipe-page-"));
  try {
    await build({
      absWorkingDir: ROOT,
      entryPoints: ["client/preview/page/main.tsx", "client/preview/page/page.css"],
      outdir,
      outbase: "client/preview/page",
      bundle: true,
      format: "iife",
      target: "es2022",
      jsx: "automatic",
      jsxImportSource: "preact",
      logLevel: "warning",
    });
    return {
      script: readFileSync(join(outdir, "main.js"), "utf8"),
      style: readFileSync(join(outdir, "page.css"), "utf8"),
    };
  } finally {
    rmSync(outdir, { recursive: true });
  }
}

export async function toolkit(): Promise<Toolkit> {
  const silent = (): void => undefined;
  const module = await createVerovioModule({ print: silent, printErr: silent });
  enableLog(LOG_OFF, module);
  return new VerovioToolkit(module);
}

/** The page in a browser, with the server's own features behind it. */
export class PreviewedPage {
  readonly told: Told[] = [];
  /** Everything else that came from the page. */
  readonly heard: FromPage[] = [];
  /** While it is true, pictures that are asked for are kept back. */
  holdPictures = false;
  private held: (() => void)[] = [];
  private checked: Checked;
  private readonly drafts = new Map<string, PictureDraft>();

  private constructor(
    readonly page: Page,
    private readonly drawing: Toolkit,
    text: string,
  ) {
    this.checked = checkTexts(new Map([["/plan", text]]));
  }

  static async open(
    browser: Browser,
    parts: Awaited<ReturnType<typeof bundledPage>>,
    drawing: Toolkit,
    text: string,
    width: number,
  ): Promise<PreviewedPage> {
    const context = await browser.newContext({ viewport: { width, height: 900 }, reducedMotion: "reduce" });
    const page = await context.newPage();
    const previewed = new PreviewedPage(page, drawing, text);
    await page.exposeFunction("toExtension", (message: FromPage) => previewed.hear(message));
    await page.addInitScript(`
      let state;
      globalThis.acquireVsCodeApi = () => ({
        postMessage: (message) => void globalThis.toExtension(message),
        getState: () => state,
        setState: (next) => { state = next; },
      });
      addEventListener("DOMContentLoaded", () => {
        for (const [name, value] of Object.entries(${JSON.stringify(LIGHT)})) {
          document.documentElement.style.setProperty(name, value);
        }
      });
    `);
    const html = pageHtml({ script: `${ORIGIN}/page.js`, style: `${ORIGIN}/page.css`, source: ORIGIN });
    await page.route(`${ORIGIN}/**`, (route) => {
      const { pathname } = new URL(route.request().url());
      if (pathname === "/page.js")
        return route.fulfill({ contentType: "text/javascript", body: parts.script });
      if (pathname === "/page.css") return route.fulfill({ contentType: "text/css", body: parts.style });
      return route.fulfill({ contentType: "text/html", body: html });
    });
    await page.goto(`${ORIGIN}/`);
    return previewed;
  }

  /** The text becomes another one. */
  write(text: string): void {
    this.checked = checkTexts(new Map([["/plan", text]]));
  }

  /** The cursor goes to the first place of a text. */
  async at(text: string, into = 1): Promise<void> {
    const whole = this.checked.files[0]?.text ?? "";
    const offset = whole.indexOf(text);
    if (offset < 0) throw new Error(`the plan does not hold ${text}`);
    const before = whole.slice(0, offset + into).split("\n");
    const position = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
    await this.post({ kind: "place", place: { uri: "file:///plan", position } });
  }

  async post(message: ToPage): Promise<void> {
    await this.page.evaluate(`postMessage(${JSON.stringify(message)}, "*")`);
  }

  /** Hands out the pictures that were kept back. */
  release(): void {
    this.holdPictures = false;
    for (const each of this.held.splice(0)) each();
  }

  async close(): Promise<void> {
    await this.page.context().close();
  }

  private async hear(message: FromPage): Promise<void> {
    if (message.kind === "told") this.told.push(message.told);
    else this.heard.push(message);
    if (message.kind !== "ask") return;
    if (message.request === PICTURE_REQUEST && this.holdPictures) {
      await new Promise<void>((resolve) => this.held.push(resolve));
    }
    const result = this.answer(message.request, message.params);
    await this.post({ kind: "answer", number: message.number, result: result ?? null });
  }

  /** As the server answers; what comes over is of the types that the protocol says. */
  private answer(request: string, params: unknown): unknown {
    const paths = {
      pathOf: (uri: string) => uri.replace("file://", ""),
      uriOf: (path: string) => `file://${path}`,
    };
    switch (request) {
      case PREVIEW_REQUEST: {
        const asked = params as PreviewParams;
        return previewOf(this.checked, paths.pathOf(asked.uri), asked, paths);
      }
      case NOTATION_REQUEST: {
        const notation = previewNotation(this.checked, params as NotationParams, paths, paths);
        for (const [name, draft] of notation?.drafts ?? []) this.drafts.set(name, draft);
        return notation?.view;
      }
      case PICTURE_REQUEST: {
        const draft = this.drafts.get((params as PictureParams).name);
        if (draft === undefined) return { trouble: "", unknown: true };
        return { svg: withMarks(engraveWith(this.drawing, draft.task), draft.marks), notes: draft.notes() };
      }
      case SOUND_REQUEST:
        return previewSound(this.checked, params as SoundParams, paths);
      default:
        throw new Error(`the page asked for ${request}`);
    }
  }
}
