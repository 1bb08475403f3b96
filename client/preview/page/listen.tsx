import { useEffect, useRef, useState } from "preact/hooks";
import {
  type MusicAsk,
  SOUND_REQUEST,
  type SoundParams,
  type SoundView,
} from "../../../server/protocol/requests";
import type { SoundChoices } from "./choices";
import type { Host } from "./host";
import { Player, type Sounding } from "./sounding";

interface ListenProps {
  readonly host: Host;
  readonly music: MusicAsk;
  readonly where: string | undefined;
  /** As the music says. */
  readonly tempo: { readonly beat: string; readonly bpm: number };
  readonly choices: SoundChoices;
  readonly onChoose: (choices: SoundChoices) => void;
  readonly onSounding: (sounding: Sounding | undefined) => void;
  /** Something in the page that is listened to, so that only one is. */
  readonly stopOthers: (stop: () => void) => void;
  /** Hears what is asked of it from outside of the page. */
  readonly onControl: (control: { readonly play: () => void; readonly stop: () => void }) => void;
}

/** Slowest and fastest that can be asked for, as the server has it. */
const TEMPI = { least: 10, most: 400 };

/** What plays the music, and how it is to be played. */
export function Listen({
  host,
  music,
  where,
  tempo: { beat, bpm: own },
  choices,
  onChoose,
  onSounding,
  stopOthers,
  onControl,
}: ListenProps) {
  const [playing, setPlaying] = useState(false);
  const [tempo, setTempo] = useState<number>();
  const [words, setWords] = useState("");
  const player = useRef<Player | undefined>(undefined);
  player.current ??= new Player(
    (sounding) => {
      onSounding(sounding);
      setWords(sounding === undefined ? "" : sounding.step.yours ? "Your turn" : "");
      if (sounding !== undefined) {
        const { step, clock } = sounding;
        host.tell({ what: "sounding", event: step.event, at: step.at, clock, yours: step.yours });
      }
    },
    () => {
      setPlaying(false);
      host.tell({ what: "stopped" });
    },
  );
  const stop = (): void => {
    if (player.current?.isPlaying !== true) return;
    player.current.stop();
    setPlaying(false);
    host.tell({ what: "stopped" });
  };
  const play = async (with_: SoundChoices = choices, at: number | undefined = tempo): Promise<void> => {
    stopOthers(stop);
    const woken = player.current?.wake();
    const { loop, ...ways } = with_;
    const params: SoundParams = { music, where, ...(at === undefined ? {} : { bpm: at }), ...ways };
    const result = await host.ask<SoundView>(SOUND_REQUEST, params);
    if (result === null) return;
    // A browser that keeps the page silent answers only after a click.
    await Promise.race([woken, new Promise((resolve) => setTimeout(resolve, 400))]);
    if (player.current?.isSilenced === true) {
      setWords("Press Play here once: this window lets no page sound before.");
      return;
    }
    player.current?.play(result, loop);
    setPlaying(true);
  };
  const choose = (changed: Partial<SoundChoices>): void => {
    const next = { ...choices, ...changed };
    onChoose(next);
    if (playing) void play(next);
  };
  const chooseTempo = (value: number): void => {
    const next = Math.round(Math.max(TEMPI.least, Math.min(TEMPI.most, value)));
    setTempo(next);
    if (playing) void play(choices, next);
  };
  onControl({ play: () => void play(), stop });

  // Other music, or the same in another key: what sounds is not what is shown any more.
  const key = JSON.stringify([music, where]);
  // The text stands for the music.
  useEffect(() => {
    setTempo(undefined);
    return () => {
      player.current?.stop();
      setPlaying(false);
    };
  }, [key]);

  const toggle = (name: "metronome" | "countIn" | "drone" | "loop" | "turns", label: string) => (
    <label class="toggle">
      <input
        type="checkbox"
        checked={choices[name]}
        onChange={({ currentTarget }) => choose({ [name]: currentTarget.checked })}
      />
      {label}
    </label>
  );
  return (
    <fieldset class="listen">
      <legend>Listen</legend>
      <div class="row">
        <button type="button" class="play" onClick={() => (playing ? stop() : void play())}>
          <span class={playing ? "sign stop" : "sign go"} aria-hidden="true" />
          {playing ? "Stop" : "Play"}
        </button>
        <label>
          {`${beat} = `}
          <input
            type="number"
            min={TEMPI.least}
            max={TEMPI.most}
            value={tempo ?? own}
            onChange={({ currentTarget }) => chooseTempo(Number(currentTarget.value) || own)}
          />
        </label>
        {tempo === undefined || tempo === own ? null : (
          <button type="button" class="quiet" onClick={() => chooseTempo(own)}>
            {`Back to ${own}`}
          </button>
        )}
        <label>
          Pitch{" "}
          <select
            value={choices.pitch}
            onChange={({ currentTarget }) =>
              choose({ pitch: currentTarget.value === "written" ? "written" : "sounding" })
            }
          >
            <option value="sounding">as it sounds</option>
            <option value="written">as it is written</option>
          </select>
        </label>
        <span class="said" role="status">
          {words}
        </span>
      </div>
      <div class="row">
        {toggle("turns", "First the tool, then you")}
        {toggle("metronome", "Metronome")}
        {toggle("countIn", "Count in")}
        {toggle("drone", "Drone on the key note")}
        {toggle("loop", "Over and over")}
      </div>
    </fieldset>
  );
}
