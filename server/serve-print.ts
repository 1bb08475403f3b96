import { type CancellationToken, ResponseError } from "vscode-languageserver";
import type { PrintPlan } from "./features/print";
import { type Engraver, EngravingError } from "./notation/engrave";
import { base64 } from "./output/base64";
import type { Works } from "./output/packet-engraving";
import { htmlOf, type Pages, pdfOf } from "./output/packet-jobs";
import { PressError, type RunningPress } from "./output/press";
import { failedWords, missingWords, overlongWords } from "./output/print-words";
import type { PageStyle } from "./pages/sheet-style";
import {
  PRINT_CHOICES_REQUEST,
  PRINT_PROGRESS_NOTIFICATION,
  PRINT_REQUEST,
  type PrintChoicesParams,
  type PrintChoicesResult,
  type PrintParams,
  type PrintProgressParams,
  type PrintResult,
} from "./protocol/print-requests";
import type { RequestsGround } from "./serve-requests";

/** Milliseconds between two words on how far pages are. */
const BETWEEN_WORDS = 200;

/** What pages are made with. Without an engraver there are none, without a press only web pages. */
export interface PrintShop {
  readonly engraver: Engraver | undefined;
  readonly press: RunningPress | undefined;
  readonly now: () => number;
  readonly failed: (what: string, error: unknown) => void;
}

/** Wires printing to its features. Pages are made one job after the other, for they take much memory. */
export function answerPrint(ground: RequestsGround, shop: PrintShop): void {
  const { connection, workspace, addresses, answers, features } = ground;
  let last: Promise<unknown> = Promise.resolve();
  let waiting = 0;

  connection.onRequest<PrintChoicesResult, void>(
    PRINT_CHOICES_REQUEST,
    async (params: PrintChoicesParams, token: CancellationToken) => {
      // Who plays may stand in files that are still being read.
      await workspace.readIn();
      const path = addresses.pathOf(params.uri);
      return answers.about<PrintChoicesResult>(
        "printing",
        path,
        token,
        () => features.printChoices(workspace.checked, path, params),
        { trouble: FAILED },
        false,
      );
    },
  );

  connection.onRequest<PrintResult | null, void>(
    PRINT_REQUEST,
    async (params: PrintParams, token: CancellationToken) => {
      await workspace.readIn();
      const path = addresses.pathOf(params.uri);
      const plan = await answers.about<PrintPlan>(
        "printing",
        path,
        token,
        () => features.printPlan(workspace.checked, path, params),
        { trouble: FAILED },
        false,
      );
      if (plan instanceof ResponseError) return plan;
      if ("trouble" in plan) return { trouble: plan.trouble, web: false };
      const work = last.then(() => printed(plan, params, token));
      waiting++;
      last = work.catch(() => {});
      try {
        return await work;
      } finally {
        waiting--;
        // The press holds hundreds of megabytes, which nobody needs until the next job.
        if (waiting === 0) await shop.press?.stop();
      }
    },
  );

  /** Null where the asker left. */
  async function printed(
    { files, remarks }: Exclude<PrintPlan, { trouble: string }>,
    params: PrintParams,
    token: CancellationToken,
  ): Promise<PrintResult | null> {
    const { engraver } = shop;
    if (engraver === undefined) return { trouble: "There is nothing here that draws music.", web: false };
    const left = new AbortController();
    const leave = (): void => left.abort(new Error("nobody waits any longer"));
    const listening = token.onCancellationRequested(leave);
    if (token.isCancellationRequested) leave();
    const press = params.html ? undefined : shop.press;
    const style: PageStyle = { paper: params.paper, large: params.large };
    const kept = new Map<string, string>();
    const said = new Set(remarks);
    const made: { readonly name: string; readonly bytes: string }[] = [];
    try {
      for (const [index, { name, pages }] of files.entries()) {
        left.signal.throwIfAborted();
        const where = files.length === 1 ? "" : `File ${index + 1} of ${files.length}: `;
        const works = {
          engravers: [engraver],
          signal: left.signal,
          progress: teller(params.job, where),
        };
        const one =
          press === undefined
            ? await asHtml(pages, style, works)
            : await asPdf(pages, style, works, press, kept);
        for (const each of one.remarks) said.add(each);
        made.push({ name: `${name}${press === undefined ? ".html" : ".pdf"}`, bytes: base64(one.bytes) });
      }
      return { files: made, remarks: [...said] };
    } catch (error) {
      if (left.signal.aborted) return null;
      if (error instanceof PressError || error instanceof EngravingError) {
        return { trouble: error.message, web: error instanceof PressError };
      }
      shop.failed("printing", error);
      return { trouble: FAILED, web: false };
    } finally {
      listening.dispose();
    }
  }

  /** Tells now and then how far the pictures are, and at once that the last is done. */
  function teller(job: number, where: string): (done: number, all: number) => void {
    let told = Number.NEGATIVE_INFINITY;
    return (done, all) => {
      if (done < all && shop.now() - told < BETWEEN_WORDS) return;
      told = shop.now();
      const words = done < all ? `${done} of ${all} pictures engraved` : "Setting the pages";
      const params: PrintProgressParams = { job, words: where + words };
      connection
        .sendNotification(PRINT_PROGRESS_NOTIFICATION, params)
        .catch((error: unknown) => shop.failed("telling how far the pages are", error));
    };
  }
}

const FAILED = "The pages could not be made; the output says why.";

interface Made {
  readonly bytes: Uint8Array;
  readonly remarks: readonly string[];
}

async function asHtml(pages: Pages, style: PageStyle, works: Works): Promise<Made> {
  const { html, failed } = await htmlOf(pages, style, works);
  return { bytes: new TextEncoder().encode(html), remarks: failed.map(failedWords) };
}

async function asPdf(
  pages: Pages,
  style: PageStyle,
  works: Works,
  press: RunningPress,
  kept: Map<string, string>,
): Promise<Made> {
  const made = await pdfOf(pages, style, { ...works, press }, kept);
  // In large print a day takes as many pages as it needs.
  const overlong = style.large ? undefined : overlongWords(made.overlong);
  const remarks = [
    missingWords(made.missing),
    overlong === undefined ? undefined : `${overlong}.`,
    ...made.failed.map(failedWords),
  ];
  return { bytes: made.pdf, remarks: remarks.filter((each) => each !== undefined) };
}
