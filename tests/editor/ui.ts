import type { Frame, Locator, Page } from "playwright-core";

/**
 * A person's hands and eyes in the workbench: keys, pointer, and where things are shown. Every step waits for what
 * it brings about. The selectors stand here once; they hold in VS Code 1.100 and 1.139.
 */
export class Ui {
  constructor(readonly page: Page) {}

  /** Waits until the workbench stands and shows its explorer and status bar. */
  async ready(): Promise<void> {
    await this.page.locator(".monaco-workbench .statusbar").waitFor({ timeout: 60_000 });
    await this.page.locator(".explorer-folders-view .monaco-list-row").first().waitFor({ timeout: 60_000 });
  }

  /** The input over everything in which files and commands are picked. */
  private get quickInput(): Locator {
    return this.page.locator(".quick-input-widget");
  }

  /** Opens the quick input with a prefix and a text, and takes the first row that carries the label. */
  private async pick(prefix: string, text: string, row: string | RegExp): Promise<void> {
    // F1 works wherever the focus is; what is typed decides what is picked.
    await this.page.keyboard.press("F1");
    const input = this.quickInput.locator("input[type=text]");
    await input.fill(prefix + text);
    await this.quickInput.locator(".monaco-list-row", { hasText: row }).first().click();
    await this.quickInput.waitFor({ state: "hidden" });
  }

  /** Opens a file of the workspace by its name, or by what is typed to find it, and waits until its text is shown. */
  async openFile(name: string, typed: string = name): Promise<void> {
    await this.pick("", typed, name);
    await this.tab(name).waitFor();
    await this.page.locator(".monaco-editor .view-line").first().waitFor();
  }

  /** The tab of an open editor. */
  tab(name: string): Locator {
    return this.page.locator(`.tabs-container .tab[data-resource-name="${name}"]`);
  }

  /** Runs a command by the title that the palette shows, for example `Leadpipe: Show the Term`. */
  async command(title: string): Promise<void> {
    await this.pick(">", title, title);
  }

  /** Runs a command that goes on with questions of its own. */
  async beginCommand(title: string): Promise<void> {
    await this.page.keyboard.press("F1");
    await this.quickInput.locator("input[type=text]").fill(`>${title}`);
    await this.choice(title).click();
  }

  /** What can be chosen in answer to a question: the first row that carries the words. */
  choice(words: string): Locator {
    return this.quickInput.locator(".monaco-list-row", { hasText: words }).first();
  }

  /** What is asked, in the head of a question. */
  question(words: string): Locator {
    return this.quickInput.getByText(words).first();
  }

  /** A message in the corner that holds the words. */
  toast(words: string): Locator {
    return this.page.locator(".notification-toast", { hasText: words }).first();
  }

  /** Presses a button of a message. */
  async answer(toast: Locator, button: string): Promise<void> {
    await toast.locator(".monaco-button", { hasText: button }).click();
  }

  /** Puts the cursor at a line and a column, both counted from 1. */
  async goTo(line: number, column: number): Promise<void> {
    await this.page.keyboard.press("F1");
    const input = this.quickInput.locator("input[type=text]");
    await input.fill(`:${line}:${column}`);
    await this.quickInput.locator(".monaco-list-row").first().waitFor();
    await input.press("Enter");
    await this.quickInput.waitFor({ state: "hidden" });
  }

  /** The active editor's text on screen. */
  get editor(): Locator {
    return this.page.locator(".editor-group-container.active .monaco-editor").first();
  }

  /**
   * Points at a word and returns the hover that comes, once it holds the words expected. Lines may still move while
   * figures appear above them, so a pointer that came to lie beside the word is moved onto it again.
   */
  async hover(at: string, expected: string): Promise<Locator> {
    const hover = this.page
      .locator(".monaco-editor .monaco-hover:not(.hidden) .hover-row", { hasText: expected })
      .first();
    for (let tries = 1; ; tries++) {
      await this.pointAt(at);
      try {
        await hover.waitFor({ timeout: 4000 });
        return hover;
      } catch (thrown) {
        if (tries === 4) throw thrown;
      }
    }
  }

  /**
   * Moves the pointer onto a word of the active editor. A line without a grammar is one span, so the place of a word
   * is measured in the text itself and not in an element.
   */
  private async pointAt(word: string): Promise<void> {
    const place = await this.editor.evaluate((editor, wanted) => {
      const walker = document.createTreeWalker(
        editor.querySelector(".view-lines") ?? editor,
        NodeFilter.SHOW_TEXT,
      );
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        // An editor draws spaces as ones that do not break.
        const at = (node.textContent ?? "").replaceAll("\u00a0", " ").indexOf(wanted);
        if (at < 0) continue;
        const range = document.createRange();
        range.setStart(node, at);
        range.setEnd(node, at + wanted.length);
        const box = range.getBoundingClientRect();
        return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      }
      return undefined;
    }, word);
    if (place === undefined) throw new Error(`"${word}" is not on screen`);
    // Two moves: an editor asks for a hover only when the pointer has travelled within its text.
    await this.page.mouse.move(place.x - 3, place.y);
    await this.page.mouse.move(place.x, place.y);
  }

  /** Opens the problems panel and returns its rows. */
  async problems(): Promise<Locator> {
    await this.command("Problems: Focus on Problems View");
    const rows = this.page.locator(".markers-panel .monaco-list-row");
    await rows.first().waitFor();
    return rows;
  }

  /** The fixes offered at the cursor; the menu is open afterwards. */
  async quickFixes(): Promise<Locator> {
    await this.page.keyboard.press("Control+.");
    const rows = this.page.locator(".action-widget .monaco-list-row.action");
    await rows.first().waitFor();
    return rows;
  }

  /** Takes a fix from the open menu. */
  async takeFix(title: string): Promise<void> {
    await this.page
      .locator(".action-widget .monaco-list-row.action", { hasText: title })
      .click({ force: true });
    await this.page.locator(".action-widget:not(.action-list-submenu-panel)").waitFor({ state: "hidden" });
  }

  /** Renames the symbol at the cursor. */
  async rename(to: string): Promise<void> {
    await this.page.keyboard.press("F2");
    // The newest version has a second box of that class, for suggested names.
    const input = this.page.locator(".rename-box input.rename-input");
    await input.waitFor();
    await input.fill(to);
    await input.press("Enter");
    await input.waitFor({ state: "hidden" });
  }

  /** The rows of the view in the side bar, where its container holds no other. */
  get sideRows(): Locator {
    return this.page.locator(".part.sidebar .pane-body .monaco-list-row");
  }

  /** An item of the status bar by `publisher.extension.item`. */
  statusItem(id: string): Locator {
    return this.page.locator(`.statusbar [id="${id}"]`);
  }

  /** The messages in the corner. */
  get toasts(): Locator {
    return this.page.locator(".notification-toast .notification-list-item-message");
  }

  /** Closes all messages in the corner. */
  async clearToasts(): Promise<void> {
    await this.command("Notifications: Clear All Notifications");
    await this.page.locator(".notification-toast").first().waitFor({ state: "hidden" });
  }

  /** The inside of the newest webview: a page in a page in a page. */
  async webview(): Promise<Frame> {
    const outer = await this.page.locator("iframe.webview.ready").last().elementHandle();
    const middle = await outer?.contentFrame();
    const inner = await (await middle?.waitForSelector("iframe#active-frame"))?.contentFrame();
    if (!inner) throw new Error("the webview has no inside");
    return inner;
  }
}
