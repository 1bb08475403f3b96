import { cp } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import type { Edition, Theme } from "./editions";
import { makeRunFolder } from "./run-folder";
import { startFront } from "./start-front";
import { installVsix, startVscodeServer } from "./vscode-server";
import { workspaceFile } from "./workspace-file";

/** The extension host that the extension under test lives in. */
export type Host = "workspace" | "browser";

/** What to open. */
export interface WorkbenchOptions {
  readonly edition: Edition;
  readonly host: Host;
  /** The packaged extension, installed where the host is the workspace's. */
  readonly vsix: string;
  /** The same package unpacked, loaded over http where the host is the browser's. */
  readonly unpacked: string;
  /** A folder copied as the workspace that is opened. */
  readonly workspace: string;
  readonly theme?: Theme;
  /** Settings that hold unless the workspace says otherwise. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** A suite to run: a folder holding a development extension and, in it, the script that exports `run`. */
  readonly suite?: { readonly folder: string; readonly script: string };
}

/** A VS Code that runs and can be driven. */
export interface Workbench {
  /** The page it is shown in, 1280 × 800. */
  readonly page: Page;
  /** Resolves with the suite's exit code; never without a suite. */
  readonly exit: Promise<number>;
  /** What the suite printed, line by line, as it comes. */
  onPrint(listener: (text: string) => void): void;
  /** Where the opened workspace is on disk. */
  readonly folder: string;
  /** What the server has printed so far, for when something went wrong. */
  serverLog(): string;
  /** Opens the page; listeners are best added before. */
  start(): Promise<void>;
  close(): Promise<void>;
}

/** Settings that keep the workbench still: no welcome, no tips, no motion, no questions. */
const calm: Readonly<Record<string, unknown>> = {
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.reduceMotion": "on",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.enableExperiments": false,
  "window.autoDetectColorScheme": false,
  "window.autoDetectHighContrast": false,
  "editor.cursorBlinking": "solid",
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "extensions.ignoreRecommendations": true,
  "security.workspace.trust.enabled": false,
  "chat.disableAIFeatures": true,
  "chat.commandCenter.enabled": false,
  "update.mode": "none",
};

/** Opens a VS Code of the asked edition, in a folder, on ports and with processes of its own. */
export async function openWorkbench(browser: Browser, options: WorkbenchOptions): Promise<Workbench> {
  const { edition, host, suite } = options;
  const closers: (() => Promise<void>)[] = [];
  const close = async (): Promise<void> => {
    for (const one of closers.splice(0).reverse()) await one();
  };
  try {
    const run = await makeRunFolder();
    closers.push(() => run.remove());
    await cp(options.workspace, run.workspace, { recursive: true });
    const opened =
      suite === undefined
        ? { folder: run.workspace }
        : { workspace: await workspaceFile(run.root, run.workspace) };
    if (host === "workspace") await installVsix(edition, run, options.vsix);
    const server = await startVscodeServer(edition, run);
    closers.push(() => server.stop());
    const front = await startFront({
      behind: server.port,
      folders: { "extension-under-test": options.unpacked, ...(suite ? { suite: suite.folder } : {}) },
      settings: (authority) => pageSettings(options, authority),
    });
    closers.push(() => front.close());

    const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: "en-GB" });
    closers.push(() => context.close());
    const page = await context.newPage();
    const listeners: ((text: string) => void)[] = [];
    // The workbench looks for these two functions by name once it runs under a test driver.
    await page.exposeFunction("codeAutomationLog", (_level: string, args: readonly unknown[]) => {
      const text = args.map(String).join(" ");
      for (const listener of listeners) listener(text);
    });
    let end: (code: number) => void = () => {};
    const exit = new Promise<number>((resolve) => {
      end = resolve;
    });
    await page.exposeFunction("codeAutomationExit", (code: number) => end(code));
    return {
      page,
      exit,
      onPrint: (listener) => void listeners.push(listener),
      folder: run.workspace,
      serverLog: () => server.log(),
      start: async () => void (await page.goto(address(options, front.authority, opened))),
      close,
    };
  } catch (thrown) {
    await close();
    throw thrown;
  }
}

/** The address of the workbench: what to open and, for the workspace's host, what to develop and test. */
function address(
  options: WorkbenchOptions,
  authority: string,
  opened: Readonly<Record<string, string>>,
): string {
  const payload: [string, string][] = [["skipWelcome", "true"]];
  if (options.host === "workspace" && options.suite) {
    const remote = `vscode-remote://${authority}${options.suite.folder}`;
    payload.push(
      ["extensionDevelopmentPath", remote],
      ["extensionTestsPath", `${remote}/${options.suite.script}`],
    );
  }
  const query = new URLSearchParams({ ...opened, payload: JSON.stringify(payload) });
  return `http://${authority}/?${query}`;
}

/** What the page's settings say beyond what the server wrote: the test driver, the calm, the browser's extensions. */
function pageSettings(options: WorkbenchOptions, authority: string): Record<string, unknown> {
  const { edition, host, suite, theme = "dark" } = options;
  const at = (path: string): UriParts => ({ scheme: "http", authority, path });
  const extensions =
    host === "browser" ? [at("/extension-under-test"), ...(suite ? [at("/suite")] : [])] : [];
  return {
    // Whether trust is asked about is then a matter of settings.
    enableWorkspaceTrust: true,
    developmentOptions: {
      // The driver hands a suite's console and exit code to the page, but the newest version then shows no toasts,
      // so it is left out where a person is imitated.
      ...(suite ? { enableSmokeTestDriver: true } : {}),
      ...(extensions.length > 0 ? { extensions } : {}),
      ...(host === "browser" && suite ? { extensionTestsPath: at(`/suite/${suite.script}`) } : {}),
    },
    configurationDefaults: { ...calm, "workbench.colorTheme": edition.themes[theme], ...options.settings },
  };
}

/** An address in the form the workbench revives. */
interface UriParts {
  readonly scheme: string;
  readonly authority: string;
  readonly path: string;
}
