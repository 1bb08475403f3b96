import type { PlayerTerm } from "../days/day";
import { fileNames } from "../output/file-names";
import { CAUTION } from "../output/totals-text";
import { REPORT_STYLE } from "../pages/report-style";
import { reportBody, termReport } from "../pages/term-report";
import type { TermReportParams, TermReportResult } from "../protocol/year-requests";
import type { Checked } from "../workspace/check-sources";
import { fileOf, offsetOf, type Places, positionOf } from "./lines-of";
import { playerTerms } from "./player-terms";
import { termAt } from "./term-at";

/** The report of a term as a page for an editor. Undefined where the file holds no term, or nobody plays it. */
export function termReportOf(
  checked: Checked,
  path: string,
  { position, term: name, players, file: wanted }: Omit<TermReportParams, "uri">,
  places: Places,
): NonNullable<TermReportResult> | undefined {
  const file = fileOf(checked, path);
  if (file === undefined) return undefined;
  const named = file.plan.own.terms.find((each) => each.name === name);
  const term = named ?? termAt(file, offsetOf(file, position));
  if (term === undefined) return undefined;
  const all = playerTerms(file.plan, term);
  const chosen = all.filter(({ player }) => players?.includes(player.name) === true);
  const shown = chosen.length > 0 ? chosen : all.slice(0, 1);
  if (shown.length === 0) return undefined;
  const start = (checked.homes.get(term.place.piece)?.start ?? 0) + term.place.span.start;
  const ask = { terms: shown, caution: CAUTION, history: undefined };
  return {
    page: {
      title: term.name,
      style: REPORT_STYLE,
      body: reportBody(ask).text,
      file: wanted ? { name: fileNameOf(shown), text: termReport(ask) } : undefined,
    },
    term: term.name,
    place: { uri: places.uriOf(path), position: positionOf(file, start) },
    players: all.map(({ player }) => player.name),
    shown: shown.map(({ player }) => player.name),
  };
}

/** “Autumn 2026, R. A..html” would have a dot too many. */
function fileNameOf(shown: readonly PlayerTerm[]): string {
  const [first, ...others] = shown;
  const name = others.length > 0 ? first?.term.name : `${first?.term.name}, ${first?.player.name}`;
  const [fileName = ""] = fileNames([name ?? ""], ".html");
  return fileName;
}
