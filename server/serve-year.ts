import { type CancellationToken, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import type { Compared } from "./features/compare";
import { inColour } from "./notation/clean-svg";
import type { EngravingTask } from "./notation/engrave";
import { CAUTION } from "./output/totals-text";
import { COMPARE_STYLE, type CompareAsk, compareBody, compareReport } from "./pages/compare-report";
import { rewrittenPictures } from "./pages/rewritten-pictures";
import {
  CARRY_CHECK_REQUEST,
  CARRY_CHOICES_REQUEST,
  CARRY_REQUEST,
  type CarryCheckParams,
  type CarryChoicesResult,
  type CarryParams,
  type CarryResult,
  COMPARE_REQUEST,
  type CompareParams,
  type CompareResult,
  TERM_REPORT_REQUEST,
  type TermReportParams,
  type TermReportResult,
} from "./protocol/year-requests";
import type { RequestsGround } from "./serve-requests";

/** Wires what is asked of a term as a whole: its report, how it differs, and the one that is begun from it. */
export function answerYear(ground: RequestsGround): void {
  const { connection, workspace, addresses, answers, features, pictures } = ground;

  connection.onRequest<TermReportResult, void>(
    TERM_REPORT_REQUEST,
    async (params: TermReportParams, token: CancellationToken) => {
      // Before its players are read, nobody plays a term.
      await workspace.readIn();
      const path = addresses.pathOf(params.uri);
      return answers.about<TermReportResult>(
        "term report",
        path,
        token,
        () => features.termReportOf(workspace.checked, path, params, addresses) ?? null,
        null,
        false,
      );
    },
  );

  /** Older revisions have the addresses of today, which must keep the spelling the editor gave them. */
  const paths = { pathOf: (uri: string) => addresses.plainPath(uri) };
  connection.onRequest<CompareResult, void>(
    COMPARE_REQUEST,
    async (
      params: CompareParams,
      token: CancellationToken,
    ): Promise<CompareResult | ResponseError<never>> => {
      await workspace.readIn();
      const compared = await answers.plain<ReturnType<typeof features.comparedPlans>>(
        "comparison",
        token,
        () => features.comparedPlans(workspace.checked, params, paths, addresses),
        { trouble: "The plans could not be compared; the output says why." },
      );
      if (compared instanceof ResponseError || "trouble" in compared || "wanted" in compared) return compared;
      const drawn = await drawnPictures(compared, token);
      if (token.isCancellationRequested) {
        return new ResponseError<never>(LSPErrorCodes.RequestCancelled, "The request was cancelled.");
      }
      const { comparison, sides, unread, name } = compared;
      const ask: CompareAsk = { comparison, sides, unread, pictures: drawn, caution: CAUTION };
      return {
        page: {
          title: name,
          style: COMPARE_STYLE,
          body: compareBody(ask).text,
          file: params.file
            ? { name: `${name}.html`, text: compareReport({ ...ask, pictures: inBlack(drawn) }) }
            : undefined,
        },
      };
    },
  );

  async function drawnPictures(
    { comparison, plans, settings }: Compared,
    token: CancellationToken,
  ): Promise<CompareAsk["pictures"]> {
    const engrave = async (task: EngravingTask): Promise<string | undefined> =>
      pictures?.engraved(task, token);
    return rewrittenPictures(comparison, plans, settings, engrave);
  }

  connection.onRequest<CarryChoicesResult, void>(
    CARRY_CHOICES_REQUEST,
    async (params: CarryParams, token: CancellationToken) => {
      await workspace.readIn();
      const path = addresses.pathOf(params.uri);
      return answers.about<CarryChoicesResult>(
        "beginning a term",
        path,
        token,
        () => features.carryChoices(workspace.checked, path, params) ?? null,
        null,
        false,
      );
    },
  );
  connection.onRequest<string | null, void>(
    CARRY_CHECK_REQUEST,
    (params: CarryCheckParams, token: CancellationToken) =>
      answers.plain<string | null>(
        "beginning a term",
        token,
        () => features.carryCheck(params) ?? null,
        null,
      ),
  );
  connection.onRequest<CarryResult, void>(CARRY_REQUEST, (params: CarryParams, token: CancellationToken) => {
    const path = addresses.pathOf(params.uri);
    return answers.about<CarryResult>(
      "beginning a term",
      path,
      token,
      () => features.carriedOver(workspace.checked, path, params),
      { trouble: "The new term could not be written out; the output says why." },
      false,
    );
  });
}

/** A file is shown on white, whatever the editor's theme is. */
function inBlack(drawn: CompareAsk["pictures"]): CompareAsk["pictures"] {
  const ink = (svg: string | undefined): string | undefined =>
    svg === undefined ? undefined : inColour(svg, "black");
  return new Map(
    [...drawn].map(([name, { before, after }]) => [name, { before: ink(before), after: ink(after) }]),
  );
}
