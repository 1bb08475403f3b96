import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { readSource } from "../../grammar/pieces";
import { memoryOfNode, timeOfNode } from "./child";
import type { Judge } from "./judge";
import { best, interleaved, type Timed } from "./timing";

/** What the bench lends to this part. */
export interface PacketGround {
  readonly root: string;
  /** The command line as it is shipped. */
  readonly cli: string;
  readonly judge: Judge;
}

const EXERCISES = 24;

/** A book of 24 exercises in keys: the first of the sample studio's that are neither series nor over the valves. */
function bookOf24(root: string): string {
  const studio = readFileSync(join(root, "samples/studio.practice"), "utf8");
  const book = readFileSync(join(root, "samples/book.practice"), "utf8");
  const keyed = readSource(book).pieces.filter(
    ({ text }) => /^exercise/m.test(text) && /\n {2}key /.test(text) && !/\n {2}series /.test(text),
  );
  if (keyed.length < EXERCISES) throw new Error(`the sample book holds only ${keyed.length} such exercises`);
  return (
    studio +
    keyed
      .slice(0, EXERCISES)
      .map((piece) => piece.text)
      .join("\n")
  );
}

/** (k) A packet of 24 exercises in 12 keys each, beside what its two engines alone take. */
export async function packetOf24({ root, cli, judge }: PacketGround): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "leadpipe-bench-packet-"));
  try {
    const [book, pdf] = [join(folder, "book.practice"), join(folder, "packet.pdf")];
    writeFileSync(book, bookOf24(root));
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"));
    const engines = join(folder, "engines.mjs");
    await build({
      entryPoints: [join(root, "tests/bench/packet-engines.ts")],
      bundle: true,
      platform: "node",
      target: "node20",
      format: "esm",
      external: ["verovio", "@myriaddreamin/typst-ts-web-compiler"],
      outfile: engines,
      logLevel: "warning",
    });
    let alone = { pictures: 0, engraving: 0, setting: 0 };
    const reference: Timed = () => {
      alone = JSON.parse(execFileSync(process.execPath, [engines, book, root], { encoding: "utf8" }));
      return alone.engraving + alone.setting;
    };
    const words = [cli, "print", "packet", book, "--keys", "all", "--to", pdf, "--force"];
    const print: Timed = () => timeOfNode(words);
    const [engine = 0, ours = 0] = (await interleaved(3, reference, print)).map(best);
    const s = (time: number): string => `${(time / 1000).toFixed(1)} s`;
    const bytes = statSync(pdf).size;
    const pages = pagesOf(readFileSync(pdf));
    judge(
      "k",
      `a packet of ${EXERCISES} exercises in 12 keys`,
      ours / engine,
      1.3,
      "× its engines alone",
      `${s(ours)}; engraving ${alone.pictures} pictures ${s(alone.engraving)}, setting ${s(alone.setting)}; ${pages} pages, ${bytes.toLocaleString("en")} bytes`,
    );
    judge("k", "the packet's memory", memoryOfNode(words), 700, "MB", "");
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The greatest number of leaves that any node of the page tree counts. */
function pagesOf(pdf: Buffer): number {
  const counts = [...pdf.toString("latin1").matchAll(/\/Type\s*\/Pages[^>]*?\/Count (\d+)/g)];
  return Math.max(0, ...counts.map((match) => Number(match[1])));
}
