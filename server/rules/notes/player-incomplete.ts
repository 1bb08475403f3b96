import type { PlayerFigures } from "../../plan/player";
import type { Rule } from "../rule";
import { list } from "../words";

const ASKED: readonly (readonly [keyof PlayerFigures, string])[] = [
  ["range", "range"],
  ["limit", "limit"],
  ["upperFrom", "upper register"],
  ["breath", "breath"],
  ["single", "tongue"],
  ["dayClock", "clock a day"],
  ["dayPlaying", "playing a day"],
  ["dayUpper", "upper a day"],
  ["dayStretch", "stretch"],
];

export const playerIncomplete: Rule = {
  kind: "plan",
  code: "player-incomplete",
  severity: "note",
  title: "a player of whom something is not known",
  reason: "What is not known is not checked.",
  mend: "State it, or name a stage: stage senior",
  check: (plan, _around, report) => {
    for (const player of plan.own.players) {
      const missing = ASKED.filter(([figure]) => player.figures[figure] === undefined).map(
        ([, word]) => word,
      );
      if (missing.length === 0) continue;
      report({
        place: player.place,
        message: `Not known of ${player.name}, and so not checked: ${list(missing, 10)}. State them, or name a stage, for example: stage senior`,
      });
    }
  },
};
