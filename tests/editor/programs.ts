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

/** Programs that share nothing with ours and read the files we write. */
export const readers: Readonly<
  Record<"midicsv" | "icalendar" | "qpdf" | "pdftotext" | "pdffonts" | "pdfinfo" | "pdftoppm", Program>
> = {
  midicsv: { label: "midicsv", names: ["midicsv"], debian: "midicsv" },
  icalendar: { label: "icalendar for Python", names: ["icalendar"], debian: "python3-icalendar" },
  qpdf: { label: "qpdf", names: ["qpdf"], debian: "qpdf" },
  pdftotext: { label: "pdftotext", names: ["pdftotext"], debian: "poppler-utils" },
  pdffonts: { label: "pdffonts", names: ["pdffonts"], debian: "poppler-utils" },
  pdfinfo: { label: "pdfinfo", names: ["pdfinfo"], debian: "poppler-utils" },
  pdftoppm: { label: "pdftoppm", names: ["pdftoppm"], debian: "poppler-utils" },
};
