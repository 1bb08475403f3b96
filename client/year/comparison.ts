import * as vscode from "vscode";
import {
  COMPARE_REQUEST,
  type CompareParams,
  type CompareResult,
  type OldText,
  type PageView,
} from "../../server/protocol/year-requests";
import { Latest } from "../latest";
import { PLAN_LANGUAGE, planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";
import { type MayReplace, nameOf, writeAsked } from "../write-asked";
import { revisionOf, revisionTrouble } from "./git";
import { type OldSide, oldRevision, otherPlans } from "./old-side";
import { YearPage } from "./year-page";

/** The panel, as the manifest names it. */
const COMPARISON = "leadpipe.comparison";

/** So often the server may ask for more texts: each time it has read one `use` line farther. */
const MOST_ROUNDS = 40;
/** Texts that are fetched at once: each is a process of git. */
const AT_ONCE = 6;

/** What is compared: a plan or a folder as it is now, and what with. The old texts stay as they were read. */
interface Compared {
  readonly uri: vscode.Uri;
  readonly old: OldSide;
  readonly texts: OldText[];
}

/** How a plan or a folder of plans differs from what it was, as a page; brought up to date when a plan is saved. */
export class ComparisonView implements vscode.Disposable {
  readonly page: YearPage;
  private compared: Compared | undefined;
  private readonly asking = new Latest(() => this.refresh());
  private readonly own: vscode.Disposable[];

  constructor(
    extensionUri: vscode.Uri,
    private readonly keeper: ServerKeeper,
  ) {
    this.page = new YearPage(COMPARISON, extensionUri);
    this.own = [
      this.page,
      this.page.onDidClose(() => {
        this.compared = undefined;
      }),
      vscode.workspace.onDidSaveTextDocument(({ languageId }) => {
        if (languageId === PLAN_LANGUAGE && this.page.isOpen) void this.asking.ask();
      }),
    ];
  }

  /**
   * Compares with a revision: the last commit, or another that `revision` or a person names. Resolves with why not,
   * where nothing is compared and a person did not just leave off.
   */
  async withRevision(
    asked: vscode.Uri | undefined,
    revision: string | undefined,
  ): Promise<string | undefined> {
    const uri = asked ?? inFront();
    if (uri === undefined) return undefined;
    const isFolder = await isAFolder(uri);
    const typed = revision ?? (await askRevision());
    if (typed === undefined) return undefined;
    const found = await revisionOf(uri, typed, isFolder ? uri : vscode.Uri.joinPath(uri, ".."));
    if ("why" in found) return this.refuse(found.why, uri);
    const called =
      typed === "HEAD" ? vscode.l10n.t("the last commit") : vscode.l10n.t("the revision “{0}”", typed.trim());
    const old = await oldRevision(uri, isFolder, found.revision, called);
    return this.show({ uri, old, texts: [] });
  }

  /** Compares with another file or folder: with `other`, or one that a person picks. */
  async withOther(asked: vscode.Uri | undefined, other: vscode.Uri | undefined): Promise<string | undefined> {
    const uri = asked ?? inFront();
    if (uri === undefined) return undefined;
    const isFolder = await isAFolder(uri);
    const picked = other ?? (await pickOther(uri, isFolder));
    if (picked === undefined) return undefined;
    if (picked.toString() === uri.toString()) {
      return this.refuse(vscode.l10n.t("That is the same plan. Choose another to compare it with."));
    }
    const old = await otherPlans(picked, await isAFolder(picked));
    return this.show({ uri, old, texts: [] });
  }

  /** Writes the comparison as a page by itself: to where a person picks, or to `target`. */
  async save(target?: vscode.Uri, mayReplace?: MayReplace): Promise<vscode.Uri | undefined> {
    const { compared } = this;
    if (compared === undefined) return undefined;
    const result = await this.answer(compared, true);
    const file = result !== null && "page" in result ? result.page.file : undefined;
    if (file === undefined) return undefined;
    return writeAsked(new TextEncoder().encode(file.text), {
      target,
      mayReplace,
      fileName: file.name,
      beside: compared.uri,
      kind: "HTML",
      endings: ["html"],
      title: vscode.l10n.t("Save the Comparison"),
    });
  }

  dispose(): void {
    for (const each of this.own) each.dispose();
  }

  private async show(compared: Compared): Promise<string | undefined> {
    const result = await vscode.window.withProgress(
      { location: vscode.ProgressLocation.Window, title: vscode.l10n.t("Comparing the plans") },
      () => this.answer(compared, false),
    );
    if (result === null) {
      return this.refuse(vscode.l10n.t("Leadpipe is not ready. Try again in a moment."));
    }
    if ("trouble" in result) return this.refuse(result.trouble);
    this.compared = compared;
    this.page.open(result.page, { preserveFocus: false });
    return undefined;
  }

  private async refresh(): Promise<void> {
    const { compared } = this;
    if (compared === undefined) return;
    const result = await this.answer(compared, false);
    if (result !== null && "page" in result && compared === this.compared) this.page.fill(result.page);
  }

  /** Asks, and fetches what the server still needs, until there is an answer. */
  private async answer(
    { uri, old, texts }: Compared,
    file: boolean,
  ): Promise<{ readonly page: PageView } | { readonly trouble: string } | null> {
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const params: CompareParams = {
        uri: uri.toString(),
        before: {
          uri: old.uri.toString(),
          called: old.called,
          listed: old.listed.map(String),
          texts,
        },
        file,
      };
      const result = await this.keeper.ask<CompareResult>(COMPARE_REQUEST, params);
      if (result === null || !("wanted" in result)) return result;
      for (let i = 0; i < result.wanted.length; i += AT_ONCE) {
        const some = result.wanted.slice(i, i + AT_ONCE).map((each) => old.text(vscode.Uri.parse(each)));
        // Under the address that was asked for, however the editor spells it.
        const read = await Promise.all(some);
        texts.push(...read.map((text, n) => ({ ...text, uri: result.wanted[i + n] ?? text.uri })));
      }
    }
    return null;
  }

  /** Says why nothing is compared; where git is what lacks, files are offered in its place. */
  private refuse(why: string, uri?: vscode.Uri): string {
    const other = vscode.l10n.t("Compare with a File or Folder…");
    void vscode.window.showWarningMessage(why, ...(uri === undefined ? [] : [other])).then((chosen) => {
      if (chosen === other) void this.withOther(uri, undefined);
    });
    return why;
  }
}

