import type { CompletionItem, CompletionList, MarkupContent } from "vscode-languageserver-types";
import { CompletionItemKind, InsertTextFormat, MarkupKind } from "vscode-languageserver-types";
import type { CheckedFile } from "../workspace/check-sources";
import type { WritingPlace } from "./completion-place";
import { rangeOf } from "./lines-of";

/** What the editor can do with a proposal. */
export interface CompletionAbility {
  /** Forms with places to fill in. */
  readonly snippets: boolean;
  readonly markdown: boolean;
  /** What proposals have in common said once for all of them: the range, and what they are about. */
  readonly shared?: boolean;
}

/** What a proposal is about, for when more is asked of it; which one its label says. */
export type CompletionAbout =
  | { readonly about: "exercise"; readonly path: string }
  | { readonly about: "finding" }
  | { readonly about: "itself" };

/** Something that can be written at the cursor, in the order in which it is shown. */
export interface Proposal {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** What is written, where that is not the label. */
  readonly text?: string;
  /** The same as a form, for editors that fill forms in. */
  readonly form?: string;
  /** A name, which stands in quotes. */
  readonly quoted?: boolean;
  /** Shown beside it. */
  readonly detail?: string | undefined;
  readonly documentation?: string;
  readonly about?: CompletionAbout;
}

/** A word of the language. */
export function wordProposal(text: string, detail?: string): Proposal {
  return { label: text, kind: CompletionItemKind.Keyword, detail };
}

/** A figure or a value. */
export function valueProposal(text: string, detail?: string): Proposal {
  return { label: text, kind: CompletionItemKind.Value, detail };
}

/** The proposals as the protocol has them. Their order is kept, whatever their names. */
export function completionItems(
  file: CheckedFile,
  place: WritingPlace,
  proposals: readonly Proposal[],
  can: CompletionAbility,
): Pick<CompletionList, "items" | "itemDefaults"> {
  const range = rangeOf(file, place.start, place.end);
  const common = can.shared === true ? proposals.find(({ about }) => about !== undefined)?.about : undefined;
  const items: CompletionItem[] = [];
  const seen = new Set<string>();
  for (const proposal of proposals) {
    if (place.quoted && proposal.quoted !== true) continue;
    if (seen.has(proposal.label)) continue;
    seen.add(proposal.label);
    const plain = proposal.text ?? proposal.label;
    const form = can.snippets ? proposal.form : undefined;
    const newText = form ?? (proposal.quoted === true ? `"${plain}"` : plain);
    const item: CompletionItem = {
      label: proposal.label,
      kind: proposal.kind,
      sortText: String(items.length).padStart(4, "0"),
    };
    // Of a long book there are hundreds: what goes without saying is not said of each.
    const filter = filterText(place, plain);
    if (filter !== proposal.label) item.filterText = filter;
    if (can.shared !== true) item.textEdit = { range, newText };
    else if (newText !== proposal.label) item.textEditText = newText;
    if (form !== undefined) item.insertTextFormat = InsertTextFormat.Snippet;
    if (proposal.detail !== undefined && proposal.detail !== "") item.detail = proposal.detail;
    if (proposal.documentation !== undefined) item.documentation = marked(proposal.documentation, can);
    if (common === undefined) {
      if (proposal.about !== undefined) item.data = proposal.about;
    } else if (proposal.about?.about !== common.about) item.data = proposal.about ?? ITSELF;
    items.push(item);
  }
  if (can.shared !== true) return { items };
  return { items, itemDefaults: { editRange: range, ...(common === undefined ? {} : { data: common }) } };
}

/** Said of a proposal where most are about something. */
const ITSELF: CompletionAbout = { about: "itself" };

/** Text as Markdown where the editor shows it. */
export function marked(text: string, can: { readonly markdown: boolean }): MarkupContent | string {
  return can.markdown ? { kind: MarkupKind.Markdown, value: text } : text.replace(/\*\*|`/g, "");
}

/**
 * What the typed letters are held against: with the quote that was typed, without accents and with `b` for `♭`,
 * unless just those were typed.
 */
function filterText({ quoted, prefix }: WritingPlace, text: string): string {
  const quote = quoted ? prefix.charAt(0) : "";
  return quote + (/[^ -~]/.test(prefix.slice(quote.length)) ? text : plainLetters(text));
}

/** Letters as every keyboard has them. */
function plainLetters(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").replace(/♭/g, "b").replace(/♯/g, "#");
}
