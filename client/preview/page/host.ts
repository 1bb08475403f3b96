import type { FromPage, Told, ToPage } from "../messages";

/** What VS Code gives to the script of a page, once. */
interface EditorApi {
  postMessage(message: FromPage): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): EditorApi;

/** The other side: the extension, and through it the server. */
export class Host {
  private readonly api = acquireVsCodeApi();
  private readonly waiting = new Map<number, (result: unknown) => void>();
  private numbers = 0;

  constructor(private readonly hear: (message: Exclude<ToPage, { kind: "answer" }>) => void) {
    window.addEventListener("message", ({ data }: MessageEvent<ToPage>) => {
      if (data.kind !== "answer") this.hear(data);
      else {
        this.waiting.get(data.number)?.(data.result);
        this.waiting.delete(data.number);
      }
    });
    document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) => {
      this.tell({ what: "violation", words: `${violatedDirective} ${blockedURI}` });
    });
  }

  /** Says that the page is there to hear. */
  ready(): void {
    this.api.postMessage({ kind: "ready" });
  }

  /**
   * Asks the server. Null where it has no answer, or where the signal came before it. The answer is of the type that
   * the protocol says: server and page ship together.
   */
  ask<T>(request: string, params: unknown, signal?: AbortSignal): Promise<T | null> {
    const number = this.numbers++;
    return new Promise((resolve) => {
      const leave = (): void => {
        this.waiting.delete(number);
        this.api.postMessage({ kind: "leave", number });
        resolve(null);
      };
      if (signal?.aborted === true) {
        resolve(null);
        return;
      }
      signal?.addEventListener("abort", leave, { once: true });
      this.waiting.set(number, (result) => {
        signal?.removeEventListener("abort", leave);
        resolve(result as T | null);
      });
      this.api.postMessage({ kind: "ask", number, request, params });
    });
  }

  send(message: FromPage): void {
    this.api.postMessage(message);
  }

  tell(told: Told): void {
    this.api.postMessage({ kind: "told", told });
  }

  /** What the page remembers while it is closed or the window is loaded anew. */
  get state(): unknown {
    return this.api.getState();
  }

  set state(state: unknown) {
    this.api.setState(state);
  }
}
