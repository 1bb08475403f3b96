import { dateText } from "../plan/date";
import type { Finding } from "../rules/finding";
import type { PieceHomes } from "../workspace/check-sources";
import { type Position, shownPlace } from "./position";

/** A finding as other programs read it. Lines and columns count from 1, columns in UTF-16 code units. */
export interface FindingData {
  readonly code: string;
  readonly severity: Finding["severity"];
  readonly message: string;
  readonly from: Position;
  readonly to: Position;
  readonly details: readonly string[];
  readonly related: readonly (Position & { readonly path: string; readonly message: string })[];
  readonly standing: string | null;
  readonly dates: readonly string[];
  readonly players: readonly string[];
  readonly mend: { readonly title: string; readonly text: string } | null;
}

const TOP: Position = { line: 1, column: 1 };

/** The finding as plain data. */
export function findingData(
  finding: Finding,
  homes: PieceHomes,
  showPath: (path: string) => string,
): FindingData {
  const shown = shownPlace(finding.place, homes);
  return {
    code: finding.code,
    severity: finding.severity,
    message: finding.message,
    from: shown?.from ?? TOP,
    to: shown?.to ?? TOP,
    details: finding.details,
    related: finding.related.flatMap(({ place, message }) => {
      const at = shownPlace(place, homes);
      return at === undefined ? [] : [{ path: showPath(at.file.path), ...at.from, message }];
    }),
    standing: finding.standing ?? null,
    dates: finding.dates.map(dateText),
    players: finding.players,
    mend: finding.mend ?? null,
  };
}
