import type { RunningEngraver } from "../notation/engrave";
import type { Paint } from "../output/paint";
import type { RunningPress } from "../output/press";
import type { AskGit } from "../workspace/revision-files";

/** What a verb may know and do of the world around it; the entry point supplies it. */
export interface World {
  readonly cwd: string;
  readonly readInput: () => Promise<Uint8Array>;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** For standard output. */
  readonly paint: Paint;
  /** Whether somebody is watching standard error. */
  readonly watched: boolean;
  /** Starts the engraver. */
  readonly engraver: () => Promise<RunningEngraver>;
  /** Starts the press, which sets pages. */
  readonly press: () => Promise<RunningPress>;
  /** From here on the person at the keyboard stops the work by this signal, and no longer the whole program at once. */
  readonly interruption: () => AbortSignal;
  /** The present moment. */
  readonly today: () => Date;
  /** Milliseconds from any start. */
  readonly now: () => number;
  /** Asks git. */
  readonly git: AskGit;
}

/** How a verb ended. */
export const CLEAN = 0;
export const FOUND = 1;
export const MISUSED = 2;
/** Stopped by the person at the keyboard; the number is what shells say of an interrupt (128 and the signal's 2). */
export const INTERRUPTED = 130;

/** The command was not asked in a way it understands; the message says how to ask. */
export class Misuse extends Error {}
