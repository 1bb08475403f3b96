/** How words are set off on a terminal; plain everywhere else. */
export interface Paint {
  readonly error: (text: string) => string;
  readonly warning: (text: string) => string;
  readonly note: (text: string) => string;
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
}

const plain = (text: string): string => text;
const styled =
  (code: string) =>
  (text: string): string =>
    `\u001b[${code}m${text}\u001b[0m`;

export const NO_PAINT: Paint = { error: plain, warning: plain, note: plain, strong: plain, faint: plain };

/** The sixteen colours every terminal has, in the shades its owner chose. */
export const TERMINAL_PAINT: Paint = {
  error: styled("1;31"),
  warning: styled("1;33"),
  note: styled("1;36"),
  strong: styled("1"),
  faint: styled("2"),
};
