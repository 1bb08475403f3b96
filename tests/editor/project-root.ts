import path from "node:path";

/** The root of the project: two folders above this file. */
export const projectRoot: string = path.resolve(import.meta.dirname, "..", "..");
