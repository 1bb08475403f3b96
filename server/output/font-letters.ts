/** Which letters a font file holds, read from its table of characters (OpenType `cmap`, formats 4 and 12). */

/** The code points that a TrueType or OpenType font can show. Throws a RangeError for bytes that are no font. */
export function lettersOf(font: Uint8Array): ReadonlySet<number> {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const start = tableStart(view, "cmap");
  const letters = new Set<number>();
  const count = view.getUint16(start + 2);
  for (let i = 0; i < count; i++) {
    const platform = view.getUint16(start + 4 + 8 * i);
    // Only Unicode: platform 0, and platform 3 beside its old symbol encoding.
    if (platform !== 0 && !(platform === 3 && view.getUint16(start + 6 + 8 * i) !== 0)) continue;
    const at = start + view.getUint32(start + 8 + 8 * i);
    const format = view.getUint16(at);
    if (format === 4) readSegments(view, at, letters);
    else if (format === 12) readGroups(view, at, letters);
  }
  return letters;
}

function tableStart(view: DataView, name: string): number {
  const count = view.getUint16(4);
  for (let i = 0; i < count; i++) {
    const at = 12 + 16 * i;
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((n) => view.getUint8(at + n)));
    if (tag === name) return view.getUint32(at + 8);
  }
  throw new RangeError(`a font without its table “${name}”`);
}

function readSegments(view: DataView, at: number, letters: Set<number>): void {
  const segments = view.getUint16(at + 6) / 2;
  const ends = at + 14;
  const starts = ends + 2 * segments + 2;
  const deltas = starts + 2 * segments;
  const offsets = deltas + 2 * segments;
  for (let i = 0; i < segments; i++) {
    const [from, to] = [view.getUint16(starts + 2 * i), view.getUint16(ends + 2 * i)];
    const offset = view.getUint16(offsets + 2 * i);
    for (let code = from; code <= to && code < 0xffff; code++) {
      const glyph =
        offset === 0
          ? (code + view.getUint16(deltas + 2 * i)) & 0xffff
          : view.getUint16(offsets + 2 * i + offset + 2 * (code - from));
      if (glyph !== 0) letters.add(code);
    }
  }
}

function readGroups(view: DataView, at: number, letters: Set<number>): void {
  const groups = view.getUint32(at + 12);
  for (let i = 0; i < groups; i++) {
    const group = at + 16 + 12 * i;
    for (let code = view.getUint32(group); code <= view.getUint32(group + 4); code++) letters.add(code);
  }
}

/** Letters of a text that none of the fonts holds, each once, in the order in which they come. */
export function lettersMissing(text: string, fonts: readonly ReadonlySet<number>[]): readonly string[] {
  const missing = new Set<string>();
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    // Controls and joiners have no picture of their own.
    if (code <= 0x20 || (code >= 0x200b && code <= 0x200f) || (code >= 0xfe00 && code <= 0xfe0f)) continue;
    if (!fonts.some((font) => font.has(code))) missing.add(letter);
  }
  return [...missing];
}
