import type { CodeAction, Range, TextEdit } from "vscode-languageserver-types";
import { CodeActionKind } from "vscode-languageserver-types";
import { Memory } from "../../grammar/memory";
import type { Fix } from "../fixes/fix";
import { Fixer } from "../fixes/fixer";
import { RULES } from "../rules/all";
import type { Finding } from "../rules/finding";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { type DiagnosticAbility, diagnosticOf } from "./diagnostics";
import { idleEdit } from "./idle-edit";
import { fileOf, offsetOf, type Places, spanRange } from "./lines-of";
import { degreesEdits } from "./refactor-degrees";
import { ownMusicAt } from "./refactor-music";
import { notesEdits } from "./refactor-notes";
import { routineEdits, sessionAt } from "./refactor-routine";
import { standEdit } from "./stand-edit";

/** All mends of a file that the text alone tells, at once. */
const FIX_ALL = "source.fixAll.leadpipe";

/** The kinds of actions there are. */
export const CODE_ACTION_KINDS: readonly CodeActionKind[] = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorRewrite,
  CodeActionKind.RefactorExtract,
  FIX_ALL,
];

export interface CodeActionAsk {
  readonly range: Range;
  /** The kinds that are wanted; all where undefined. */
  readonly only?: readonly CodeActionKind[] | undefined;
  /**
   * Whether the writer asked. An editor asks by itself with every move of the cursor, and then nothing is worked out
   * that checks whole plans again: no fix is measured, nothing is written another way.
   */
  readonly invoked: boolean;
}

/** Findings of one place that fixes are measured for, at most. */
const MOST_FINDINGS = 8;

/** What can be done at a range: mends and measured fixes, letting a finding stand, writing a thing another way. */
export function codeActionsAt(
  checked: Checked,
  path: string,
  ask: CodeActionAsk,
  can: DiagnosticAbility,
  places: Places,
  /** Findings that are known already, where others are still being looked for. */
  known?: readonly Finding[],
): CodeAction[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const uri = places.uriOf(path);
  const wants = (kind: CodeActionKind): boolean =>
    ask.only === undefined || ask.only.some((each) => kind === each || kind.startsWith(`${each}.`));
  const offset = offsetOf(file, ask.range.start);
  const asked = ask.invoked || ask.only !== undefined;
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    const findings = known ?? file.findings;
    const found = findingsAt(checked, file, findings, offset, offsetOf(file, ask.range.end));
    for (const finding of found) actions.push(...quickFixes(finding));
    for (const finding of found) actions.push(...letStand(finding));
  }
  if (wants(FIX_ALL)) actions.push(...fixAll());
  if (asked && wants(CodeActionKind.RefactorRewrite)) actions.push(...rewrites());
  if (asked && wants(CodeActionKind.RefactorExtract)) actions.push(...extractions());
  return actions;

  function action(title: string, kind: CodeActionKind, edits: readonly TextEdit[]): CodeAction {
    return { title, kind, edit: { changes: { [uri]: [...edits] } } };
  }

  function quickFixes(finding: Finding): readonly CodeAction[] {
    if (file === undefined) return [];
    const diagnostics = [diagnosticOf(checked, file, finding, can, places)];
    if (finding.standing !== undefined) return [];
    if (finding.code === "let-idle") {
      const edit = idleEdit(checked, file, finding);
      if (edit === undefined) return [];
      return [
        { ...action("Take the line away", CodeActionKind.QuickFix, [edit]), diagnostics, isPreferred: true },
      ];
    }
    const fixes =
      finding.mend !== undefined
        ? [{ title: finding.mend.title, place: finding.place, text: finding.mend.text }]
        : asked
          ? measuredFixes(file, finding)
          : (measured.get(finding) ?? []);
    return fixes.flatMap(({ title, place, text }, i) => {
      const home = checked.homes.get(place.piece);
      if (home === undefined) return [];
      const edit = { range: spanRange(home.file, home.start, place.span), newText: text };
      return {
        title,
        kind: CodeActionKind.QuickFix,
        edit: { changes: { [places.uriOf(home.file.path)]: [edit] } },
        diagnostics,
        ...(i === 0 ? { isPreferred: true } : {}),
      };
    });
  }

  function letStand(finding: Finding): readonly CodeAction[] {
    if (file === undefined || finding.standing !== undefined || !STANDING.has(finding.code)) return [];
    const edit = standEdit(checked, file, finding);
    if (edit === undefined) return [];
    const when = finding.dates.length === 1 ? " on this day" : "";
    return [
      {
        ...action(`Let ${finding.code} stand here${when}, with a reason`, CodeActionKind.QuickFix, [edit]),
        diagnostics: [diagnosticOf(checked, file, finding, can, places)],
      },
    ];
  }

  function fixAll(): readonly CodeAction[] {
    if (file === undefined) return [];
    const edits = mends(checked, file, known ?? file.findings);
    return edits.length === 0 ? [] : [action("Mend everything that the text alone tells", FIX_ALL, edits)];
  }

  function rewrites(): readonly CodeAction[] {
    const music = file === undefined ? undefined : ownMusicAt(file, offset);
    if (file === undefined || music === undefined) return [];
    const toDegrees = degreesEdits(checked, file, music);
    const toNotes = notesEdits(checked, file, music);
    return [
      ...(toDegrees === undefined
        ? []
        : [action("Write the notes as scale degrees", CodeActionKind.RefactorRewrite, toDegrees)]),
      ...(toNotes === undefined
        ? []
        : [action("Write the degrees as notes", CodeActionKind.RefactorRewrite, toNotes)]),
    ];
  }

  function extractions(): readonly CodeAction[] {
    const session = file === undefined ? undefined : sessionAt(file, offset);
    if (file === undefined || session === undefined) return [];
    const extraction = routineEdits(checked, file, session);
    if (extraction === undefined) return [];
    const title = `Keep this session as the routine “${extraction.name}”`;
    return [action(title, CodeActionKind.RefactorExtract, extraction.edits)];
  }
}

