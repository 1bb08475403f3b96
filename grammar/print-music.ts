import { printKey, printTime, printValue } from "./print-leaves";
import type { Music, MusicElement } from "./tree";

/** Music as text. Lines break where the author broke them; nothing else may depend on the width of a page. */

/** One element without its spaces; brackets with what they hold. */
function words(element: MusicElement, indent: number): string {
  switch (element.kind) {
    case "value":
      return printValue(element);
    case "pitch":
      return element.text;
    case "degree":
    case "comment":
    case "unread music":
      return element.text;
    case "partial":
      return String(element.partial);
    case "slur open":
      return element.lip ? "lip (" : "(";
    case "slur close":
      return ")";
    case "bar":
      return "|";
    case "breath":
      return "'";
    case "mark":
      return element.mark;
    case "bend":
      return `bend ${element.step}`;
    case "dynamic":
      return element.dynamic;
    case "hairpin":
      return element.way;
    case "tonguing":
      return element.how;
    case "attack":
      return `attack ${element.how}`;
    case "free":
      return `free ${printTime(element.time)}`;
    case "key change":
      return `key ${printKey(element.key)}`;
    case "meter change":
      return element.value === undefined ? "meter free" : `meter ${printValue(element.value)}`;
    case "tuplet": {
      const head = element.word ? "triplet" : `${element.notes}:${element.inTimeOf}`;
      return `${head} ${bracket(element.elements, indent)}`;
    }
    case "repeat":
      return `repeat ${bracket(element.elements, indent)}`;
    case "ending":
      return `ending ${element.number} ${bracket(element.elements, indent)}`;
    case "line":
      return "";
    default:
      return element.kind;
  }
}

function bracket(elements: readonly MusicElement[], indent: number): string {
  const inner = printElements(elements, indent + 2, indent);
  if (inner === "") return "[ ]";
  return `[${inner.startsWith("\n") ? "" : " "}${inner}${inner.endsWith("\n") || /\n +$/.test(inner) ? "" : " "}]`;
}

/** Elements in a row; `last` is the indentation of what follows a line end that stands last. */
function printElements(elements: readonly MusicElement[], indent: number, last: number): string {
  let text = "";
  let glued = true;
  for (const [i, element] of elements.entries()) {
    if (element.kind === "line") {
      const next = elements[i + 1];
      text += next?.kind === "line" ? "\n" : `\n${" ".repeat(next === undefined ? last : indent)}`;
      glued = true;
      continue;
    }
    const closes = element.kind === "slur close";
    text += `${glued || closes ? "" : " "}${words(element, indent)}`;
    glued = element.kind === "slur open";
  }
  return text;
}

/** `{ … }` with the notes; `indent` is that of the line it opens on. */
export function printMusic(music: Music, indent: number): string {
  if (music.inline) {
    const inner = printElements(music.elements, indent, indent);
    return inner === "" ? "{ }" : `{ ${inner} }`;
  }
  const inner = printElements(music.elements, indent + 2, indent + 2).trimEnd();
  const margin = " ".repeat(indent);
  return inner === "" ? `{\n${margin}}` : `{\n${margin}  ${inner}\n${margin}}`;
}
