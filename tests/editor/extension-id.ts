import editor from "../../client/manifest.json";
import project from "../../package.json";

/** How an editor calls the extension under test. */
export const extensionId = `${editor.publisher}.${project.name}`;
