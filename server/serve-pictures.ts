import type { CancellationToken, Hover } from "vscode-languageserver";
import { HOVER_SCALE, type HoverNotation } from "./features/hover-notation";
import { inColour } from "./notation/clean-svg";
import type { Engraver, EngravingTask } from "./notation/engrave";
import { base64 } from "./output/base64";
import { INK, type ThemeKind } from "./pages/ink";

/**
 * Signs of Markdown that a hover may hold before VS Code cuts it, with some to spare for what the editor adds.
 */
const MOST_MARKDOWN = 98_000;

/** Has pictures engraved for whoever asks, and stops when the asker has left. */
export class Pictures {
  private readonly begun = new Map<EngravingTask, Promise<string | undefined>>();

  constructor(
    private readonly engraver: Engraver,
    private readonly failed: (what: string, error: unknown) => void,
  ) {}

  /**
   * Begins with a picture that is going to be asked for, so that it is being drawn while its name is on the way to
   * the page.
   */
  begin(task: EngravingTask): void {
    const made = this.engraver.engrave(task).catch((error: unknown) => {
      this.failed("engraving", error);
      return undefined;
    });
    this.begun.set(task, made);
    void made.finally(() => this.begun.delete(task));
  }

  /** The picture in `currentColor`; undefined where it could not be made, or nobody waits any longer. */
  async engraved(task: EngravingTask, token: CancellationToken): Promise<string | undefined> {
    const begun = this.begun.get(task);
    if (begun !== undefined) return begun;
    const stale = new AbortController();
    const listening = token.onCancellationRequested(() => stale.abort(new Error("nobody waits any longer")));
    if (token.isCancellationRequested) stale.abort(new Error("nobody waits any longer"));
    try {
      return await this.engraver.engrave(task, stale.signal);
    } catch (error) {
      if (!stale.signal.aborted) this.failed("engraving", error);
      return undefined;
    } finally {
      listening.dispose();
    }
  }

  /**
   * The pictures of a hover as its text shows them, in their order. All are asked for at once, so that none waits for
   * the way of another; undefined stands for one that could not be made.
   */
  images(
    { pictures }: HoverNotation,
    theme: ThemeKind,
    token: CancellationToken,
  ): Promise<readonly (string | undefined)[]> {
    return Promise.all(
      pictures.map(async ({ task }) => {
        const svg = await this.engraved(task, token);
        try {
          return svg === undefined ? undefined : imageOf(svg, task.title, theme);
        } catch (error) {
          this.failed("the picture of a hover", error);
          return undefined;
        }
      }),
    );
  }
}

/** A hover with its notation above its words: as many lines of music as there is room for. */
export function pictured(
  hover: Hover,
  { pictures, bars }: HoverNotation,
  images: readonly (string | undefined)[],
): Hover {
  const { contents } = hover;
  if (typeof contents !== "object" || !("kind" in contents) || contents.kind !== "markdown") return hover;
  let room = MOST_MARKDOWN - contents.value.length;
  const shown: string[] = [];
  let until = 0;
  for (const [index, { to }] of pictures.entries()) {
    const image = images[index];
    if (image === undefined) break;
    room -= image.length + 2;
    if (room < 0) break;
    shown.push(image);
    until = to;
  }
  if (shown.length === 0) return hover;
  if (until < bars)
    shown.push(until === 1 ? `_the first of ${bars} bars_` : `_the first ${until} of ${bars} bars_`);
  return { ...hover, contents: { ...contents, value: [...shown, contents.value].join("\n\n") } };
}

function imageOf(svg: string, title: string, theme: ThemeKind): string {
  return `![${altText(title)}](${dataUri(smaller(inColour(svg, INK[theme])))})`;
}

/** Brackets and such would end the image's words. */
function altText(title: string): string {
  return title.replace(/[[\]\\`*_<>&!|\r\n]/g, " ");
}

/** The picture shown smaller than it is set. */
function smaller(svg: string): string {
  return svg.replace(/ width="([\d.]+)" height="([\d.]+)"/, (_, width: string, height: string) => {
    const scaled = [width, height].map((each) => Math.round(Number(each) * HOVER_SCALE));
    return ` width="${scaled[0]}" height="${scaled[1]}"`;
  });
}

function dataUri(svg: string): string {
  return `data:image/svg+xml;base64,${base64(new TextEncoder().encode(svg))}`;
}
