/** A program that Debian packages. */
export interface Program {
  /** What it is called in a sentence. */
  readonly label: string;
  /** The names it may have on the search path. */
  readonly names: readonly string[];
  /** The Debian package. */
  readonly debian: string;
}

/** The programs the editor tests use. */
export const programs: Readonly<Record<"chromium" | "neovim" | "python" | "make" | "compiler", Program>> = {
  chromium: {
    label: "Chromium",
    names: ["chromium", "chromium-browser", "google-chrome"],
    debian: "chromium",
  },
  neovim: { label: "Neovim", names: ["nvim"], debian: "neovim" },
  python: { label: "Python", names: ["python3"], debian: "python3" },
  make: { label: "Make", names: ["make"], debian: "make" },
  compiler: { label: "A C++ compiler", names: ["g++"], debian: "g++" },
};
