/**
 * What the engine is told when a process is begun for the language server; what can still be said later stands in
 * `server/launch-tidying.ts`.
 *
 * A whole file that is read and checked anew leaves some 15 MB of things that live a moment. The engine's own limit
 * for what is young, 16 MB at most, is full in the midst of that whenever anything is left from before: then all of it
 * is copied, twice, and kept until everything is collected. The figure, in megabytes, was measured with
 * `npm run bench -- a e`; the option is one that Node's own manual lists.
 */
export const ENGINE_OPTIONS: readonly string[] = ["--max-semi-space-size=32"];
