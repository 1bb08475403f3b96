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
}

/** Runs the rule of a statement over the parser's input, from where the last rule left off. */
export function runRule(statement: Statement, trivia: Trivia): RuleResult {
  parser.trivia = trivia;
  parser.keeper.fault = undefined;
  const node = statement.rule() as ReadNode | undefined;
  // The rule writes the fault behind the compiler's back.
  return { node, fault: parser.keeper.fault as Fault | undefined };
}

/** Runs the rule of a statement over a run of tokens; `consumed` is how many of them it read. */
export function runRuleOver(
  statement: Statement,
  run: IToken[],
  trivia: Trivia,
): RuleResult & { readonly consumed: number } {
  parser.input = run;
  const { node, fault } = runRule(statement, trivia);
  const next = parser.next();
  return { node, fault, consumed: next.tokenType === EOF ? run.length : run.indexOf(next) };
}
