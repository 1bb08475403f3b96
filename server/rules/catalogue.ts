import { RULES } from "./all";
import type { RuleInfo } from "./rule";

/** Findings that are not rules over a plan: what files and unreadable text give, and idle `let` lines. */
const OTHERS: readonly RuleInfo[] = [
  {
    code: "unreadable",
    severity: "error",
    title: "text that cannot be read",
    reason: "What cannot be read is left out of every total.",
    mend: "See the message; grammar/REFERENCE.md has every line there is.",
  },
  {
    code: "too-deep",
    severity: "error",
    title: "brackets inside too many others",
    reason: "No music needs more than 32.",
    mend: "Take some away.",
  },
  {
    code: "odd-letter",
    severity: "error",
    title: "a control character",
    reason: "It cannot be seen and would spoil names.",
    mend: "Delete it.",
  },
  {
    code: "file-unreadable",
    severity: "error",
    title: "a file that cannot be opened",
    reason: "Nothing in it is checked.",
    mend: "See that it exists and may be read.",
  },
  {
    code: "file-too-large",
    severity: "error",
    title: "a file over 4 MB",
    reason: "No plan is that long; it was probably something else.",
    mend: "Split it, or take it out of the folder.",
  },
  {
    code: "file-not-text",
    severity: "error",
    title: "a file that is not text",
    reason: "Plans are text in UTF-8.",
    mend: "Save it as plain text, UTF-8.",
  },
  {
    code: "file-empty",
    severity: "note",
    title: "a file with nothing in it",
    reason: "It may have been saved too early.",
    mend: "Write in it, or delete it.",
  },
  {
    code: "use-missing",
    severity: "error",
    title: "a used file that is not there",
    reason: "What it declares is missing.",
    mend: "Correct the path; it starts from this file's folder.",
  },
  {
    code: "use-circle",
    severity: "note",
    title: "files that use each other in a circle",
    reason: "It does no harm: each is read once.",
    mend: "Nothing, or take one of the lines away.",
  },
  {
    code: "use-case",
    severity: "warning",
    title: "capital letters in a file's name differ",
    reason: "Some computers see two different files.",
    mend: "Write the name as the folder has it.",
  },
  {
    code: "use-twice",
    severity: "note",
    title: "a file used twice",
    reason: "Once is enough.",
    mend: "Take one of the lines away.",
  },
  {
    code: "let-idle",
    severity: "note",
    title: "a `let … stand` that no longer stands for anything",
    reason: "It would hide the next one without a word.",
    mend: "Take it away.",
  },
];

/** Every finding there is, by code. */
export const catalogue: readonly RuleInfo[] = [...RULES, ...OTHERS]
  .map(({ code, severity, title, reason, mend }) => ({ code, severity, title, reason, mend }))
  .sort((a, b) => (a.code < b.code ? -1 : 1));

/** The catalogue's entry, or undefined for a code that does not exist. */
export function infoOf(code: string): RuleInfo | undefined {
  return byCode.get(code);
}

const byCode = new Map(catalogue.map((info) => [info.code, info]));
