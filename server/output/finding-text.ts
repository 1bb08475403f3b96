import type { Fix } from "../fixes/fix";
import type { Finding } from "../rules/finding";
import type { PieceHomes } from "../workspace/check-sources";
import type { Paint } from "./paint";
import { type Shown, shownPlace } from "./position";
import { safeText, widthOf } from "./safe-text";

export interface FindingStyle {
  readonly paint: Paint;
  /** A path as the reader knows it. */
  readonly showPath: (path: string) => string;
  /** Measured fixes for a finding, where they are asked for. */
  readonly fixesFor?: (finding: Finding) => readonly Fix[];
}

/** The most columns of a source line that are shown. */
const LINE_WIDTH = 100;
/** Columns kept before what is underlined, where a line must be cut. */
const BEFORE = 30;

/** A finding for a person: where, what, the line it is about, and what stands behind it. */
export function findingText(finding: Finding, homes: PieceHomes, style: FindingStyle): string {
  const { paint, showPath } = style;
  const shown = shownPlace(finding.place, homes);
  const where = shown === undefined ? "" : `${place(shown, showPath)}: `;
  const severity = paint[finding.severity](finding.severity);
  const lines = [
    `${paint.strong(where)}${severity} ${paint.faint(finding.code)}: ${safeText(finding.message)}`,
  ];
  if (finding.standing !== undefined) lines.push(`    stands: ${safeText(finding.standing)}`);
  // A note is one line: it is told, not pressed.
  if (finding.severity === "note") return lines.join("\n");
  if (shown !== undefined && shown.file.text.trim() !== "") lines.push(...excerpt(shown, finding, paint));
  for (const detail of finding.details) lines.push(`    ${safeText(detail)}`);
  for (const { place: other, message } of finding.related) {
    const at = shownPlace(other, homes);
    if (at !== undefined) lines.push(`    ${paint.faint(`${place(at, showPath)}:`)} ${safeText(message)}`);
  }
  const fixes = style.fixesFor?.(finding) ?? [];
  if (fixes.length > 0) {
    for (const fix of fixes) lines.push(`    mend: ${safeText(fix.title)}:  ${safeText(fix.text)}`);
  } else if (finding.mend !== undefined) lines.push(`    mend: ${safeText(finding.mend.title)}`);
  return lines.join("\n");
}

function place({ file, from }: Shown, showPath: FindingStyle["showPath"]): string {
  return `${safeText(showPath(file.path))}:${from.line}:${from.column}`;
}

function excerpt(shown: Shown, finding: Finding, paint: Paint): readonly string[] {
  const { from, to } = shown;
  const lineText = shown.lineText();
  const end = to.line === from.line ? to.column - 1 : lineText.length;
  const parts = [
    safeText(lineText.slice(0, from.column - 1)),
    safeText(lineText.slice(from.column - 1, end)),
    safeText(lineText.slice(end)),
  ] as const;
  const before =
    widthOf(parts[0]) > LINE_WIDTH / 2 ? `…${Array.from(parts[0]).slice(-BEFORE).join("")}` : parts[0];
  const under = cut(parts[1], LINE_WIDTH - widthOf(before));
  const after = cut(parts[2], LINE_WIDTH - widthOf(before) - widthOf(under));
  const number = String(from.line);
  const caret = "^".repeat(Math.max(1, widthOf(under)));
  const gutter = " ".repeat(number.length);
  return [
    paint.faint(`  ${number} | `) + before + under + after,
    `${paint.faint(`  ${gutter} | `)}${" ".repeat(widthOf(before))}${paint[finding.severity](caret)}`,
  ];
}

function cut(text: string, columns: number): string {
  if (widthOf(text) <= columns) return text;
  let kept = "";
  let width = 0;
  for (const letter of text) {
    width += widthOf(letter);
    if (width > columns - 1) break;
    kept += letter;
  }
  return `${kept}…`;
}
