import type { IToken } from "chevrotain";
import type { Fault } from "./leaves";
import type { Problem } from "./piece";
import type { BlockKind, Statement } from "./statements";
import { endOf } from "./tokens";
export function explainFault(
  _t: string,
  _k: BlockKind,
  s: Statement,
  run: readonly IToken[],
  f: Fault,
): Problem {
  const token = Number.isNaN(f.token.startOffset) ? run.at(-1)! : f.token;
  return {
    code: "unreadable",
    span: { start: token.startOffset, end: endOf(token) },
    message: f.message ?? `${s.name} is written like \`${s.example}\`.`,
    mend: undefined,
  };
}
export function explainStart(_t: string, _k: BlockKind, run: readonly IToken[]): Problem {
  return {
    code: "unreadable",
    span: { start: run[0]!.startOffset, end: endOf(run[0]!) },
    message: "?",
    mend: undefined,
  };
}
export function explainOutside(_t: string, run: readonly IToken[]): Problem {
  return {
    code: "unreadable",
    span: { start: run[0]!.startOffset, end: endOf(run[0]!) },
    message: "outside",
    mend: undefined,
  };
}

/** The finding for a letter that cannot be seen. */
export function oddLetter(letter: string, span: Problem["span"]): Problem {
  const code = letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0");
  return {
    code: "odd-letter",
    span,
    message: `A letter that cannot be seen stands here (U+${code}). Take it away.`,
    mend: { title: "Take it away", text: "" },
  };
}
