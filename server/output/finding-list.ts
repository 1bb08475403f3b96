import type { Finding } from "../rules/finding";
import type { CheckedFile, PieceHomes } from "../workspace/check-sources";
import { type FindingStyle, findingText } from "./finding-text";
import { counted } from "./numbers";
import { shownPlace } from "./position";
import { safeText } from "./safe-text";

/** Findings of one kind on one line that are shown each; the rest is counted. */
const MOST_ALIKE = 5;

/** The findings of a file one after the other, without saying one thing over and over. */
export function findingList(
  file: CheckedFile,
  findings: readonly Finding[],
  homes: PieceHomes,
  style: FindingStyle,
): readonly string[] {
  const texts: string[] = [];
  const alike = new Map<string, number>();
  const lineOf = (finding: Finding): number => shownPlace(finding.place, homes)?.from.line ?? 1;
  for (const finding of findings) {
    const key = `${lineOf(finding)} ${finding.code}`;
    const before = alike.get(key) ?? 0;
    alike.set(key, before + 1);
    if (before < MOST_ALIKE) texts.push(findingText(finding, homes, style));
  }
  for (const [key, count] of alike) {
    if (count <= MOST_ALIKE) continue;
    const [line = "", code = ""] = key.split(" ");
    const more = counted(count - MOST_ALIKE, `more ${code}`, `more ${code}`);
    texts.push(`${safeText(style.showPath(file.path))}:${line}: ${more} on this line`);
  }
  return texts;
}
