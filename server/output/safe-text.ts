/**
 * Text from a file, fit for a terminal: whatever could move the cursor, ring the bell or turn the writing
 * round is shown as a sign that stands for it.
 */
export function safeText(text: string): string {
  return text.replace(UNSAFE, (letter) => {
    const code = letter.codePointAt(0) ?? 0;
    if (code === 0x09) return "  ";
    if (code < 0x20) return String.fromCodePoint(0x2400 + code);
    return code === 0x7f ? "␡" : "�";
  });
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the letters to be kept from the terminal.
const UNSAFE = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

/** How many columns of a terminal a text takes: none for marks on a letter, two for wide letters. */
export function widthOf(text: string): number {
  let width = 0;
  for (const letter of text) width += letterWidth(letter);
  return width;
}

function letterWidth(letter: string): number {
  const code = letter.codePointAt(0) ?? 0;
  if (code < 0x300) return 1;
  if (/^\p{M}$/u.test(letter) || (code >= 0x200b && code <= 0x200d)) return 0;
  // Letters of East Asia, and pictures.
  const wide =
    (code >= 0x1100 && code <= 0x115f) ||
    (code >= 0x2e80 && code <= 0xa4cf) ||
    (code >= 0xac00 && code <= 0xd7a3) ||
    (code >= 0xf900 && code <= 0xfaff) ||
    (code >= 0xfe30 && code <= 0xfe6f) ||
    (code >= 0xff00 && code <= 0xff60) ||
    (code >= 0x1f300 && code <= 0x1faff) ||
    (code >= 0x20000 && code <= 0x3fffd);
  return wide ? 2 : 1;
}
