/**
 * The editors the extension is tried in: the oldest VS Code it promises to run in, and the newest at hand.
 *
 * The npm package `code-server` carries a complete VS Code server and workbench of the version in its name,
 * so a real editor comes through the ordinary package registry.
 */
export interface Edition {
  /** How a person picks it on the command line. */
  readonly name: EditionName;
  /** The version of VS Code inside, as its About box says it. */
  readonly vscode: string;
  /** The version of the npm package that carries it. */
  readonly codeServer: string;
  /** The major version of Node that its server runs on. */
  readonly node: number;
  /** The native modules its server cannot start without. */
  readonly natives: readonly string[];
  /**
   * Where its file search expects the ripgrep executable, in versions that fetch it by a download of their own.
   * Without it quick open finds no files and `workspace.findFiles` answers with nothing.
   */
  readonly ripgrepAt?: string;
  /** What this version calls the colour themes that tests ask for. */
  readonly themes: Readonly<Record<Theme, string>>;
}

/** The two ends of the supported span. */
export type EditionName = "oldest" | "newest";

/** The looks a page can be opened in. */
export type Theme = "light" | "dark" | "contrast" | "contrastLight";

/** Both editions; everything that differs between them stands here and nowhere else. */
export const editions: Readonly<Record<EditionName, Edition>> = {
  oldest: {
    name: "oldest",
    vscode: "1.100.3",
    codeServer: "4.100.3",
    node: 20,
    natives: ["@vscode/spdlog", "native-watchdog"],
    ripgrepAt: "node_modules/@vscode/ripgrep/bin/rg",
    themes: {
      light: "Default Light Modern",
      dark: "Default Dark Modern",
      contrast: "Default High Contrast",
      contrastLight: "Default High Contrast Light",
    },
  },
  newest: {
    name: "newest",
    vscode: "1.139.1",
    codeServer: "4.139.1",
    node: 24,
    natives: ["@vscode/spdlog", "@vscode/native-watchdog"],
    themes: {
      light: "Light Modern",
      dark: "Dark Modern",
      contrast: "Default High Contrast",
      contrastLight: "Default High Contrast Light",
    },
  },
};

/** The exact Node releases fetched for editions whose major version is not the one running this process. */
export const nodeReleases: Readonly<Record<number, string>> = { 20: "20.20.2", 24: "24.21.0" };

/** The release of the npm packages, one per machine, that carry ripgrep itself. */
export const ripgrepRelease = "1.18.0";
