/** The same files held against PDF/UA-1 by the native compiler, which refuses what a reader aloud could not tell. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { NodeCompiler } from "@myriaddreamin/typst-ts-node-compiler";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { PressFiles } from "../../../server/output/packet-files";
import { packetLook, printedPacket, printedSheets } from "../../../server/output/packet-print";
import { packetChoice, weekChoice } from "../../../server/pages/sheet-choice";
import { packet } from "../../../server/pages/sheet-packet";
import type { PageStyle } from "../../../server/pages/sheet-style";
import { ROOT, termsOfText, type Workshop, workshop } from "./printing";
import { STUDIO } from "./studio";

const FACES = [
  "@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf",
  "@expo-google-fonts/tinos/700Bold/Tinos_700Bold.ttf",
  "@expo-google-fonts/tinos/400Regular_Italic/Tinos_400Regular_Italic.ttf",
  "dejavu-fonts-ttf/ttf/DejaVuSans.ttf",
].map((face) => readFileSync(join(ROOT, "node_modules", face)));

/** The PDF/UA-1 file of these pages. Throws what the compiler has against them. */
function universal(files: PressFiles): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), "leadpipe-ua-"));
  try {
    const compiler = NodeCompiler.create({ workspace: folder, fontArgs: [{ fontBlobs: [...FACES] }] });
    for (const [path, text] of files) {
      if (path === "/main.typ") compiler.addSource(join(folder, path), text);
      else compiler.mapShadow(join(folder, path), Buffer.from(text));
    }
    const compiled = compiler.compile({ mainFilePath: join(folder, "main.typ") });
    const document = compiled.result;
    if (document === null) throw new Error(JSON.stringify(compiled.takeDiagnostics()?.shortDiagnostics));
    return compiler.pdf(document, { pdfStandard: "ua-1" });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

let works: Workshop;
beforeAll(async () => {
  works = await workshop();
});
afterAll(() => works.stop());

/** The files that a job hands to the press. */
async function filesOf(job: (watched: Workshop) => Promise<unknown>): Promise<PressFiles> {
  let seen: PressFiles | undefined;
  const press = {
    print: (files: PressFiles) => {
      seen = files;
      return works.press.print(files);
    },
  };
  await job({ ...works, press });
  if (seen === undefined) throw new Error("nothing was printed");
  return seen;
}

const [autumn] = termsOfText(STUDIO, "K. M.");
if (autumn === undefined) throw new Error("no term");
const { plan, term } = autumn;

describe.each([
  { paper: "a4", large: false },
  { paper: "letter", large: true },
] satisfies readonly PageStyle[])("on $paper, large $large", (style) => {
  it("a week with its days can be read aloud", async () => {
    const wanted = weekChoice(autumn, 2, { days: true, fingerings: true });
    const files = await filesOf((watched) => printedSheets(wanted, "Week", style, watched));
    expect(Buffer.from(universal(files)).toString("latin1")).toContain("pdfuaid:part>1<");
  });

  it("a packet can be read aloud", async () => {
    const { player } = term;
    const { instrument } = player;
    const choice = {
      title: "Book",
      lines: ["K. M."],
      plan,
      instrument,
      player,
      terms: [term],
      keys: "travelled",
    } as const;
    const made = packet(packetChoice(choice, plan.exercises), packetLook(style, false));
    const files = await filesOf((watched) => printedPacket(made, style, watched));
    expect(Buffer.from(universal(files)).toString("latin1")).toContain("pdfuaid:part>1<");
  });
});

it("a picture without words would be refused", async () => {
  const wanted = weekChoice(autumn, 2, { days: true, fingerings: false });
  const style: PageStyle = { paper: "a4", large: false };
  const files = await filesOf((watched) => printedSheets(wanted, "Week", style, watched));
  const main = files.get("/main.typ") ?? "";
  const mute = new Map(files).set("/main.typ", main.replace(", alt: p.alt", ""));
  expect(mute.get("/main.typ")).not.toBe(main);
  expect(() => universal(mute)).toThrow(/alt/);
});
