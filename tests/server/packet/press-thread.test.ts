import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchPress } from "../../../server/launch-press";
import { PressError } from "../../../server/output/press";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leadpipe-press-thread-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A press that has room for two tasks, and then does what the script says. */
function pressThat(then: string) {
  const script = join(folder, `${then.length}.cjs`);
  writeFileSync(
    script,
    `const { parentPort } = require("node:worker_threads");
    let done = 0;
    parentPort.on("message", ({ number, files }) => {
      if (done === 2 || files[0][1] === "endless") { ${then} }
      else parentPort.postMessage({ number, pressed: { pdf: new Uint8Array([++done]), spans: [], missing: [] } });
    });`,
  );
  return launchPress(script);
}

test.each([
  ["says that it broke down", 'parentPort.postMessage({ number, broken: "unreachable" });'],
  ["dies", "process.exit(1);"],
])("goes on in a new thread when the old one %s", async (_, then) => {
  const press = pressThat(then);
  const printed: number[] = [];
  for (const text of ["a", "b", "c", "d", "e"]) {
    const { pdf } = await press.print(new Map([["/main.typ", text]]));
    printed.push(pdf[0] ?? 0);
  }
  expect(printed).toEqual([1, 2, 1, 2, 1]);
  const endless = press.print(new Map([["/main.typ", "endless"]]));
  await expect(endless).rejects.toThrow(PressError);
  await expect(endless).rejects.toThrow("too many of them for one file");
  expect((await press.print(new Map([["/main.typ", "f"]]))).pdf[0]).toBe(1);
  await press.stop();
});
