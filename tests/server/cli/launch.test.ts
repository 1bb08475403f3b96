import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bundled, Folder, SMALL } from "./command";

/** The start of the command: the compiled code that is kept may speed it up, and must never change what it does. */
describe("compiled code kept from one call to the next", () => {
  const folder = new Folder({ "plan.practice": SMALL });
  const kept = join(dirname(bundled()), "cli.cache");
  let first: string;

  beforeAll(() => {
    rmSync(kept, { force: true });
    first = folder.run(["check", "plan.practice"]).out;
  });
  afterAll(() => folder.remove());

  it("is written by the first call", () => {
    expect(first).toContain("1 file");
    expect(statSync(kept).size).toBeGreaterThan(100_000);
  });

  it("is used by the second, which writes it no more", () => {
    const before = statSync(kept).mtimeMs;
    expect(folder.run(["check", "plan.practice"])).toMatchObject({ code: 0, out: first, err: "" });
    expect(statSync(kept).mtimeMs).toBe(before);
  });

  it.each([
    ["cut short", (code: Buffer) => code.subarray(0, code.length / 2)],
    ["empty", () => Buffer.alloc(0)],
    ["of another engine", (code: Buffer) => Buffer.from(code).fill(0, 0, 16)],
  ])("%s, is put aside and written anew", (_, spoil) => {
    writeFileSync(kept, spoil(readFileSync(kept)));
    expect(folder.run(["check", "plan.practice"])).toMatchObject({ code: 0, out: first, err: "" });
    expect(statSync(kept).size).toBeGreaterThan(100_000);
  });

  it("is done without where a folder has its name, and nothing is left behind", () => {
    rmSync(kept, { force: true });
    mkdirSync(kept);
    const before = readdirSync(dirname(kept));
    expect(folder.run(["check", "plan.practice"])).toMatchObject({ code: 0, out: first, err: "" });
    expect(readdirSync(dirname(kept))).toEqual(before);
    rmSync(kept, { recursive: true });
  });
});
