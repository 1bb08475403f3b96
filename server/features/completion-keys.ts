import { CompletionItemKind } from "vscode-languageserver-types";
import { plainAccidentals } from "../../grammar/leaves";
import { Comma, K } from "../../grammar/tokens";
import { nearestShift, type Placement } from "../days/placement";
import { keyText, MODES, parseTonic, tonicAt, tonicClass } from "../music/key";
import { pitchName, spokenPitch, staffPosition } from "../music/pitch";
import { named } from "../output/explained-exercise";
import { stepInterval } from "../plan/reader";
import type { Proposal } from "./completion-item";
import { valueProposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { STEPS } from "./completion-slot";
import { instrumentOf, keysAround, type Lying, lyingFor, profileFor } from "./exercise-reach";

const ORDER: Readonly<Record<Lying, number>> = { comfortable: 0, "within the limit": 1, "too far": 2 };

/** Keys of which nothing is known but that players know them: round the circle, flats and sharps in turn. */
const COMMON = ["C", "G", "F", "D", "Bb", "A", "Eb", "E", "Ab", "B", "Db", "F#"];

/**
 * The keys an exercise can be asked for in: those that lie comfortably for everybody first, each with its
 * highest note.
 */
export function keyProposals(scene: Scene): readonly Proposal[] {
  const { exercise, place, plan, players } = scene;
  const asked = place.block === "session" || place.block === "record";
  if (!asked || exercise === undefined) return COMMON.map((key) => keyProposal(key, undefined));
  const profile = profileFor(plan, exercise, players);
  const { low, high } = profile;
  const walk = walkEnds(scene);
  const placements = walk ?? keysAround(exercise, instrumentOf(players));
  if (low === undefined || high === undefined || placements.length === 0) return [];
  const keys = placements.map((placement) => {
    const { semitones, key } = placement;
    const lying = lyingFor(low + semitones, high + semitones, players);
    const verdict = lying.player === undefined ? lying.lies : `${lying.lies} for ${lying.player.name}`;
    const text = key === undefined ? "" : keyText(key).split(" ")[0]!;
    const home = semitones === 0 ? "home, " : "";
    return {
      // The ends of a walk stand in the order in which it reaches them.
      rank: walk === undefined ? ORDER[lying.lies] : 0,
      proposal: keyProposal(text, `${home}up to ${named(high + semitones, placement)} · ${verdict}`),
    };
  });
  // A list holds each key once.
  const listed = place.said.some(({ tokenType }) => tokenType === Comma);
  const said = new Set(place.said.map(({ image }) => plainAccidentals(image)));
  const sorted = keys
    .filter(({ proposal }) => !listed || !said.has(proposal.text ?? ""))
    .toSorted((a, b) => a.rank - b.rank)
    .map(({ proposal }) => proposal);
  return startsTravel(scene) ? [...sorted, ...walkForms(scene)] : sorted;
}

function keyProposal(text: string, detail: string | undefined): Proposal {
  const label = text.replace("b", "♭").replace("#", "♯");
  return { label, text, kind: CompletionItemKind.Constant, detail };
}

/** Whether `keys` was just written, so that a walk may begin. */
function startsTravel({ place: { said } }: Scene): boolean {
  return said[said.length - 1]?.tokenType === K.keys;
}

/** The keys that a walk reaches one after the other, where its end is to be written: `keys C up by half step to`. */
function walkEnds({ exercise, place: { said } }: Scene): readonly Placement[] | undefined {
  const content = exercise?.content;
  const keys = said.findLastIndex((token) => token.tokenType === K.keys);
  const to = said[said.length - 1];
  if (keys < 0 || to?.tokenType !== K.to || content?.kind !== "notes" || content.key === undefined)
    return undefined;
  const from = parseTonic(plainAccidentals(said[keys + 1]?.image ?? ""));
  const by = said.findLastIndex((token) => token.tokenType === K.by);
  const step = STEPS.find(
    (word) =>
      word ===
      said
        .slice(by + 1, -1)
        .map(({ image }) => image)
        .join(" "),
  );
  if (from === undefined || step === undefined) return undefined;
  const down = said[by - 1]?.tokenType === K.down;
  const semitones = stepInterval(step).semitones * (down ? -1 : 1);
  const home = content.key;
  const start = nearestShift(home, { ...from, mode: home.mode });
  const ends: Placement[] = [];
  for (let n = 1; n <= LONGEST_WALK; n++) {
    const key = tonicAt({ ...from, mode: home.mode }, n * semitones);
    ends.push({ semitones: start + n * semitones, key, combination: undefined, mode: undefined });
    if (tonicClass(key) === tonicClass(from)) break;
  }
  return ends;
}

/** After so many steps every walk has come round to where it began. */
const LONGEST_WALK = 12;

function walkForms({ exercise }: Scene): readonly Proposal[] {
  const content = exercise?.content;
  if (content?.kind !== "notes" || content.key === undefined) return [];
  const tonic = (by: number): string => keyText(tonicAt(content.key!, by)).split(" ")[0]!;
  const walk = (direction: string, step: string, by: number): Proposal => ({
    label: `${tonic(0)} ${direction} by ${step} to ${tonic(by)}`,
    kind: CompletionItemKind.Snippet,
    form: `\${1:${tonic(0)}} ${direction} by ${step} to \${2:${tonic(by)}}`,
    detail: "keys that travel",
  });
  return [walk("up", "half step", 7), walk("down", "half step", -5), walk("up", "whole step", 8)];
}

/** The modes behind a tonic. Written notes have one mode; degrees can be asked for in any. */
export function modeProposals({ exercise, place }: Scene): readonly Proposal[] {
  if (place.block === "session" && exercise !== undefined) {
    const { content } = exercise;
    if (content.kind !== "notes" || content.by !== "degrees") return [];
  }
  return MODES.map((mode) => valueProposal(mode === "natural minor" ? "minor" : mode, "mode"));
}

/** Written notes from low to high, as the player's range has them. */
export function pitchProposals({ players }: Scene): readonly Proposal[] {
  const { lowest, highest } = instrumentOf(players);
  const proposals: Proposal[] = [];
  for (let octave = lowest.octave; octave <= highest.octave; octave++) {
    for (const step of [0, 1, 2, 3, 4, 5, 6]) {
      const pitch = { step, alter: 0, octave };
      const at = staffPosition(pitch);
      if (at < staffPosition(lowest) || at > staffPosition(highest)) continue;
      proposals.push(valueProposal(pitchName(pitch), spokenPitch(pitch)));
    }
  }
  return proposals;
}
