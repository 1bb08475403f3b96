/** The trial's language: one line per exercise, `name minutes`. Just enough to answer an editor. */

/** A stretch of text, in offsets. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The word that stands at an offset, or undefined between words. */
export function wordAt(text: string, offset: number): (Span & { readonly word: string }) | undefined {
  for (const match of text.matchAll(/[\p{L}\p{N}_]+/gu)) {
    const end = match.index + match[0].length;
    if (offset >= match.index && offset <= end) return { word: match[0], start: match.index, end };
  }
  return undefined;
}

/** Every place where a word stands whole. */
export function placesOf(text: string, word: string): Span[] {
  return [...text.matchAll(/[\p{L}\p{N}_]+/gu)]
    .filter((match) => match[0] === word)
    .map((match) => ({ start: match.index, end: match.index + word.length }));
}

/** Where the text says "louder", which no brass player should need to be told. */
export function findings(text: string): Span[] {
  return placesOf(text, "louder");
}
