import { type CancellationToken, LSPErrorCodes, ResponseError } from "vscode-languageserver";

/** What answering needs of the rest of the server. */
export interface AnswerGround {
  readonly turn: () => Promise<void>;
  /** A number that changes with every edit of the file; undefined where it is not open. */
  readonly versionOf: (path: string) => number | undefined;
  readonly failed: (what: string, error: unknown) => void;
}

/**
 * Answers requests each by itself: one that is out of date is not worked on, and one that fails is told of in the
 * log and answered with the last good result, so that the server goes on.
 */
export class Answers {
  private waiting = 0;
  private readonly lastGood = new Map<string, Map<string, unknown>>();

  constructor(private readonly ground: AnswerGround) {}

  /**
   * The answer about a file. `kept` says that an older result of the same request is better than none: the outline
   * of a file yes, a hover over what stood there before no.
   */
  async about<R>(
    what: string,
    path: string,
    token: CancellationToken,
    work: () => R,
    fallback: R,
    kept: boolean,
  ): Promise<R | ResponseError<never>> {
    const { turn, versionOf, failed } = this.ground;
    const version = versionOf(path);
    await this.hearFirst(turn);
    if (token.isCancellationRequested) return cancelled();
    if (versionOf(path) !== version) {
      return new ResponseError<never>(LSPErrorCodes.ContentModified, "The text was changed in the meantime.");
    }
    try {
      const result = work();
      if (kept) this.keep(path, what, result);
      return result;
    } catch (error) {
      failed(what, error);
      const results = this.lastGood.get(path);
      // The same request of the same table: what was kept under its name has its type.
      return kept && results?.has(what) === true ? (results.get(what) as R) : fallback;
    }
  }

  /** The answer about no file in particular. */
  async plain<R>(
    what: string,
    token: CancellationToken,
    work: () => R,
    fallback: R,
  ): Promise<R | ResponseError<never>> {
    await this.hearFirst(this.ground.turn);
    if (token.isCancellationRequested) return cancelled();
    try {
      return work();
    } catch (error) {
      this.ground.failed(what, error);
      return fallback;
    }
  }

  /** Edits and cancellations that have come in already are heard before an answer is worked out. */
  private async hearFirst(turn: () => Promise<void>): Promise<void> {
    this.waiting++;
    await turn();
    this.waiting--;
  }

  /** Whether somebody waits for an answer that nobody works at. */
  get isAsked(): boolean {
    return this.waiting > 0;
  }

  /** The file was closed. */
  forget(path: string): void {
    this.lastGood.delete(path);
  }

  private keep(path: string, what: string, result: unknown): void {
    const results = this.lastGood.get(path) ?? new Map<string, unknown>();
    results.set(what, result);
    this.lastGood.set(path, results);
  }
}

function cancelled(): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
}
