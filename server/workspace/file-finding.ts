import type { Problem } from "../../grammar/piece";
import type { Place } from "../plan/place";
import type { Settings } from "../plan/settings";
import { infoOf } from "../rules/catalogue";
import type { Finding } from "../rules/finding";
import type { Source } from "./source";

/** A finding about a file or a line of one, without figures, days or players. */
export function fileFinding(
  code: string,
  place: Place,
  message: string,
  more: Partial<Pick<Finding, "mend" | "related" | "severity">> = {},
): Finding {
  return {
    code,
    severity: more.severity ?? infoOf(code)?.severity ?? "error",
    place,
    message,
    details: [],
    related: more.related ?? [],
    standing: undefined,
    dates: [],
    players: [],
    mend: more.mend,
  };
}

/** What could not be read in a file. */
export function syntaxFindings(source: Source): readonly Finding[] {
  return source.tree.pieces.flatMap((piece) =>
    piece.problems.map((problem: Problem) =>
      fileFinding(problem.code, { piece, span: problem.span }, problem.message, { mend: problem.mend }),
    ),
  );
}

/** The same findings at the severities the studio asks for; those it turns off are left out. */
export function atSeverities(findings: readonly Finding[], settings: Settings): readonly Finding[] {
  if (settings.severities.size === 0) return findings;
  return findings.flatMap((finding) => {
    const asked = settings.severities.get(finding.code)?.severity;
    if (asked === undefined || asked === finding.severity) return [finding];
    return asked === "off" ? [] : [{ ...finding, severity: asked }];
  });
}
