/** What a thread that engraves does, wherever it runs: it loads verovio with the first task and answers each. */
import { EngravingError, type EngravingTask, engraveWith, type Toolkit } from "./engrave";
import type { EngravingAnswer } from "./engraving-messages";

/** The two modules of verovio's package that are used. */
export interface VerovioModules {
  readonly wasm: typeof import("verovio/wasm");
  readonly esm: typeof import("verovio/esm");
}

/**
 * Answers tasks one after the other. Whatever goes wrong is an answer too: where `load` fails, or the music cannot
 * be engraved.
 */
export function engravingService(
  load: () => Promise<VerovioModules>,
): (number: number, task: EngravingTask) => Promise<EngravingAnswer> {
  let toolkit: Promise<Toolkit> | undefined;
  return async (number, task) => {
    try {
      toolkit ??= toolkitOf(load);
      return { number, svg: engraveWith(await toolkit, task) };
    } catch (error) {
      // After a fault the engraver's memory cannot be trusted; the next task starts a new one.
      toolkit = undefined;
      const trouble = error instanceof EngravingError ? error.message : "The engraver stopped on this music.";
      return { number, trouble };
    }
  };
}

async function toolkitOf(load: () => Promise<VerovioModules>): Promise<Toolkit> {
  const { wasm, esm } = await load().catch((error: unknown) => {
    throw new EngravingError(
      "The engraver (the package “verovio”) is not installed beside Leadpipe, or cannot be loaded.",
      { cause: error },
    );
  });
  const silent = (): void => undefined;
  const module = await wasm.default({ print: silent, printErr: silent });
  esm.enableLog(esm.LOG_OFF, module);
  return new esm.VerovioToolkit(module);
}
