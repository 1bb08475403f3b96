/** Reads XML text from anywhere into a tree, within bounds: nothing in a file can make it hang or grow. */
import { SaxesParser } from "saxes";

export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** The text directly in it, joined. */
  readonly text: string;
}

/** The file is not what it should be; the message says so to a musician. */
export class ForeignFileError extends Error {}

/** Signs of text that are read. A long symphony's single part takes a few million. */
export const LONGEST_XML = 16_000_000;
/** MusicXML nests some ten deep. */
const DEEPEST = 60;
const MOST_ELEMENTS = 2_000_000;

interface Growing {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: Growing[];
  text: string;
}

/** The root of a text. Throws a `ForeignFileError` where it is no XML, too large, or declares entities. */
export function readXml(text: string): XmlElement {
  if (text.length > LONGEST_XML) {
    throw new ForeignFileError(
      `This file is longer than the ${LONGEST_XML / 1_000_000} million signs that are read.`,
    );
  }
  const parser = new SaxesParser();
  const open: Growing[] = [];
  let root: Growing | undefined;
  let elements = 0;
  parser.on("error", (error) => {
    throw new ForeignFileError(`This file is no sound XML: ${error.message}`);
  });
  // Entities of a file's own are how a small file becomes an endless one; no notation program writes them.
  parser.on("doctype", (doctype) => {
    if (/<!ENTITY/i.test(doctype)) {
      throw new ForeignFileError("This file declares entities of its own, which no notation program does.");
    }
  });
  parser.on("opentag", (tag) => {
    if (open.length >= DEEPEST) throw new ForeignFileError("This file is nested deeper than any music.");
    if (++elements > MOST_ELEMENTS) throw new ForeignFileError("This file holds more than can be read.");
    const attributes = new Map(Object.entries(tag.attributes).map(([name, value]) => [name, String(value)]));
    const element: Growing = { name: tag.name, attributes, children: [], text: "" };
    open.at(-1)?.children.push(element);
    root ??= element;
    open.push(element);
  });
  const addText = (more: string): void => {
    const element = open.at(-1);
    if (element !== undefined) element.text += more;
  };
  parser.on("text", addText);
  parser.on("cdata", addText);
  parser.on("closetag", () => {
    open.pop();
  });
  parser.write(text).close();
  if (root === undefined) throw new ForeignFileError("This file is empty.");
  return root;
}

/** The first child of a name. */
export function child(element: XmlElement | undefined, name: string): XmlElement | undefined {
  return element?.children.find((each) => each.name === name);
}

/** All children of a name. */
export function childrenOf(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((each) => each.name === name) ?? [];
}

/** The trimmed text of the first child of a name; undefined where there is none. */
export function textIn(element: XmlElement | undefined, name: string): string | undefined {
  return child(element, name)?.text.trim();
}
