import path from "node:path";
import { projectRoot } from "./project-root";

/** The folder that editors are opened with: a copy of the sample studio. */
export const sampleWorkspace: string = path.join(projectRoot, "samples");
