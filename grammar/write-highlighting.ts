import { writeFileSync } from "node:fs";
import { highlightingFiles } from "./textmate";

/** Writes the files that editors read; run it, and the formatter, after a change of the words. */
for (const [name, content] of Object.entries(highlightingFiles())) {
  writeFileSync(new URL(name, import.meta.url), `${JSON.stringify(content, null, 2)}\n`);
}
