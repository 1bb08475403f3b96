import type { DayItem } from "../../days/day";
import { lasting, type Phrase } from "../../profile/profile";
import type { Rule } from "../rule";
import { quoted, shortTime } from "../words";

export const phraseBreath: Rule = {
  kind: "term",
  code: "phrase-breath",
  severity: "warning",
  title: "a phrase longer than the breath",
  reason: "At the end of the breath the lips do what the air should.",
  mend: "Write a breath ' earlier, a softer dynamic, a quicker tempo; or `held` where the breath is the point.",
  check: ({ days, datesOf }, report) => {
    const { breath } = days.player.figures;
    if (breath === undefined) return;
    for (const item of days.items) {
      if (mostAir(item) <= breath.value + 0.05) continue;
      const worst = longestPhrase(item);
      if (worst === undefined) continue;
      const asPlayed =
        Math.abs(worst.air - worst.seconds) < 0.05
          ? ""
          : `, as hard on the breath as ${shortTime(worst.air)} at mf`;
      const message = `${quoted(item.exercise.name)} asks for ${shortTime(worst.seconds)} in one breath${item.bpm === undefined ? "" : ` at ${item.bpm}`}${asPlayed}; ${days.player.name} has ${shortTime(breath.value)}.`;
      const related = [
        { place: worst.phrase.place, message: "the phrase" },
        ...(breath.place === undefined ? [] : [{ place: breath.place, message: "the breath" }]),
      ];
      for (const date of datesOf(item)) report({ place: item.assignment.place, message, related, date });
    }
  },
};

/** The phrase of an exercise that asks most of one breath, in seconds as played and as if at mf. */
export function longestPhrase(
  item: Pick<DayItem, "profile" | "wholeSeconds">,
): { readonly phrase: Phrase; readonly seconds: number; readonly air: number } | undefined {
  let worst: { phrase: Phrase; seconds: number; air: number } | undefined;
  for (const phrase of item.profile.phrases) {
    const air = lasting(phrase.air, item.wholeSeconds);
    if (worst === undefined || air > worst.air) {
      worst = { phrase, seconds: lasting(phrase.length, item.wholeSeconds), air };
    }
  }
  return worst;
}

/** The seconds that the phrase which asks most of one breath would last at mf. */
function mostAir(item: DayItem): number {
  let most = 0;
  for (const { air } of item.profile.phrases) most = Math.max(most, lasting(air, item.wholeSeconds));
  return most;
}
