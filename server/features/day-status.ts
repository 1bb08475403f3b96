import type { Position } from "vscode-languageserver-types";
import type { Day, PlayerTerm } from "../days/day";
import type { Term } from "../plan/term";
import type { DayStatusResult, DayView } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { dayView } from "./day-view";
import { fileOf, offsetOf, type Places } from "./lines-of";
import { playerTerms } from "./player-terms";
import { termSubject } from "./term-subject";
import { chainAt, type Held, pieceAt } from "./tree-at";

/**
 * The totals of the day under the cursor: of the day whose date it stands on, else of the fullest day of the
 * session, rehearsal or weeks it stands in. Undefined outside of a term, and on lines that ask for no day.
 */
export function dayStatus(
  checked: Checked,
  path: string,
  position: Position,
  places: Places,
): NonNullable<DayStatusResult> | undefined {
  const file = fileOf(checked, path);
  if (file === undefined) return undefined;
  const offset = offsetOf(file, position);
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return undefined;
  const term = file.plan.own.terms.find((each) => each.place.piece === at.piece);
  if (term === undefined) return undefined;
  const asked = daysAsked(term, chainAt(at.piece, offset - at.start));
  if (asked === undefined) return undefined;
  const view = fullest(file, term, asked, checked, places);
  return view === undefined ? undefined : { term: term.name, day: view };
}

type Asked = (day: Day) => boolean;

/** Which days the text around the cursor speaks of, the innermost that speaks of any. */
function daysAsked(term: Term, chain: readonly Held[]): Asked | undefined {
  const subject = termSubject(term, chain);
  switch (subject?.kind) {
    case undefined:
      return undefined;
    case "date":
      return (day) => day.date === subject.date;
    case "session":
      return (day) => day.sessions.some((each) => each.session === subject.session);
    case "booking":
      return (day) => day.bookings.includes(subject.booking);
    case "closure":
      return ({ date }) => date >= subject.closure.from && date <= subject.closure.to;
    case "weeks":
      return (day) => day.sessions.some((each) => subject.weeks.sessions.includes(each.session));
  }
}

/** Of the days asked about, the one that uses most of what is allowed. */
function fullest(
  file: CheckedFile,
  term: Term,
  asked: Asked,
  { homes }: Checked,
  places: Places,
): DayView | undefined {
  const players = playerTerms(file.plan, term);
  let most: DayView | undefined;
  const length = Math.max(0, ...players.map((each) => each.days.length));
  for (let index = 0; index < length; index++) {
    const days = players.flatMap((each) => dayOf(each, index));
    if (!days.some(({ day }) => asked(day))) continue;
    const view = dayView(days, homes, places);
    if (view !== undefined && (most === undefined || tightness(view) > tightness(most))) most = view;
  }
  return most;
}

function dayOf(term: PlayerTerm, index: number): readonly { term: PlayerTerm; day: Day }[] {
  const day = term.days[index];
  return day === undefined ? [] : [{ term, day }];
}

function tightness(view: DayView): number {
  return Math.max(0, ...view.figures.map((figure) => figure.share ?? 0));
}
