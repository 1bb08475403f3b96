// biome-ignore-all lint/suspicious/noTemplateCurlyInString: the places of a form are written so by the protocol.
import type { IToken } from "chevrotain";
import { CompletionItemKind } from "vscode-languageserver-types";
import { K } from "../../grammar/tokens";
import { plainNumber } from "../output/numbers";
import type { Proposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { meaningThere } from "./completion-words";
import { filledForm } from "./snippets";

interface ClauseForm {
  readonly words: string;
  readonly form: string;
  /** The words of which one says that the line has such a clause already. */
  readonly unless: readonly IToken["tokenType"][];
  /** What it belongs to; everything where left out. */
  readonly of?: "keys" | "valves" | "walk" | "tempo";
}

const PLACES = [K.in, K.keys, K.valves];
const AMOUNTS = [K.once, K.twice, K.times, K.for];
const PACING = [K.onward, K.afresh, K.passed];
const ARTICULATION = [K.slurred, K.tongued, K.slur, K.written];

/** What can be asked of an assignment, in the order in which it is mostly written. */
const CLAUSES: readonly ClauseForm[] = [
  { words: "in", form: "in ${1:C}", unless: PLACES, of: "keys" },
  {
    words: "keys",
    form: "keys ${1:C} up by ${2|half step,whole step,fourth,fifth|} to ${3:G}",
    unless: PLACES,
    of: "keys",
  },
  { words: "all keys", form: "all keys ${1:C, F, G}", unless: PLACES, of: "keys" },
  { words: "valves", form: "valves ${1:open} to ${2:123}", unless: PLACES, of: "valves" },
  { words: "all valves", form: "all valves ${1:open} to ${2:123}", unless: PLACES, of: "valves" },
  { words: "tempo", form: "tempo ${1:72}", unless: [K.tempo], of: "tempo" },
  { words: "once", form: "once", unless: AMOUNTS },
  { words: "twice", form: "twice", unless: AMOUNTS },
  { words: "3 times", form: "${1:3} times", unless: AMOUNTS },
  { words: "for", form: "for ${1:4} min", unless: AMOUNTS },
  { words: "folded", form: "folded", unless: [K.folded], of: "walk" },
  { words: "afresh", form: "afresh", unless: PACING, of: "walk" },
  { words: "onward", form: "onward", unless: PACING, of: "walk" },
  { words: "when passed", form: "when passed", unless: PACING, of: "walk" },
  {
    words: "next round",
    form: "next round ${1|up,down|} by ${2|half step,whole step|}",
    unless: [K.round],
    of: "walk",
  },
  { words: "all slurred", form: "all slurred", unless: ARTICULATION },
  { words: "all tongued", form: "all tongued", unless: ARTICULATION },
  { words: "dynamic", form: "dynamic ${1|p,pp,mp,mf,f|}", unless: [K.dynamic] },
  { words: "rest", form: "rest ${1:20 s}", unless: [K.rest] },
  { words: "drop when tired", form: "drop when tired", unless: [K.drop] },
];

const DETAILS: ReadonlyMap<string, string> = new Map([
  ["all keys", "every one of these keys, each day"],
  ["all valves", "every one of these combinations, each day"],
]);

/** Clauses that the assignment of the line does not have yet and that its exercise can have. */
export function clauseProposals(scene: Scene): readonly Proposal[] {
  const { exercise, place } = scene;
  const said = new Set(place.said.map((token) => token.tokenType));
  const travels = said.has(K.keys) || said.has(K.valves);
  const content = exercise?.content;
  const fits = ({ of }: ClauseForm): boolean => {
    if (of === undefined) return true;
    switch (of) {
      case "walk":
        return travels;
      case "keys":
        return content === undefined || (content.kind === "notes" && content.by !== "partials");
      case "valves":
        return content === undefined || (content.kind === "notes" && content.by === "partials");
      case "tempo":
        return exercise === undefined || exercise.tempo !== undefined;
    }
  };
  return CLAUSES.filter((clause) => fits(clause) && !clause.unless.some((type) => said.has(type))).map(
    ({ words, form }) => {
      const own = words === "tempo" && exercise?.tempo !== undefined ? plainNumber(exercise.tempo.bpm) : "72";
      const filled = form.replace("${1:72}", `\${1:${own}}`);
      return {
        label: words,
        kind: CompletionItemKind.Keyword,
        form: filled,
        detail: DETAILS.get(words) ?? meaningThere(words.replace(/^(all|\d+) /, ""), "on an assignment"),
        documentation: `\`${filledForm(filled)}\``,
      };
    },
  );
}
