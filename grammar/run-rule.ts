import { EOF, type IToken } from "chevrotain";
import type { Fault } from "./leaves";
import { parser, type Statement } from "./statements";
import type { Trivia } from "./tree";

/** What may be in a tree before its kind is known. */
export type ReadNode = { readonly kind: string; trivia: Trivia };

/** What came of reading one statement. */
export interface RuleResult {
  readonly node: ReadNode | undefined;
  readonly fault: Fault | undefined;
  /** How many tokens were read. */
  readonly consumed: number;
}

/** Runs the rule of a statement over a run of tokens. */
export function runRule(statement: Statement, run: IToken[], trivia: Trivia): RuleResult {
  parser.trivia = trivia;
  parser.keeper.fault = undefined;
  parser.input = run;
  const node = statement.rule() as ReadNode | undefined;
  // The rule writes the fault behind the compiler's back.
  const fault = parser.keeper.fault as Fault | undefined;
  const next = parser.next();
  return { node, fault, consumed: next.tokenType === EOF ? run.length : run.indexOf(next) };
}
