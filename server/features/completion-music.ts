// biome-ignore-all lint/suspicious/noTemplateCurlyInString: the places of a form are written so by the protocol.
import { CompletionItemKind } from "vscode-languageserver-types";
import { K, MUSIC_WORDS } from "../../grammar/tokens";
import { degreePitch, type Key } from "../music/key";
import { pitchName, spokenPitch } from "../music/pitch";
import { type Proposal, valueProposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { meaningOf, meaningThere } from "./completion-words";

/** What can stand between notes: the notes of the key, values, and the words of music. */
export function musicProposals(scene: Scene): readonly Proposal[] {
  const last = scene.place.said[scene.place.said.length - 1]?.tokenType;
  switch (last) {
    case K.attack:
      return ["air", "lip", "tongue"].map((text) => valueProposal(text, meaningOf(text)));
    case K.bend:
      return ["half step", "whole step", "minor third"].map((text) => valueProposal(text));
    default:
      return [...noteProposals(scene), ...VALUES, ...WORDS_OF_MUSIC];
  }
}

/** Two octaves of the home scale, from the fourth below the tonic. */
function noteProposals({ exercise }: Scene): readonly Proposal[] {
  const content = exercise?.content;
  if (content?.kind !== "notes" || content.by !== "pitches" || content.key === undefined) return [];
  return scaleOf(content.key, content.tonicOctave).map((pitch) =>
    valueProposal(pitchName(pitch), spokenPitch(pitch)),
  );
}

function scaleOf(key: Key, octave: number): ReturnType<typeof degreePitch>[] {
  const below = [-5, -6, -7].map((degree) => degreePitch(key, octave, degree, 0));
  return [...below, ...Array.from({ length: 12 }, (_, i) => degreePitch(key, octave, i + 1, 0))];
}

const VALUES: readonly Proposal[] = ["1/4", "1/8", "1/2", "1/1", "1/16", "1/4.", "1/8."].map((text) =>
  valueProposal(text, "note value"),
);

const BRACKETED: ReadonlyMap<string, string> = new Map([
  ["lip", "lip ($0)"],
  ["triplet", "triplet [ $0 ]"],
  ["repeat", "repeat [ $0 ]"],
  ["ending", "ending ${1:1} [ $0 ]"],
]);

const WORDS_OF_MUSIC: readonly Proposal[] = MUSIC_WORDS.map((text) => {
  const form = BRACKETED.get(text);
  const proposal: Proposal = {
    label: text,
    kind: CompletionItemKind.Keyword,
    detail: meaningThere(text, "inside music"),
  };
  return form === undefined ? proposal : { ...proposal, form };
});
