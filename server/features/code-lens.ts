import type { CodeLens } from "vscode-languageserver-types";
import type { PlayerTerm } from "../days/day";
import type { Place } from "../plan/place";
import type { WeeksPlan } from "../plan/term";
import { SHOW_WEEK } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, type Places, spanRange } from "./lines-of";
import { playerTerms } from "./player-terms";
import { weekAllowance, weekFigure, weeksOf } from "./week-figures";

export interface CodeLensAbility {
  /** Whether the editor knows `leadpipe.showWeek`. */
  readonly commands: boolean;
}

/**
 * Above each block of weeks its fullest week for the player who has the least room, and above each term the
 * fullest of all: playing and upper against what is allowed.
 */
export function codeLensesOf(
  checked: Checked,
  path: string,
  can: CodeLensAbility,
  places: Places,
): CodeLens[] {
  const file = fileOf(checked, path);
  if (file === undefined || !can.commands) return [];
  const lenses: CodeLens[] = [];
  for (const term of file.plan.own.terms) {
    const players = playerTerms(file.plan, term);
    add(term.place, fullestWeek(players, undefined));
    for (const block of term.weeks) add(block.place, fullestWeek(players, block));
  }
  return lenses;

  function add(place: Place, title: string | undefined): void {
    const range = rangeOfPlace(checked, file, place);
    if (range === undefined || title === undefined) return;
    const { start } = range;
    lenses.push({
      range: { start, end: start },
      command: { title, command: SHOW_WEEK, arguments: [places.uriOf(path), start] },
    });
  }
}

function rangeOfPlace(checked: Checked, file: CheckedFile | undefined, place: Place) {
  const home = checked.homes.get(place.piece);
  return home === undefined || home.file !== file ? undefined : spanRange(home.file, home.start, place.span);
}

/** The fullest week of a term or of one of its blocks, in words. */
function fullestWeek(players: readonly PlayerTerm[], block: WeeksPlan | undefined): string | undefined {
  let fullest: { title: string; share: number } | undefined;
  for (const player of players) {
    for (const week of weeksOf(player)) {
      if (block?.weeks !== undefined && !block.weeks.includes(week.week)) continue;
      const playing = weekAllowance(player, week, "playing");
      const upper = weekAllowance(player, week, "upper");
      const share = Math.max(shareOf(week.playing, playing), shareOf(week.upper, upper));
      if (fullest !== undefined && share <= fullest.share) continue;
      const who = players.length > 1 ? ` · ${player.player.name}` : "";
      const title = `week ${week.week} · playing ${weekFigure(week.playing, playing)} · upper ${weekFigure(week.upper, upper)}${who}`;
      fullest = { title: block === undefined ? `fullest: ${title}` : title, share };
    }
  }
  return fullest?.title;
}

/** Without an allowance a figure presses on nobody. */
function shareOf(value: number, allowed: number | undefined): number {
  if (allowed === undefined || allowed === 0) return 0;
  return value / allowed;
}
