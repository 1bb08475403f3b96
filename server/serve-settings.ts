import type { Connection } from "vscode-languageserver";

/** What the writer switched on or off: presentation alone. Thresholds stand in the studio's file. */
export class Settings {
  inlayHints = true;
  codeLens = true;

  /** Asks the editor for the settings. */
  async pull(connection: Connection): Promise<void> {
    const answer: unknown = await connection.workspace.getConfiguration([
      { section: "leadpipe.inlayHints" },
      { section: "leadpipe.codeLens" },
    ]);
    const [inlayHints, codeLens]: readonly unknown[] = Array.isArray(answer) ? answer : [];
    this.inlayHints = isEnabled(inlayHints);
    this.codeLens = isEnabled(codeLens);
  }

  /** Takes the settings from a notification, as editors send them that cannot be asked. */
  take(sent: unknown): void {
    if (typeof sent !== "object" || sent === null || !("leadpipe" in sent)) return;
    const { leadpipe } = sent;
    if (typeof leadpipe !== "object" || leadpipe === null) return;
    if ("inlayHints" in leadpipe) this.inlayHints = isEnabled(leadpipe.inlayHints);
    if ("codeLens" in leadpipe) this.codeLens = isEnabled(leadpipe.codeLens);
  }
}

/** On, unless it is said to be off. */
function isEnabled(setting: unknown): boolean {
  return !(
    typeof setting === "object" &&
    setting !== null &&
    "enabled" in setting &&
    setting.enabled === false
  );
}
