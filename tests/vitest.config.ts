import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    reporters: ["default", "./tests/closing-line.ts"],
    projects: [
      {
        extends: true,
        test: {
          name: "house",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/editor/**"],
          testTimeout: 60_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        // Real editors take all the machine has, and some of what is asked of them is a matter of milliseconds. They
        // come when everything else is done.
        extends: true,
        test: { name: "editors", include: ["tests/editor/**/*.test.ts"], sequence: { groupOrder: 1 } },
      },
    ],
  },
});
