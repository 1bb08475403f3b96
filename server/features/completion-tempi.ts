import { Fraction, K } from "../../grammar/tokens";
import { fractionText, toNumber, valueName } from "../music/rhythm";
import { counted, plainNumber } from "../output/numbers";
import type { Proposal } from "./completion-item";
import { valueProposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { profileFor } from "./exercise-reach";

/** The slowest and fastest that a metronome of the trade has. */
const SLOWEST = 40;
const FASTEST = 208;

/**
 * Tempi for the exercise of the line: its own, the fastest that every tongue can follow, and steps around its
 * own. Elsewhere the common ones.
 */
export function tempoProposals(scene: Scene): readonly Proposal[] {
  const { exercise, place } = scene;
  const own = exercise?.tempo;
  if (
    own === undefined ||
    place.said.some((token) => token.tokenType === Fraction) ||
    place.block !== "session"
  ) {
    return [50, 60, 72, 80, 92, 104, 120].map((bpm) => valueProposal(String(bpm)));
  }
  const beat = valueName(own.beat);
  const proposals = [valueProposal(plainNumber(own.bpm), `the exercise's own, ${beat} to the minute`)];
  const limit = tongueLimit(scene);
  if (limit !== undefined && limit.bpm >= SLOWEST && limit.bpm <= FASTEST) {
    proposals.push(valueProposal(String(limit.bpm), `as fast as the tongue of ${limit.player} can`));
  }
  for (const by of [4, 8, 12, -4, -8]) {
    const bpm = Math.round(own.bpm) + by;
    if (bpm < SLOWEST || bpm > FASTEST) continue;
    const beyond = limit !== undefined && bpm > limit.bpm ? `, beyond the tongue of ${limit.player}` : "";
    proposals.push(valueProposal(String(bpm), `${by > 0 ? "faster" : "slower"} by ${Math.abs(by)}${beyond}`));
  }
  if (place.said[place.said.length - 1]?.tokenType === K.tempo) {
    const from = plainNumber(own.bpm);
    const to = String(Math.round(own.bpm) + 8);
    proposals.push({
      ...valueProposal(`${from} to ${to}`, "growing from week to week"),
      form: `\${1:${from}} to \${2:${to}}`,
    });
    proposals.push({
      ...valueProposal(`between ${from} and ${to}`, "the player's choice"),
      form: `between \${1:${from}} and \${2:${to}}`,
    });
  }
  return proposals;
}

/** The fastest tempo at which everybody can still tongue the exercise, and whose tongue sets it. */
function tongueLimit({ exercise, plan, players }: Scene): { bpm: number; player: string } | undefined {
  const beat = exercise?.tempo?.beat;
  if (exercise === undefined || beat === undefined) return undefined;
  const { tongue } = profileFor(plan, exercise, players);
  let least: { bpm: number; player: string } | undefined;
  for (const player of players) {
    for (const how of ["single", "double", "triple"] as const) {
      const limit = player.figures[how]?.value;
      if (limit === undefined || tongue[how] === 0) continue;
      // So many notes lie in a whole note, and so many can be tongued in a second.
      const bpm = Math.floor((60 * limit) / (tongue[how] * toNumber(beat)));
      if (least === undefined || bpm < least.bpm) least = { bpm, player: player.name };
    }
  }
  return least;
}

const BEATS: readonly (readonly [number, number])[] = [
  [1, 4],
  [1, 2],
  [1, 8],
  [3, 8],
];

/** Note values that are counted. */
export function beatProposals({ place: { said } }: Scene): readonly Proposal[] {
  const tempo = said[0]?.tokenType === K.tempo;
  return BEATS.map(([num, den]) => {
    const text = num === 3 ? "1/4." : fractionText({ num, den });
    const counts = valueName({ num, den });
    const form = `${text} = \${1:72}`;
    return tempo
      ? { ...valueProposal(`${text} =`, `${counts} = so many to the minute`), form }
      : valueProposal(text, counts);
  });
}

/** Minutes of a session, a budget or an assignment. */
export function minuteProposals({ place: { block, said } }: Scene): readonly Proposal[] {
  const last = said[said.length - 1]?.tokenType;
  const short = block === "session" || last === K.upper || last === K.stretch;
  const minutes = short ? [1, 2, 3, 4, 5, 8, 10] : [5, 10, 15, 20, 25, 30, 45, 60];
  return minutes.map((count) => valueProposal(`${count} min`, counted(count, "minute")));
}

/** Seconds of a breath or a rest. */
export function secondProposals(): readonly Proposal[] {
  return [5, 8, 10, 15, 20, 30].map((count) => valueProposal(`${count} s`, counted(count, "second")));
}
