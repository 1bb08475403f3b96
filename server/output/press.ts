/** What the press is asked and answers, whoever runs it: another thread, or a page. */
import type { PressFiles } from "./packet-files";

/** The pages of a set of files. */
export interface Pressed {
  readonly pdf: Uint8Array;
  /** For each sheet its first and its last page, counted from 1. */
  readonly spans: readonly { readonly id: string; readonly from: number; readonly to: number }[];
  /** Letters that none of the faces has; in their place stands an empty box. */
  readonly missing: readonly string[];
}

/** Sets pages and makes a PDF of them. Equal files give equal bytes. */
export interface Press {
  /** Rejects with a `PressError` where the pages could not be set, or with the signal's reason. */
  print(files: PressFiles, signal?: AbortSignal): Promise<Pressed>;
}

/** A press in a thread of its own. */
export interface RunningPress extends Press {
  /** Ends the thread, if it was started. */
  stop(): Promise<void>;
}

/** Pages could not be set; the message says why in plain words. */
export class PressError extends Error {}

/** What passes to the thread of the press. */
export interface PressRequest {
  readonly number: number;
  readonly files: readonly (readonly [path: string, text: string])[];
}

/** What comes back from it. */
export type PressAnswer = { readonly number: number } & (
  | { readonly pressed: Pressed }
  /** In plain words, and for whoever mends the template what the engine says. */
  | { readonly trouble: string; readonly detail: string }
  /** The engine broke down: what it holds cannot be trusted any more. */
  | { readonly broken: string }
);

/** Whether something that came over from the other thread is a request. */
export function isPressRequest(message: unknown): message is PressRequest {
  return (
    typeof message === "object" &&
    message !== null &&
    "number" in message &&
    typeof message.number === "number" &&
    "files" in message &&
    Array.isArray(message.files)
  );
}

/** Whether something that came over from the other thread is an answer. */
export function isPressAnswer(message: unknown): message is PressAnswer {
  return (
    typeof message === "object" &&
    message !== null &&
    "number" in message &&
    typeof message.number === "number" &&
    (("pressed" in message && typeof message.pressed === "object") ||
      ("trouble" in message && typeof message.trouble === "string") ||
      ("broken" in message && typeof message.broken === "string"))
  );
}
