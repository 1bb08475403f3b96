import path from "node:path";

/** The folder of plans that the trial is opened with. */
export const trialWorkspace: string = path.join(import.meta.dirname, "workspace");