/** What a rule found can be let stand; what could not be read cannot. */
const STANDING: ReadonlySet<string> = new Set(RULES.map(({ code }) => code));

const fixers = new Memory<CheckedFile, Fixer>();

/** What is found in a file as it stands is worked out once for all the fixes that are measured against it. */
function fixerOf(file: CheckedFile): Fixer {
  const known = fixers.get(file);
  if (known !== undefined) return known;
  const fixer = new Fixer(file.plan, file.ground);
  fixers.set(file, fixer);
  return fixer;
}

const measured = new Memory<Finding, readonly Fix[]>();

/** The fixes of a finding, each applied to a copy and measured; once for as long as the finding is the same. */
function measuredFixes(file: CheckedFile, finding: Finding): readonly Fix[] {
  const known = measured.get(finding);
  if (known !== undefined) return known;
  const fixes = fixerOf(file).fixesFor(finding);
  measured.set(finding, fixes);
  return fixes;
}

/** The findings that touch a stretch of a file's text, the narrowest first. */
function findingsAt(
  checked: Checked,
  file: CheckedFile,
  findings: readonly Finding[],
  from: number,
  to: number,
): readonly Finding[] {
  const touching: { finding: Finding; length: number }[] = [];
  for (const finding of findings) {
    const { piece, span } = finding.place;
    const home = checked.homes.get(piece);
    if (home?.file !== file) continue;
    if (home.start + span.start <= to && home.start + span.end >= from) {
      touching.push({ finding, length: span.end - span.start });
    }
  }
  return touching
    .sort((a, b) => a.length - b.length)
    .slice(0, MOST_FINDINGS)
    .map(({ finding }) => finding);
}

/** The mends among the findings of a file that stand clear of each other, from the top down. */
function mends(checked: Checked, file: CheckedFile, findings: readonly Finding[]): readonly TextEdit[] {
  const edits: TextEdit[] = [];
  let end = -1;
  for (const { mend, place, standing } of findings) {
    const home = checked.homes.get(place.piece);
    if (mend === undefined || standing !== undefined || home?.file !== file) continue;
    const start = home.start + place.span.start;
    if (start <= end) continue;
    end = home.start + place.span.end;
    edits.push({ range: spanRange(file, home.start, place.span), newText: mend.text });
  }
  return edits;
}
