import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchEngraver } from "../../../server/launch-engraver";
import { type EngravingTask, engravingTask, type RunningEngraver } from "../../../server/notation/engrave";
import { keepingEngraver, queuedEngraver } from "../../../server/notation/engraving-queue";
import { sheetOfMusic } from "./samples";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));

/** The thread as it is shipped, in a folder with or without the packages beside it. */
async function bundled(beside: boolean): Promise<string> {
  const outdir = mkdtempSync(join(tmpdir(), "leadpipe-engraver-"));
  await build({
    entryPoints: { engraver: join(ROOT, "server/engraver.ts") },
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    external: ["verovio"],
    outdir,
    outExtension: { ".js": ".cjs" },
    logLevel: "warning",
  });
  if (beside) symlinkSync(join(ROOT, "node_modules"), join(outdir, "node_modules"));
  return outdir;
}

function task(music: string): EngravingTask {
  return engravingTask(sheetOfMusic(music), "Test", { width: 900, fingerings: false });
}

describe("in a thread of its own", () => {
  let folder: string;
  let engraver: RunningEngraver;
  beforeAll(async () => {
    folder = await bundled(true);
    engraver = launchEngraver(join(folder, "engraver.cjs"));
  });
  afterAll(async () => {
    await engraver.stop();
    rmSync(folder, { recursive: true });
  });

  test("engraves, and goes on after music it cannot read", async () => {
    expect(await engraver.engrave(task("1/1 C4 |"))).toMatch(/^<svg /);
    const unread = { musicXml: "nonsense", width: 900, broken: false, title: "" };
    await expect(engraver.engrave(unread)).rejects.toThrow("could not read this music");
    expect(await engraver.engrave(task("1/1 D4 |"))).toMatch(/^<svg /);
  });

  test("answers each with its own picture", async () => {
    const tasks = ["C4", "D4", "E4 staccato", "F4 accent"].map((note) => task(`1/1 ${note} |`));
    const together = await Promise.all(tasks.map((each) => engraver.engrave(each)));
    expect(new Set(together).size).toBe(4);
    for (const [index, each] of tasks.entries()) expect(await engraver.engrave(each)).toBe(together[index]);
  });

  test("what waits when it is stopped is not begun any more", async () => {
    const tasks = ["C5", "D5", "E5", "F5", "G5"].map((note) => engraver.engrave(task(`1/1 ${note} |`)));
    const ended = Promise.allSettled(tasks);
    await engraver.stop();
    expect((await ended).map(({ status }) => status)).toEqual(Array(5).fill("rejected"));
  });

  test("starts again after it was stopped", async () => {
    await engraver.stop();
    expect(await engraver.engrave(task("1/1 G4 tenuto |"))).toMatch(/^<svg /);
  });
});

test("where the engraver is not installed, the message says so", async () => {
  const folder = await bundled(false);
  const engraver = launchEngraver(join(folder, "engraver.cjs"));
  await expect(engraver.engrave(task("1/1 C4 |"))).rejects.toThrow("not installed beside Leadpipe");
  await engraver.stop();
  rmSync(folder, { recursive: true });
});

describe("the queue", () => {
  /** Work that is done when the test says so. */
  function byHand() {
    const begun: { readonly title: string; readonly finish: (svg: string) => void }[] = [];
    const work = (each: EngravingTask): Promise<string> =>
      new Promise((finish) => {
        begun.push({ title: each.title, finish });
      });
    return { begun, work };
  }
  const named = (title: string): EngravingTask => ({ musicXml: "", width: 1, broken: false, title });
  const turn = (): Promise<void> => new Promise((done) => setImmediate(done));

  test("a task nobody waits for is not begun, and its result would be dropped", async () => {
    const { begun, work } = byHand();
    const engraver = queuedEngraver(work);
    const [one, other] = [new AbortController(), new AbortController()];
    const first = engraver.engrave(named("first"), one.signal);
    const second = engraver.engrave(named("second"), other.signal);
    const third = engraver.engrave(named("third"));
    other.abort(new Error("stale"));
    one.abort(new Error("stale too"));
    await expect(second).rejects.toThrow("stale");
    await expect(first).rejects.toThrow("stale too");
    begun[0]?.finish("1");
    await turn();
    expect(begun.map((each) => each.title)).toEqual(["first", "third"]);
    begun[1]?.finish("3");
    expect(await third).toBe("3");
    const gone = AbortSignal.abort(new Error("gone before"));
    await expect(engraver.engrave(named("fourth"), gone)).rejects.toThrow("gone before");
    expect(begun.length).toBe(2);
  });

  test("a picture is made once, and the one used longest ago is dropped", async () => {
    const asked: string[] = [];
    const engraver = keepingEngraver(
      {
        engrave: async (each) => {
          asked.push(each.title);
          return each.title;
        },
      },
      2,
    );
    await Promise.all([engraver.engrave(named("a")), engraver.engrave(named("a"))]);
    await engraver.engrave(named("b"));
    await engraver.engrave(named("a"));
    await engraver.engrave(named("c"));
    await engraver.engrave(named("a"));
    await engraver.engrave(named("b"));
    expect(asked).toEqual(["a", "b", "c", "b"]);
  });

  test("a failure is not kept", async () => {
    let times = 0;
    const engraver = keepingEngraver(
      {
        engrave: async () => {
          if (times++ === 0) throw new Error("not yet");
          return "now";
        },
      },
      2,
    );
    await expect(engraver.engrave(named("a"))).rejects.toThrow("not yet");
    expect(await engraver.engrave(named("a"))).toBe("now");
  });
});

test("a thread that dies takes along the picture it was at, and not the one behind it", async () => {
  const folder = mkdtempSync(join(tmpdir(), "leadpipe-engraver-"));
  const script = join(folder, "engraver.cjs");
  writeFileSync(
    script,
    `const { parentPort } = require("node:worker_threads");
    parentPort.on("message", ({ number, task }) => {
      if (task.title === "deadly") process.exit(1);
      parentPort.postMessage({ number, svg: task.title });
    });`,
  );
  const engraver = launchEngraver(script);
  const named = (title: string): EngravingTask => ({ musicXml: "", width: 1, broken: false, title });
  const [deadly, behind, last] = ["deadly", "behind", "last"].map((title) => engraver.engrave(named(title)));
  await expect(deadly).rejects.toThrow("stopped on this music");
  expect([await behind, await last]).toEqual(["behind", "last"]);
  await engraver.stop();
  rmSync(folder, { recursive: true });
});
