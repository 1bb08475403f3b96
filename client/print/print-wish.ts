import * as vscode from "vscode";
import type { PrintDate, PrintParams, PrintScope, PrintWhat } from "../../server/protocol/print-requests";

/** What a person wants printed of a plan; a keybinding may bring all of it. */
export type PrintWish = Omit<PrintParams, "job" | "uri" | "what" | "html">;

/** Paper and print, as they were chosen last. */
export interface PaperMemory {
  readonly last: () => Paper | undefined;
  readonly keep: (paper: Paper) => void;
}

export type Paper = Pick<PrintParams, "paper" | "large">;

type Whose = Pick<PrintWish, "of" | "term" | "player" | "apart">;

/** Asks what is wanted, the likeliest always first; undefined where a person left off. */
export async function askWish(
  what: PrintWhat,
  scopes: readonly PrintScope[],
  memory: PaperMemory,
): Promise<PrintWish | undefined> {
  const title = (step: number): string => vscode.l10n.t("{0}, {1} of {2}", TITLES[what](), step, STEPS);
  const whose = await pick(title(1), vscode.l10n.t("For whom?"), whoseChoices(what, scopes));
  if (whose === undefined) return undefined;
  const scope = scopes.find((each) => each.of === whose.of);
  let wish: PrintWish = { ...whose, keys: "travelled", paper: "a4", large: false };
  if (what === "packet") {
    const choices = keyChoices(whose.of === "book");
    const keys = await pick(title(2), vscode.l10n.t("In which keys?"), choices);
    if (keys === undefined) return undefined;
    wish = { ...wish, keys };
  } else {
    const asking = what === "day" ? vscode.l10n.t("Which day?") : vscode.l10n.t("Which week?");
    const date = await pick(title(2), asking, scope === undefined ? [] : dateChoices(scope));
    if (date === undefined) return undefined;
    wish = { ...wish, date };
  }
  const paper = await pick(title(3), vscode.l10n.t("On which paper?"), paperChoices(memory.last()));
  if (paper === undefined) return undefined;
  memory.keep(paper);
  return { ...wish, ...paper };
}

/** So many questions are asked. */
const STEPS = 3;

const TITLES: Readonly<Record<PrintWhat, () => string>> = {
  day: () => vscode.l10n.t("Print a day"),
  week: () => vscode.l10n.t("Print a week"),
  packet: () => vscode.l10n.t("Print a packet"),
};

/** Something to choose; one without a value is a heading. */
interface Choice<T> extends vscode.QuickPickItem {
  readonly value?: T;
}

async function pick<T>(
  title: string,
  placeHolder: string,
  choices: readonly Choice<T>[],
): Promise<T | undefined> {
  const chosen = await vscode.window.showQuickPick(choices, {
    title,
    placeHolder,
    ignoreFocusOut: true,
    matchOnDescription: true,
  });
  return chosen?.value;
}

function heading<T>(label: string): Choice<T> {
  return { label, kind: vscode.QuickPickItemKind.Separator };
}

/** Everybody first, then each player; whoever plays in the term at the cursor comes before the rest of the studio. */
function whoseChoices(what: PrintWhat, scopes: readonly PrintScope[]): readonly Choice<Whose>[] {
  const together: Choice<Whose>[] = [];
  const single: Choice<Whose>[] = [];
  const known = new Set<string>();
  for (const scope of scopes) {
    const { of, title, players } = scope;
    const own = { of, term: of === "term" ? title : undefined };
    if (of === "book") {
      together.push({
        label: title === "" ? vscode.l10n.t("The book") : vscode.l10n.t("The book of {0}", title),
        description: vscode.l10n.t("every exercise"),
        value: { ...own, apart: false },
      });
      continue;
    }
    const fresh = players.filter((player) => !known.has(player));
    // A studio of those alone who play the term has nothing to add for them, but it may have other terms.
    const label =
      of === "term" ? vscode.l10n.t("Everybody in “{0}”", title) : vscode.l10n.t("The whole studio");
    const one = what === "packet" ? vscode.l10n.t("one packet") : vscode.l10n.t("in one file");
    const each = what === "packet" ? vscode.l10n.t("a packet each") : vscode.l10n.t("a file each");
    together.push({ label, description: one, value: { ...own, apart: false } });
    if (players.length > 1) together.push({ label, description: each, value: { ...own, apart: true } });
    for (const player of fresh) {
      known.add(player);
      single.push({
        label: player,
        description: of === "term" ? title : "",
        value: { ...own, player, apart: false },
      });
    }
  }
  return single.length === 0 ? together : [...together, heading(vscode.l10n.t("One player")), ...single];
}

function keyChoices(ofBook: boolean): readonly Choice<PrintWish["keys"]>[] {
  const home: Choice<PrintWish["keys"]> = {
    label: vscode.l10n.t("Home key"),
    description: vscode.l10n.t("each exercise as it is written"),
    value: "home",
  };
  const all: Choice<PrintWish["keys"]> = {
    label: vscode.l10n.t("All keys"),
    description: vscode.l10n.t("each exercise in every key it can stand in"),
    value: "all",
  };
  if (ofBook) return [home, all];
  const travelled: Choice<PrintWish["keys"]> = {
    label: vscode.l10n.t("The keys of the term"),
    description: vscode.l10n.t("in the order in which they are played"),
    value: "travelled",
  };
  return [travelled, home, all];
}

/** The likeliest, then what comes after it, then what is over, the last first. */
function dateChoices({ dates, likely }: PrintScope): readonly Choice<string>[] {
  const choice = ({ date, label, detail }: PrintDate): Choice<string> => ({
    label,
    description: detail,
    value: date,
  });
  const before = dates.slice(0, likely).reverse();
  return [
    ...dates.slice(likely).map(choice),
    ...(before.length === 0 ? [] : [heading<string>(vscode.l10n.t("Earlier"))]),
    ...before.map(choice),
  ];
}

function paperChoices(last: Paper | undefined): readonly Choice<Paper>[] {
  const all: readonly Choice<Paper>[] = [
    { label: vscode.l10n.t("A4"), value: { paper: "a4", large: false } },
    {
      label: vscode.l10n.t("A4, large print"),
      description: vscode.l10n.t("on as many pages as it takes"),
      value: { paper: "a4", large: true },
    },
    { label: vscode.l10n.t("US Letter"), value: { paper: "letter", large: false } },
    {
      label: vscode.l10n.t("US Letter, large print"),
      description: vscode.l10n.t("on as many pages as it takes"),
      value: { paper: "letter", large: true },
    },
  ];
  const isLast = ({ value }: Choice<Paper>): boolean =>
    last !== undefined && value?.paper === last.paper && value.large === last.large;
  return [...all.filter(isLast), ...all.filter((each) => !isLast(each))];
}
