import { Memory } from "./memory";
import type { Piece } from "./piece";
import { readSource } from "./pieces";
import { printDeclaration } from "./print";

/**
 * The one canonical layout. It is what is printed from the tree, so it can lose nothing that was read; what
 * was not read is kept as it stands.
 */

/** Lays a plan text out. Line ends stay what most of the text uses. */
export function format(text: string): string {
  const out = formatPieces(readSource(text).pieces).join("");
  return usesCrlf(text) ? out.replace(/\n/g, "\r\n") : out;
}

/**
 * The pieces of a file laid out, each with the blank line that stands below it; together they are the whole
 * text, with `\n` as line ends.
 */
export function formatPieces(pieces: readonly Piece[]): readonly string[] {
  const laid: string[] = [];
  let begun = false;
  let blank = false;
  for (const piece of pieces) {
    const body = formatPiece(piece);
    if (body === "") blank ||= begun && piece.text !== "";
    else {
      if (blank) laid[laid.length - 1] += "\n";
      begun = true;
      blank = endsBlank(piece.text);
    }
    laid.push(body);
  }
  return laid;
}

/** A piece that did not change is laid out once. */
const laidOut = new Memory<Piece, string>();

/** One piece as text, without the blank lines around it; each line has its end. */
export function formatPiece(piece: Piece): string {
  const known = laidOut.get(piece);
  if (known !== undefined) return known;
  const text = layOut(piece);
  laidOut.set(piece, text);
  return text;
}

function layOut(piece: Piece): string {
  if (piece.verbatim)
    return `${plain(piece.text)
      .replace(/^(?:[^\S\n]*\n)+/, "")
      .trimEnd()}\n`;
  let text = piece.declaration === undefined ? "" : plain(printDeclaration(piece.declaration));
  for (const comment of piece.comments) {
    if (comment !== "" || text !== "") text += `${comment}\n`;
  }
  return text;
}

/** Line ends as `\n`, without a byte order mark. */
function plain(text: string): string {
  return text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n");
}

/** Whether at least one blank line stands at the end. */
function endsBlank(text: string): boolean {
  const tail = text.slice(text.trimEnd().length);
  return tail.split(/\r\n?|\n/).length > 2;
}

/** Whether most lines end with `\r\n`. */
export function usesCrlf(text: string): boolean {
  let crlf = 0;
  let lf = 0;
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) {
    if (text.charCodeAt(at - 1) === 13) crlf++;
    else lf++;
  }
  return crlf > lf;
}
