/** When the extension's script began to run, in the host's milliseconds; imported first of all. */
export const begun: number = performance.now();
