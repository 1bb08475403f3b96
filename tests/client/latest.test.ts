import { expect, test } from "vitest";
import { Latest } from "../../client/latest";

/** A work that is held until it is let go, and counts how often it was done. */
function heldWork() {
  const held: (() => void)[] = [];
  let begun = 0;
  const latest = new Latest(() => {
    begun++;
    return new Promise((resolve) => held.push(resolve));
  });
  return { latest, begun: () => begun, letGo: () => held.shift()?.() };
}

test("what is asked for meanwhile is done once, after it", async () => {
  const { latest, begun, letGo } = heldWork();
  const first = latest.ask();
  const more = [latest.ask(), latest.ask(), latest.ask()];
  expect(begun()).toBe(1);
  letGo();
  await expect.poll(begun).toBe(2);
  letGo();
  await Promise.all([first, ...more]);
  expect(begun()).toBe(2);
});

test.each([0, 1, 2, 3, 4, 5, 6])(
  "what is asked for %d steps after a work's end is not forgotten",
  async (steps) => {
    const { latest, begun, letGo } = heldWork();
    void latest.ask();
    letGo();
    // Between the last look at what is asked for and the end of the asking lie steps of which each must count.
    for (let step = 0; step < steps; step++) await Promise.resolve();
    const again = latest.ask();
    await expect.poll(begun).toBe(2);
    letGo();
    await again;
  },
);

test("after a work that failed the next one is done", async () => {
  let times = 0;
  const latest = new Latest(() => (++times === 1 ? Promise.reject(new Error("once")) : Promise.resolve()));
  await expect(latest.ask()).rejects.toThrow("once");
  await latest.ask();
  expect(times).toBe(2);
});
