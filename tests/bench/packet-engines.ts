/**
 * What the two engines alone take for a packet, in a fresh process: verovio for its pictures, one after the other,
 * and Typst for its pages. Prints both in milliseconds. Called with the file of the book and with the project's root.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import startTypst, { TypstCompilerBuilder } from "@myriaddreamin/typst-ts-web-compiler";
import { VerovioToolkit } from "verovio/esm";
import createModule from "verovio/wasm";
import { findInstrument } from "../../server/music/instrument";
import { type EngravingTask, engraveWith, OPTIONS } from "../../server/notation/engrave";
import { packetFiles, packetTasks } from "../../server/output/packet-files";
import { packetLook } from "../../server/output/packet-print";
import { packetChoice } from "../../server/pages/sheet-choice";
import { packet } from "../../server/pages/sheet-packet";
import { checkTexts } from "../server/check-texts";

const [book = "", root = ""] = process.argv.slice(2);
const { files } = checkTexts(new Map([[book, readFileSync(book, "utf8")]]));
const plan = files[0]?.plan;
const instrument = findInstrument("trumpet");
if (plan === undefined || instrument === undefined) throw new Error("no book");
const style = { paper: "a4", large: false } as const;
const choice = {
  title: "Packet",
  lines: [],
  plan,
  instrument,
  player: undefined,
  terms: [],
  keys: "all",
} as const;
const pages = packet(packetChoice(choice, plan.exercises), packetLook(style, false));
const tasks = packetTasks(pages);

const silent = (): void => undefined;
const toolkit = new VerovioToolkit(await createModule({ print: silent, printErr: silent }));
const pictures = new Map<EngravingTask, string>();
let engraving = 0;
for (const task of tasks) {
  const start = performance.now();
  toolkit.setOptions({
    ...OPTIONS,
    pageWidth: task.width,
    breaks: task.broken ? "encoded" : "none",
    adjustPageWidth: !task.broken,
  });
  if (!toolkit.loadData(task.musicXml)) throw new Error(`unread: ${task.title}`);
  toolkit.renderToSVG(1);
  engraving += performance.now() - start;
}
// The pictures as the pages hold them, outside of what is timed.
for (const task of tasks) pictures.set(task, engraveWith(toolkit, task));

const beside = createRequire(join(root, "package.json"));
await startTypst({
  module_or_path: readFileSync(beside.resolve("@myriaddreamin/typst-ts-web-compiler/wasm")),
});
const builder = new TypstCompilerBuilder();
builder.set_dummy_access_model();
for (const face of [
  "@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf",
  "@expo-google-fonts/tinos/700Bold/Tinos_700Bold.ttf",
  "@expo-google-fonts/tinos/400Regular_Italic/Tinos_400Regular_Italic.ttf",
  "dejavu-fonts-ttf/ttf/DejaVuSans.ttf",
]) {
  await builder.add_raw_font(readFileSync(beside.resolve(face)));
}
const compiler = await builder.build();
for (const [path, text] of packetFiles(pages, style, (task) => pictures.get(task) ?? "")) {
  if (path === "/main.typ") compiler.add_source(path, text);
  else compiler.map_shadow(path, new TextEncoder().encode(text));
}
const start = performance.now();
const made: unknown = compiler.compile("/main.typ", undefined, "pdf", 3);
const setting = performance.now() - start;
if (typeof made !== "object" || made === null || !("result" in made)) throw new Error("no pages were set");

process.stdout.write(JSON.stringify({ pictures: tasks.length, engraving, setting }));
