import type { ServerKeeper } from "./server-keeper";

/**
 * Brings the server up for what a person asks for by name: one that was given up is tried once more. Resolves when it
 * has answered, or was found not to.
 */
export function awake(keeper: Pick<ServerKeeper, "state" | "start" | "restart">): Promise<void> {
  return keeper.state === "stopped" ? keeper.restart() : keeper.start();
}
