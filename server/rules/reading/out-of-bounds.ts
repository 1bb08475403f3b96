import { troubleRule } from "../rule";

export const outOfBounds = troubleRule(
  "out-of-bounds",
  {
    severity: "error",
    title: "a figure that cannot be meant",
    reason: "A slip of the pen would throw every total off.",
    mend: "Write a figure within the bounds named.",
  },
  (trouble) => ({
    message: `${trouble.text} cannot be meant for ${FOR[trouble.what] ?? `the ${trouble.what}`}: write ${bounds(trouble.least, trouble.most)}${trouble.text.endsWith("%") ? " %" : ""}.`,
  }),
);

/** Seconds in a day: the most that a length of time may be. */
const DAY = 86_400;

function bounds(least: number, most: number): string {
  return most === DAY ? "more than nothing and at most a day" : `a figure from ${least} to ${most}`;
}

/** What the figure is for, where its line does not name a thing. */
const FOR: Readonly<Record<string, string>> = {
  playing: "playing",
  rest: "a rest",
  upper: "the upper register",
  untouched: "the days an area may be left alone",
  increase: "the increase from week to week",
  minutes: "the minutes",
  days: "the days in a week",
  cells: "the cells of a series",
  "times through": "times through",
  felt: "the felt effort",
};
