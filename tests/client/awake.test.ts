import { expect, test } from "vitest";
import { awake } from "../../client/awake";
import type { ServerState } from "../../client/server-keeper";

test.each<[ServerState, string]>([
  ["starting", "start"],
  ["ready", "start"],
  ["stopped", "restart"],
])("where the server is %s, what is asked for by name begins with a %s", async (state, done) => {
  const calls: string[] = [];
  await awake({
    state,
    start: async () => void calls.push("start"),
    restart: async () => void calls.push("restart"),
  });
  expect(calls).toEqual([done]);
});
