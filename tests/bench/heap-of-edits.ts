import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { Workspace } from "../../server/workspace/workspace";
import { conservatoryFiles } from "./conservatory";
import { Random } from "./random";

/**
 * Types and deletes 20,000 letters in a small conservatory and prints how much larger the heap is at the end than
 * it was after the first thousand, both after a collection. A process of its own, so that nothing else is in it.
 */

const EDITS = 20_000;
const WARM_UP = 2000;

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

function heap(): number {
  // What a collection only just let go of is freed by the next.
  for (let i = 0; i < 4; i++) collect();
  return process.memoryUsage().heapUsed;
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
const texts = new Map(conservatoryFiles({ exercises: 30, students: 6, alone: 2, group: 2 }));
for (const [path, text] of texts) workspace.setDisk(path, text, true);
const paths = [...texts.keys()];
const random = new Random(3);
let before = 0;
for (let i = 0; i < WARM_UP + EDITS; i += 2) {
  if (i === WARM_UP) before = heap();
  const path = paths[random.whole(0, paths.length - 1)]!;
  const text = texts.get(path)!;
  const at = random.whole(0, text.length);
  const letter = 'x1 \n{}"#'[random.whole(0, 7)]!;
  workspace.setOpen(path, text.slice(0, at) + letter + text.slice(at));
  if (random.whole(0, 3) > 0) await workspace.settled();
  workspace.setOpen(path, text);
  if (random.whole(0, 3) > 0) await workspace.settled();
  if (random.whole(0, 20) === 0) workspace.close(path);
}
await workspace.settled();
process.stdout.write(String(heap() / before));
