/** Colours that notation is drawn in where a picture inherits none: one for each kind of theme. */

/** The kinds of theme an editor has. */
export const THEME_KINDS = ["light", "dark", "contrast", "contrastLight"] as const;
export type ThemeKind = (typeof THEME_KINDS)[number];

export function isThemeKind(value: unknown): value is ThemeKind {
  return THEME_KINDS.some((kind) => kind === value);
}

/** Ink on an editor's own ground, with a contrast of at least 9 to 1 on the grounds of its plain themes. */
export const INK: Readonly<Record<ThemeKind, string>> = {
  light: "#262626",
  dark: "#dcdcdc",
  contrast: "#ffffff",
  contrastLight: "#000000",
};