/** The plan in front; where there is none, a person is told what to do. */
function inFront(): vscode.Uri | undefined {
  const editor = planEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open the plan to compare, or choose it or its folder in the explorer."),
    );
  }
  return editor?.document.uri;
}

async function isAFolder(uri: vscode.Uri): Promise<boolean> {
  try {
    const { type } = await vscode.workspace.fs.stat(uri);
    return (type & vscode.FileType.Directory) !== 0;
  } catch {
    // A plan that was never saved.
    return false;
  }
}

function askRevision(): Thenable<string | undefined> {
  return vscode.window.showInputBox({
    title: vscode.l10n.t("Compare with a Revision"),
    prompt: vscode.l10n.t("Which one? A branch, a tag, the start of a commit's number, or such as HEAD~3."),
    placeHolder: "HEAD~1",
    validateInput: revisionTrouble,
    ignoreFocusOut: true,
  });
}

/** A folder is compared with a folder, and a plan with a plan. */
async function pickOther(uri: vscode.Uri, isFolder: boolean): Promise<vscode.Uri | undefined> {
  const picked = await vscode.window.showOpenDialog({
    canSelectFiles: !isFolder,
    canSelectFolders: isFolder,
    defaultUri: vscode.Uri.joinPath(uri, ".."),
    ...(isFolder ? {} : { filters: { [vscode.l10n.t("Practice plans")]: ["practice"] } }),
    openLabel: vscode.l10n.t("Compare"),
    title: vscode.l10n.t("What “{0}” is compared with", nameOf(uri)),
  });
  return picked?.[0];
}
