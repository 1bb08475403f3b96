import type { Diagnostic, DiagnosticRelatedInformation } from "vscode-languageserver-types";
import { DiagnosticSeverity, DiagnosticTag } from "vscode-languageserver-types";
import type { Finding } from "../rules/finding";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, locationOf, type Places, rangeOf } from "./lines-of";

/** What the editor can show of a finding beside its place and words. */
export interface DiagnosticAbility {
  readonly relatedInformation: boolean;
  readonly tags: boolean;
}

/** Findings of one file that are shown at once; beyond that nobody reads them, and editors grow slow. */
export const MOST_DIAGNOSTICS = 100;

/** Lines of the sum behind a figure that are shown beneath it. */
const MOST_DETAILS = 5;

/** The name that stands beside every finding. */
const SOURCE = "leadpipe";

/** The code of the line that counts what is not shown; it is no finding and cannot be let stand. */
const MORE = "more-findings";

/**
 * The findings of a file as an editor shows them, from the top down. Of too many the most serious are kept, and
 * one more line says how many there are besides.
 */
export function diagnosticsOf(
  checked: Checked,
  path: string,
  can: DiagnosticAbility,
  places: Places,
  /** Findings that are known already, where others are still being looked for. */
  known?: readonly Finding[],
): Diagnostic[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const findings = known ?? file.findings;
  const shown = mostSerious(findings);
  const diagnostics = shown.map((finding) => diagnosticOf(checked, file, finding, can, places));
  if (shown.length < findings.length) {
    const kept = new Set(shown);
    const first = findings.find((finding) => !kept.has(finding));
    const more = findings.length - shown.length;
    diagnostics.push({
      range: first === undefined ? rangeOf(file, 0, 0) : placeRange(checked, file, first),
      severity: DiagnosticSeverity.Information,
      code: MORE,
      source: SOURCE,
      message: `${more} more ${more === 1 ? "finding" : "findings"} in this file, from here on. Mend the ones that are shown first.`,
    });
  }
  return diagnostics;
}

/** One finding as an editor shows it. */
export function diagnosticOf(
  checked: Checked,
  file: CheckedFile,
  finding: Finding,
  can: DiagnosticAbility,
  places: Places,
): Diagnostic {
  const diagnostic: Diagnostic = {
    range: placeRange(checked, file, finding),
    severity: severityOf(finding),
    code: finding.code,
    source: SOURCE,
    message: messageOf(finding),
    data: { finding: finding.code, at: finding.place.span.start },
  };
  if (can.tags && isIdle(finding.code)) diagnostic.tags = [DiagnosticTag.Unnecessary];
  if (can.relatedInformation && finding.related.length > 0) {
    const related = finding.related.flatMap(({ place, message }): DiagnosticRelatedInformation[] => {
      const location = locationOf(checked.homes, place, places);
      return location === undefined ? [] : [{ location, message }];
    });
    if (related.length > 0) diagnostic.relatedInformation = related;
  }
  return diagnostic;
}

function placeRange(checked: Checked, file: CheckedFile, { place }: Finding): Diagnostic["range"] {
  const home = checked.homes.get(place.piece);
  const start = home?.file === file ? home.start : 0;
  return rangeOf(file, start + place.span.start, start + place.span.end);
}

/** The most serious findings, in the order of the text; of equals the ones that come first. */
function mostSerious(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length <= MOST_DIAGNOSTICS) return findings;
  const byWeight: Finding[][] = [[], [], [], []];
  for (const finding of findings) byWeight[weight(finding)]!.push(finding);
  const kept = new Set(byWeight.flat().slice(0, MOST_DIAGNOSTICS - 1));
  return findings.filter((finding) => kept.has(finding));
}

const WEIGHTS = { error: 0, warning: 1, note: 2 } as const;

/** 0 for the most serious, 3 for what is let stand. */
function weight({ severity, standing }: Finding): 0 | 1 | 2 | 3 {
  return standing === undefined ? WEIGHTS[severity] : 3;
}

/**
 * A note and what is let stand are information and no mere hint: hints are left out of the list of problems, and
 * what stands must not vanish silently.
 */
function severityOf({ severity, standing }: Finding): DiagnosticSeverity {
  if (standing !== undefined) return DiagnosticSeverity.Information;
  switch (severity) {
    case "error":
      return DiagnosticSeverity.Error;
    case "warning":
      return DiagnosticSeverity.Warning;
    case "note":
      return DiagnosticSeverity.Information;
  }
}

/** What is written and serves nothing: editors draw it faint. */
function isIdle(code: string): boolean {
  return code.startsWith("unused-") || code === "let-idle" || code === "use-twice";
}

function messageOf({ message, details, standing }: Finding): string {
  if (standing !== undefined) return `${message}\nlet stand: ${standing}`;
  const lines = details.slice(0, MOST_DETAILS);
  const more = details.length - lines.length;
  if (more > 0) lines.push(`… and ${more} more`);
  return [message, ...lines].join("\n");
}
