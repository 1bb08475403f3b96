/** Engraver and press as they ship, and the programs that look into a PDF, for all tests of printed pages. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { unrollTerm } from "../../../server/days/unroll";
import { launchEngraver } from "../../../server/launch-engraver";
import { launchPress } from "../../../server/launch-press";
import type { PrintWorks } from "../../../server/output/packet-print";
import type { AskedTerm } from "../../../server/pages/sheet-choice";
import { playersOf } from "../../../server/plan/plan";
import { checkSources } from "../../../server/workspace/check-sources";
import { loadFiles } from "../../../server/workspace/load-files";
import { ensureProgram } from "../../editor/ensure-program";
import { readers } from "../../editor/programs";
import { planOf } from "../plan-of";

export const ROOT = fileURLToPath(new URL("../../..", import.meta.url));

export interface Workshop extends PrintWorks {
  stop(): Promise<void>;
}

/** The threads that engrave and set, bundled as for the command line. */
export async function workshop(): Promise<Workshop> {
  const outdir = mkdtempSync(join(tmpdir(), "leadpipe-press-"));
  await build({
    entryPoints: { engraver: join(ROOT, "server/engraver.ts"), press: join(ROOT, "server/press.ts") },
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    external: ["verovio", "@myriaddreamin/typst-ts-web-compiler"],
    outdir,
    outExtension: { ".js": ".cjs" },
    logLevel: "warning",
  });
  symlinkSync(join(ROOT, "node_modules"), join(outdir, "node_modules"));
  const engraver = launchEngraver(join(outdir, "engraver.cjs"));
  const press = launchPress(join(outdir, "press.cjs"));
  return {
    engravers: [engraver],
    press,
    stop: async () => {
      await Promise.all([engraver.stop(), press.stop()]);
      rmSync(outdir, { recursive: true });
    },
  };
}

/** The programs that look into a PDF, from Debian where they are missing: without them nothing is checked. */
/** A PDF under examination. */
export class Examined {
  private readonly folder = mkdtempSync(join(tmpdir(), "leadpipe-pdf-"));
  private readonly file = join(this.folder, "pages.pdf");

  constructor(pdf: Uint8Array) {
    writeFileSync(this.file, pdf);
  }

  /** What `qpdf --check` says; it ends with an error where it finds one. */
  check(): Promise<string> {
    return this.ask("qpdf", ["--check", this.file]);
  }

  /** All text, as it is read; of one page where one is named. Words parted by one space. */
  async text(page?: number): Promise<string> {
    const of = page === undefined ? [] : ["-f", String(page), "-l", String(page)];
    const text = await this.ask("pdftotext", [...of, "-layout", this.file, "-"]);
    return text.replace(/\s+/g, " ").normalize("NFC");
  }

  async pages(): Promise<number> {
    return Number(/Pages:\s+(\d+)/.exec(await this.ask("pdfinfo", [this.file]))?.[1]);
  }

  async paper(): Promise<string> {
    return /Page size:\s+(.*)/.exec(await this.ask("pdfinfo", [this.file]))?.[1] ?? "";
  }

  async isTagged(): Promise<boolean> {
    return /Tagged:\s+yes/.test(await this.ask("pdfinfo", [this.file]));
  }

  /** Fonts with whether each is embedded and a subset. */
  async fonts(): Promise<readonly { name: string; embedded: boolean; subset: boolean }[]> {
    const lines = (await this.ask("pdffonts", [this.file])).trimEnd().split("\n").slice(2);
    return lines.map((line) => {
      const columns = line.trim().split(/\s+/);
      const [embedded, subset] = columns.slice(-5);
      return { name: columns[0] ?? "", embedded: embedded === "yes", subset: subset === "yes" };
    });
  }

  /** Bookmarks in the order of the pages, each with the page on which it lands. */
  async bookmarks(): Promise<readonly { title: string; page: number; depth: number }[]> {
    const told: unknown = JSON.parse(await this.ask("qpdf", ["--json", "--json-key=outlines", this.file]));
    const found: { title: string; page: number; depth: number }[] = [];
    const walk = (nodes: unknown, depth: number): void => {
      if (!Array.isArray(nodes)) return;
      for (const node of nodes) {
        found.push({ title: node.title, page: node.destpageposfrom1, depth });
        walk(node.kids, depth + 1);
      }
    };
    if (typeof told === "object" && told !== null && "outlines" in told) walk(told.outlines, 0);
    return found;
  }

  /** Alternative texts of pictures, from the structure of the file. */
  async alternatives(): Promise<readonly string[]> {
    const plain = join(this.folder, "plain.pdf");
    await this.ask("qpdf", ["--json", "--json-key=qpdf", this.file]).then((text) =>
      writeFileSync(plain, text),
    );
    const texts = [...readFileSync(plain, "utf8").matchAll(/"\/Alt": "u:((?:[^"\\]|\\.)*)"/g)];
    return texts.map((match) => JSON.parse(`"${match[1] ?? ""}"`));
  }

  /** A page as grey pixels, one byte each, at 60 dots to the inch. */
  async pixels(page: number): Promise<{ width: number; height: number; grey: Uint8Array }> {
    const out = join(this.folder, "page");
    await this.ask("pdftoppm", [
      "-gray",
      "-r",
      "60",
      "-f",
      String(page),
      "-l",
      String(page),
      "-singlefile",
      this.file,
      out,
    ]);
    const bytes = readFileSync(`${out}.pgm`);
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString("latin1"));
    if (head === null) throw new Error("pdftoppm wrote no grey picture");
    return { width: Number(head[1]), height: Number(head[2]), grey: bytes.subarray(head[0].length) };
  }

  remove(): void {
    rmSync(this.folder, { recursive: true });
  }

  private async ask(program: keyof typeof readers, args: readonly string[]): Promise<string> {
    const path = await ensureProgram(readers[program], () => {});
    return execFileSync(path, args, {
      encoding: "utf8",
      maxBuffer: 2 ** 28,
      stdio: ["ignore", "pipe", "ignore"],
    });
  }
}

/** The terms of a text, or of files of the sample studio, as this player meets them. */
export function termsOfText(text: string, player: string): readonly AskedTerm[] {
  const plan = planOf(text);
  const who = plan.players.get(player);
  if (who === undefined) throw new Error(`no player ${player}`);
  return [...plan.terms.values()].map((term) => ({ plan, term: unrollTerm(plan, term, who) }));
}

/** The terms of one file of the sample studio, as this player meets them. */
export function sampleTerms(file: string, player: string): readonly AskedTerm[] {
  const { set } = loadFiles({ paths: [join(ROOT, "samples", file)], cwd: ROOT, input: undefined });
  const { files } = checkSources(set, { findings: false });
  return files
    .filter((each) => each.asked)
    .flatMap(({ plan }) =>
      plan.own.terms.flatMap((term) =>
        playersOf(plan, term)
          .filter((each) => each.name === player)
          .map((each) => ({ plan, term: unrollTerm(plan, term, each) })),
      ),
    );
}
