/**
 * The thread that sets pages. It loads Typst and the faces with the first task and answers one after the other;
 * whatever goes wrong is an answer too. Nothing is fetched: the low-level builder is used, and the faces are ours.
 */
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, join } from "node:path";
import { parentPort } from "node:worker_threads";
import type { TypstCompiler } from "@myriaddreamin/typst-ts-web-compiler";
import { lettersMissing, lettersOf } from "./output/font-letters";
import { type PressFiles, wordsOf } from "./output/packet-files";
import { isPressRequest, type PressAnswer, PressError, type Pressed } from "./output/press";

/** Tinos has the measures the engraver reckons with; DejaVu Sans has ♭ ♮ ♯ and the letters Tinos lacks. */
const FACES = [
  "@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf",
  "@expo-google-fonts/tinos/700Bold/Tinos_700Bold.ttf",
  "@expo-google-fonts/tinos/400Regular_Italic/Tinos_400Regular_Italic.ttf",
  "@expo-google-fonts/tinos/700Bold_Italic/Tinos_700Bold_Italic.ttf",
  "dejavu-fonts-ttf/ttf/DejaVuSans.ttf",
  "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf",
] as const;

const ENGINE = "@myriaddreamin/typst-ts-web-compiler/pkg/typst_ts_web_compiler_bg.wasm";
const MAIN = "/main.typ";
/** How the engine writes what is wrong: as text for people. */
const AS_TEXT = 3;

interface Loaded {
  readonly compiler: TypstCompiler;
  readonly faces: readonly ReadonlySet<number>[];
}

let loaded: Promise<Loaded> | undefined;
let isLoaded = false;

/** A file of the engine or of a face: from the folder in which the extension ships them, or else from its package. */
function fileOf(name: string): Buffer {
  const shipped = join(__dirname, "press", basename(name));
  if (existsSync(shipped)) return readFileSync(shipped);
  return readFileSync(createRequire(join(__dirname, "press.cjs")).resolve(name));
}

async function load(): Promise<Loaded> {
  try {
    const { default: start, TypstCompilerBuilder } = await import("@myriaddreamin/typst-ts-web-compiler");
    await start({ module_or_path: fileOf(ENGINE) });
    const builder = new TypstCompilerBuilder();
    builder.set_dummy_access_model();
    const fonts = FACES.map(fileOf);
    for (const font of fonts) await builder.add_raw_font(font);
    return { compiler: await builder.build(), faces: fonts.map(lettersOf) };
  } catch (error) {
    throw new PressError(
      "What PDF pages are set with (Typst and its faces) is not installed beside Leadpipe, or cannot be loaded. Pages for a browser can be had all the same.",
      { cause: error },
    );
  }
}

function pressed({ compiler, faces }: Loaded, files: PressFiles): Pressed {
  compiler.reset_shadow();
  const encoder = new TextEncoder();
  for (const [path, text] of files) {
    if (path === MAIN) compiler.add_source(path, text);
    else compiler.map_shadow(path, encoder.encode(text));
  }
  const made: unknown = compiler.compile(MAIN, undefined, "pdf", AS_TEXT);
  if (
    typeof made !== "object" ||
    made === null ||
    !("result" in made) ||
    !(made.result instanceof Uint8Array)
  ) {
    throw new PressError("The pages could not be set.", { cause: made });
  }
  const first = positions(compiler, "start");
  const spans = positions(compiler, "end").map(({ id, page }) => ({
    id,
    from: first.find((each) => each.id === id)?.page ?? page,
    to: page,
  }));
  // A face that has the upright letter has the bold one.
  return { pdf: made.result, spans, missing: lettersMissing(wordsOf(files), faces) };
}

function positions(compiler: TypstCompiler, label: string): readonly { id: string; page: number }[] {
  const found: unknown = JSON.parse(compiler.query(MAIN, undefined, `<${label}>`, "value"));
  if (!Array.isArray(found)) return [];
  return found.filter(
    (each: unknown): each is { id: string; page: number } =>
      typeof each === "object" &&
      each !== null &&
      "id" in each &&
      typeof each.id === "string" &&
      "page" in each &&
      typeof each.page === "number",
  );
}

async function answer(number: number, files: PressFiles): Promise<PressAnswer> {
  try {
    loaded ??= load();
    const engine = await loaded;
    isLoaded = true;
    return { number, pressed: pressed(engine, files) };
  } catch (error) {
    if (!(error instanceof PressError)) return { number, broken: String(error) };
    // What could not be loaded is looked for again with the next task.
    if (!isLoaded) loaded = undefined;
    const { message, cause } = error;
    return {
      number,
      trouble: message,
      detail: cause instanceof Error ? cause.message : JSON.stringify(cause),
    };
  }
}

parentPort?.on("message", (message: unknown) => {
  if (!isPressRequest(message)) return;
  void answer(message.number, new Map(message.files)).then((each) => parentPort?.postMessage(each));
});
