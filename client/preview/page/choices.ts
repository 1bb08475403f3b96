/** What a person chose in the page, kept while it is closed. Nothing of it goes into the text. */
export interface Choices {
  readonly player: string | undefined;
  readonly fingerings: boolean;
  /** Whether what is shown follows the cursor. */
  readonly follow: boolean;
  readonly sound: SoundChoices;
}

export interface SoundChoices {
  readonly pitch: "sounding" | "written";
  readonly metronome: boolean;
  readonly countIn: boolean;
  readonly drone: boolean;
  readonly loop: boolean;
  readonly turns: boolean;
}

export const FIRST_CHOICES: Choices = {
  player: undefined,
  fingerings: false,
  follow: true,
  sound: { pitch: "sounding", metronome: false, countIn: true, drone: false, loop: false, turns: false },
};

/** The choices kept from before, as far as they are any. */
export function choicesFrom(state: unknown): Choices {
  const kept = objectIn(state);
  const sound = objectIn(kept["sound"]);
  const first = FIRST_CHOICES.sound;
  const yes = (value: unknown, otherwise: boolean): boolean =>
    typeof value === "boolean" ? value : otherwise;
  return {
    player: typeof kept["player"] === "string" ? kept["player"] : undefined,
    fingerings: yes(kept["fingerings"], FIRST_CHOICES.fingerings),
    follow: true,
    sound: {
      pitch: sound["pitch"] === "written" ? "written" : "sounding",
      metronome: yes(sound["metronome"], first.metronome),
      countIn: yes(sound["countIn"], first.countIn),
      drone: yes(sound["drone"], first.drone),
      loop: yes(sound["loop"], first.loop),
      turns: yes(sound["turns"], first.turns),
    },
  };
}

function objectIn(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value)) : {};
}
