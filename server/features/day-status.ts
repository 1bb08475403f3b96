import type { Position } from "vscode-languageserver-types";
import type { Day, PlayerTerm } from "../days/day";
import { parseDate } from "../plan/date";
import type { Term } from "../plan/term";
import type { DayStatusResult, DayView } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { dayView } from "./day-view";
import { fileOf, offsetOf, type Places } from "./lines-of";
import { playerTerms } from "./player-terms";
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
  for (const held of chain.toReversed()) {
    const asked = askedBy(term, held);
    if (asked !== undefined) return asked;
  }
  return undefined;
}

function askedBy(term: Term, { as, node }: Held): Asked | undefined {
  if (as === "leaf") {
    const date = node.text === undefined ? undefined : parseDate(node.text);
    return date === undefined ? undefined : (day) => day.date === date;
  }
  const { start } = node.span;
  const session = term.weeks
    .flatMap((weeks) => weeks.sessions)
    .find((each) => each.place.span.start === start);
  if (session !== undefined) return (day) => day.sessions.some((each) => each.session === session);
  if (as !== "statement") return undefined;
  const booking = term.bookings.find((each) => each.place.span.start === start);
  if (booking !== undefined) return (day) => day.bookings.includes(booking);
  const closure = term.closures.find((each) => each.place.span.start === start);
  if (closure !== undefined) return ({ date }) => date >= closure.from && date <= closure.to;
  if (node.kind === "weeks") {
    const weeks = term.weeks.find((each) => each.place.span.start === node.weeks.span.start);
    if (weeks === undefined) return undefined;
    return (day) => day.sessions.some((each) => weeks.sessions.includes(each.session));
  }
  return undefined;
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
