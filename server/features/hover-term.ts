import type { DaySession, PlayerTerm } from "../days/day";
import { clockText, counted } from "../output/numbers";
import { spokenDate } from "../plan/date";
import type { Plan } from "../plan/plan";
import type { Session, Term, WeeksPlan } from "../plan/term";
import { itemLine } from "./hover-assignment";
import { playerTerms } from "./player-terms";
import type { ShownText } from "./shown-text";
import { weekAllowance, weekFigure, weeksOf } from "./week-figures";

/** Players of a term that are told of one by one. */
const MOST_PLAYERS = 4;

/** A session on the first of its days: the sum of its items. */
export function sessionText(plan: Plan, term: Term, session: Session): readonly ShownText[] {
  for (const player of playerTerms(plan, term)) {
    const days = player.days.filter((day) => day.sessions.some((each) => each.session === session));
    const [day] = days;
    const first = day?.sessions.find((each) => each.session === session);
    if (day === undefined || first === undefined) continue;
    const lines = [`on ${counted(days.length, "day")}, first ${spokenDate(day.date)}:`];
    lines.push(...first.items.map(itemLine));
    lines.push(totalLine(first, day.sessions.length > 1 ? "this session" : "together"));
    return [{ heading: session.name, lines }];
  }
  return [];
}

function totalLine(session: DaySession, what: string): string {
  const { minutes } = session.content;
  const of = minutes === undefined ? "" : ` of ${clockText(minutes)}`;
  const upper = session.upper >= 0.5 ? `, upper ${clockText(session.upper)}` : "";
  return `${what} ${clockText(session.clock)}${of}: playing ${clockText(session.playing)}${upper}`;
}

/** A block of weeks: what each of them holds, for each kind of player. */
export function weeksText(plan: Plan, term: Term, block: WeeksPlan): readonly ShownText[] {
  return differing(playerTerms(plan, term)).map((player) => ({
    heading: player.player.name,
    lines: weeksOf(player)
      .filter(({ week }) => block.weeks === undefined || block.weeks.includes(week))
      .map((week) => {
        const playing = weekFigure(week.playing, weekAllowance(player, week, "playing"));
        const upper = weekFigure(week.upper, weekAllowance(player, week, "upper"));
        return `week ${week.week}: playing ${playing}, upper ${upper}, ${counted(week.daysPlayed, "day")}`;
      }),
  }));
}

/** A whole term: its weeks, and what it asks of each kind of player. */
export function termText(plan: Plan, term: Term): readonly ShownText[] {
  const players = playerTerms(plan, term);
  const weeks = players[0]?.weeks ?? 0;
  const dates = `${spokenDate(term.dates.from)} to ${spokenDate(term.dates.to)}`;
  const head = {
    heading: term.name,
    lines: [
      `${counted(weeks, "taught week")}, ${dates}`,
      ...term.closures.map(
        ({ how, from, to, reason }) =>
          `${how} ${spokenDate(from)}${to === from ? "" : ` to ${spokenDate(to)}`}${reason === undefined ? "" : `, ${reason}`}`,
      ),
      ...term.aims.map((aim) => `aim: ${aim}`),
    ],
  };
  return [head, ...differing(players).map(playerSection)];
}

function playerSection(player: PlayerTerm): ShownText {
  let [playing, upper, mayPlay, mayUpper] = [0, 0, 0, 0];
  for (const week of weeksOf(player)) {
    playing += week.playing;
    upper += week.upper;
    mayPlay += weekAllowance(player, week, "playing") ?? Number.NaN;
    mayUpper += weekAllowance(player, week, "upper") ?? Number.NaN;
  }
  const fullest = player.days.reduce(
    (a, b) => (b.totals.playing > a.totals.playing ? b : a),
    player.days[0]!,
  );
  return {
    heading: player.player.name,
    lines: [
      `playing ${weekFigure(playing, known(mayPlay))}, upper ${weekFigure(upper, known(mayUpper))} in the taught weeks`,
      `fullest day ${spokenDate(fullest.date)}: playing ${clockText(fullest.totals.playing)}, upper ${clockText(fullest.totals.upper)}`,
    ],
  };
}

function known(value: number): number | undefined {
  return Number.isNaN(value) ? undefined : value;
}

/** Of players who share their days and their allowances the first speaks for all. */
function differing(players: readonly PlayerTerm[]): readonly PlayerTerm[] {
  const seen = new Set<PlayerTerm["days"]>();
  return players.filter(({ days }) => !seen.has(days) && seen.add(days) !== undefined).slice(0, MOST_PLAYERS);
}
