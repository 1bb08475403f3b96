import type { IToken } from "chevrotain";
import { CompletionItemKind } from "vscode-languageserver-types";
import type { BlockKind } from "../../grammar/statements";
import { WORDS } from "../../grammar/words";
import { INSTRUMENTS } from "../music/instrument";
import { dateText } from "../plan/date";
import { RULES } from "../rules/all";
import { catalogue } from "../rules/catalogue";
import { type Proposal, valueProposal, wordProposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { FORMS, filledForm, formText } from "./snippets";

/** What each word or phrase of the language means; the first meaning where it has several. */
const MEANINGS: ReadonlyMap<string, string> = new Map(
  WORDS.toReversed().map(({ phrase, meaning }) => [phrase, meaning]),
);

/** The meaning of a word or phrase, or of the longest phrase it begins with. */
export function meaningOf(words: string): string | undefined {
  for (let end = words.length; end > 0; end = words.lastIndexOf(" ", end - 1)) {
    const known = MEANINGS.get(words.slice(0, end));
    if (known !== undefined) return known;
  }
  return undefined;
}

/** What a word means on an assignment or inside music, where it means something else there. */
export function meaningThere(words: string, where: "on an assignment" | "inside music"): string | undefined {
  const meaning = meaningOf(words);
  const at = meaning?.indexOf(`${where}, `) ?? -1;
  return at < 0 ? meaning?.split("; ")[0] : meaning?.slice(at + where.length + 2);
}

/** What may begin a line in a block, filled with the names and dates that are there. */
export function statementProposals(block: BlockKind, scene: Scene): readonly Proposal[] {
  return FORMS[block].map(({ words, form }) => ({
    label: words,
    kind: CompletionItemKind.Keyword,
    form: fittedForm(form, scene),
    detail: meaningOf(words),
    documentation: `\`${filledForm(form).replace(/\s+/g, " ").trim()}\``,
  }));
}

/** How the lines go on that begin with these words: `horn` with `down 15 s`. */
export function formRests(block: BlockKind, said: readonly IToken[]): readonly Proposal[] {
  const begun = said.map(({ image }) => image);
  return FORMS[block].flatMap(({ words, form }) => {
    const whole = words.split(" ");
    if (begun.length >= whole.length && begun.join(" ") !== words) return [];
    if (!begun.every((word, i) => whole[i] === word)) return [];
    const rest = form.slice(begun.join(" ").length).trimStart();
    const label = filledForm(rest).replace(/\s+/g, " ").trim();
    // A name that is not known yet is the writer's own.
    return label === "" || label.startsWith('"')
      ? []
      : [{ label, kind: CompletionItemKind.Keyword, text: label, form: rest }];
  });
}

/** A form that proposes the first area, level and student of the plan, and a day of the term. */
function fittedForm(form: string, { plan, term, players }: Scene): string {
  const student = players.find((player) => player.kind === "student")?.name;
  const level = [...plan.players.values()].find((player) => player.kind === "level")?.name;
  const date = term === undefined ? undefined : dateText(term.dates.from);
  const put = (text: string, standIn: string | RegExp, name: string | undefined): string =>
    name === undefined ? text : text.replace(standIn, () => formText(name));
  let fitted = put(form, /(?<=:)Long tones(?=\})/, plan.areas.keys().next().value);
  // The heading of a student or a term names a new one; only who it is like or for is known.
  fitted = put(fitted, /(?<=:)Seniors(?=\}" \{)/, form.startsWith("level") ? undefined : level);
  if (form.startsWith("change")) fitted = put(fitted, /(?<=:)K\. M\.(?=\})/, student);
  return put(fitted, /(?<=:)\d{4}-\d\d-\d\d(?=\})/g, date);
}

/** Words that are told as they are. */
export function wordProposals(words: readonly string[]): readonly Proposal[] {
  return words.map((text) => wordProposal(text, meaningOf(text)));
}

/** The instruments as a level names them; beside a short name the full one. */
export function instrumentProposals(): readonly Proposal[] {
  return INSTRUMENTS.map(({ text, name }) => valueProposal(text, text === name ? undefined : name));
}

const KINDS = ["term", "plan", "trouble"] as const;

const STANDING = KINDS.flatMap((kind) => RULES.filter((rule) => rule.kind === kind)).map(
  ({ code, title }) => ({
    code,
    title,
  }),
);

/** The codes of findings, each with what it is about. */
export function codeProposals({ place }: Scene): readonly Proposal[] {
  // In a `let` the reason is wanted next; the studio's `finding` lines go on with a weight.
  const stands = place.said[0]?.image === "let" && place.rest === "";
  // What cannot be read cannot be let stand; what the terms are checked for mostly is.
  const codes = place.said[0]?.image === "let" ? STANDING : catalogue;
  return codes.map(({ code, title }) => ({
    label: code,
    kind: CompletionItemKind.EnumMember,
    detail: title,
    ...(stands ? { form: `${code} stand because "\${1:the reason}"` } : {}),
    about: { about: "finding" },
  }));
}
