import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { Workspace } from "../../server/workspace/workspace";
import { conservatoryFiles } from "./conservatory";
import { Random } from "./random";

/**
 * Types and deletes 20,000 letters in a small conservatory and prints how much larger the heap is at the end than
 * it was after the first edits, both after a collection. A process of its own, so that nothing else is in it.
 */

const EDITS = 20_000;
const WARM_UP = 6000;
/** Letters; shorter than any declaration. */
const STRETCH = 100;

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

/** The heap when collecting once more frees nothing: what one collection only just let go of is freed by a later one. */
function heap(): number {
  let least = Number.POSITIVE_INFINITY;
  for (let idle = 0; idle < 4; idle++) {
    collect();
    const { heapUsed } = process.memoryUsage();
    if (heapUsed < least * 0.999) idle = 0;
    least = Math.min(least, heapUsed);
  }
  return least;
}

const workspace = new Workspace(
  { now: () => performance.now(), turn: () => new Promise((resolve) => setImmediate(resolve)) },
  {
    checked: () => {},
    settled: () => {},
    failed: (path, error) => {
      throw new Error(`${path}: ${String(error)}`);
    },
  },
);
const texts = new Map(conservatoryFiles({ exercises: 60, students: 12, alone: 4, group: 4 }));
for (const [path, text] of texts) workspace.setDisk(path, text, true);
const paths = [...texts.keys()];
const random = new Random(3);

/** Types a letter and takes it away again; the editor waits for the findings or not, as people do. */
async function edit(path: string, at: number, letter: string, waits: boolean): Promise<void> {
  const text = texts.get(path)!;
  workspace.setOpen(path, text.slice(0, at) + letter + text.slice(at));
  if (waits) await workspace.settled();
  workspace.setOpen(path, text);
  if (waits) await workspace.settled();
}

async function edits(count: number): Promise<void> {
  for (let i = 0; i < count; i += 2) {
    const path = paths[random.whole(0, paths.length - 1)]!;
    const at = random.whole(0, texts.get(path)!.length);
    await edit(path, at, 'x1 \n{}"#'[random.whole(0, 7)]!, random.whole(0, 3) > 0);
    if (random.whole(0, 20) === 0) workspace.close(path);
  }
}

/** The heap with the studio as it was at the start, and nothing open. */
async function heapAtRest(): Promise<number> {
  for (const path of paths) workspace.close(path);
  await workspace.settled();
  // Files keep what they were a moment ago, to take over from it; now that is the same as what they are.
  for (const [path, text] of texts) {
    workspace.setOpen(path, text);
    workspace.close(path);
    await workspace.settled();
  }
  return heap();
}

// Every stretch of every file is read once by itself, so that both measurements find all of them read so.
for (const [path, text] of texts) {
  for (let at = 0; at < text.length; at += STRETCH) await edit(path, at, "x", true);
}
await edits(WARM_UP);
const before = await heapAtRest();
await edits(EDITS);
process.stdout.write(String((await heapAtRest()) / before));
