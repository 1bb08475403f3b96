import manifest from "./trial/manifest.json";

/** How an editor calls the extension under test. */
export const extensionId = `${manifest.publisher}.${manifest.name}`;
