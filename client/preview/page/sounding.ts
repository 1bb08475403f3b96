import type { SoundView, ToneView } from "../../../server/protocol/requests";

/** A step that sounds now, and what the clock of the sound shows. */
export interface Sounding {
  readonly step: SoundView["steps"][number];
  /** Seconds from the start of this time through. */
  readonly clock: number;
}

/** Strengths of the first partials of the tone: full and round, the higher ones falling off. Chosen by ear. */
const PARTIALS: readonly number[] = [0, 1, 0.55, 0.42, 0.26, 0.16, 0.1, 0.06, 0.035];
/** The tone's edge is taken off above this, in hertz. */
const BRIGHTEST = 3200;
/** Seconds in which a tone comes and goes; a softer start where it is not struck. */
const ATTACK = 0.025;
const RELEASE = 0.04;
/** How far a tone falls back after its start, and in how many seconds. */
const SETTLED = 0.82;
const SETTLING = 0.14;
const ACCENT = 1.3;
const GLIDE = 0.018;
/** Loudness of the voices against each other. */
const VOICE = 0.42;
const CLICK = 0.3;
const DRONE = 0.06;
/** Seconds from asking to the first sound, so that all of it is set before it begins. */
const LEAD = 0.12;
/** Hertz and seconds of a click. */
const CLICKS = { strong: 1568, weak: 1175, seconds: 0.05 };

/** Plays music on the page's own clock of sound. All of one time through is set beforehand, so nothing is late. */
export class Player {
  private context: AudioContext | undefined;
  private running: Running | undefined;

  constructor(
    private readonly onStep: (sounding: Sounding | undefined) => void,
    private readonly onEnd: () => void,
  ) {}

  get isPlaying(): boolean {
    return this.running !== undefined;
  }

  /** Wakes the sound; to be called while a person's click is being handled, or browsers keep it silent. */
  wake(): Promise<void> {
    this.context ??= new AudioContext();
    return this.context.resume();
  }

  /** Whether a browser keeps the sound silent until a person has clicked on the page. */
  get isSilenced(): boolean {
    return this.context?.state !== "running";
  }

  play(sound: SoundView, loop: boolean): void {
    this.stop();
    const context = this.context ?? new AudioContext();
    this.context = context;
    const out = context.createGain();
    out.connect(context.destination);
    const running: Running = { out, times: [], frame: 0, last: undefined };
    this.running = running;
    running.times.push(set(context, out, sound, context.currentTime + LEAD));
    const look = (): void => {
      if (this.running !== running) return;
      // What is heard now was put out a little before.
      const now = context.currentTime - (Number.isFinite(context.outputLatency) ? context.outputLatency : 0);
      const [first] = running.times;
      if (first !== undefined && now >= first + sound.seconds) {
        running.times.shift();
        if (!loop) {
          this.stop();
          this.onEnd();
          return;
        }
      }
      // The next time through is set while this one sounds.
      const last = running.times.at(-1);
      if (loop && last !== undefined && running.times.length < 2) {
        running.times.push(set(context, out, sound, last + sound.seconds));
      }
      const start = running.times[0] ?? now;
      this.mark(running, sound, now - start);
      running.frame = requestAnimationFrame(look);
    };
    look();
  }

  stop(): void {
    const { running, context } = this;
    if (running === undefined || context === undefined) return;
    this.running = undefined;
    cancelAnimationFrame(running.frame);
    // A moment's fade, where a cut would click.
    running.out.gain.setTargetAtTime(0, context.currentTime, 0.015);
    setTimeout(() => running.out.disconnect(), 200);
    this.onStep(undefined);
  }

  private mark(running: Running, { steps }: SoundView, clock: number): void {
    let low = 0;
    let high = steps.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((steps[middle]?.at ?? 0) <= clock) low = middle + 1;
      else high = middle;
    }
    const step = steps[low - 1];
    const now = step !== undefined && clock < step.until ? step : undefined;
    if (now === running.last) return;
    running.last = now;
    this.onStep(now === undefined ? undefined : { step: now, clock });
  }
}

interface Running {
  readonly out: GainNode;
  /** When the times through that are set begin, on the context's clock. */
  readonly times: number[];
  frame: number;
  last: SoundView["steps"][number] | undefined;
}

/** Sets one time through and gives back when it begins. */
function set(context: AudioContext, out: GainNode, sound: SoundView, start: number): number {
  const end = start + sound.seconds;
  setTones(context, out, sound.tones, start, end);
  setClicks(context, out, sound.clicks, start, end);
  for (const hz of sound.drone) setDrone(context, out, hz, start, end);
  return start;
}

/** Brass plays one note at a time: one voice for all, tuned and opened from note to note. */
function setTones(
  context: AudioContext,
  out: GainNode,
  tones: readonly ToneView[],
  start: number,
  end: number,
): void {
  if (tones.length === 0) return;
  const voice = context.createOscillator();
  voice.setPeriodicWave(
    context.createPeriodicWave(new Float32Array(PARTIALS.length), Float32Array.from(PARTIALS)),
  );
  const edge = context.createBiquadFilter();
  edge.type = "lowpass";
  edge.frequency.value = BRIGHTEST;
  const level = context.createGain();
  level.gain.value = 0;
  voice.connect(edge).connect(level).connect(out);
  const { frequency } = voice;
  const { gain } = level;
  tones.forEach(({ at, until, hz, loud, joined, accent, bent }, index) => {
    const [from, to] = [start + at, start + until];
    const settled = VOICE * loud * SETTLED;
    const peak = VOICE * loud * (accent ? ACCENT : 1);
    if (joined) {
      frequency.setTargetAtTime(hz, from, GLIDE / 3);
      gain.setTargetAtTime(settled, from, SETTLING / 3);
    } else {
      frequency.setValueAtTime(hz, from);
      gain.setValueAtTime(0, from);
      gain.linearRampToValueAtTime(peak, from + ATTACK);
      gain.setTargetAtTime(settled, from + ATTACK, SETTLING / 3);
    }
    if (bent !== undefined) {
      const quarter = (to - from) / 4;
      frequency.setTargetAtTime(bent, from + quarter, quarter / 4);
      frequency.setTargetAtTime(hz, to - quarter, quarter / 4);
    }
    if (tones[index + 1]?.joined === true) return;
    const release = Math.min(RELEASE, (to - from) / 3);
    gain.setTargetAtTime(0, to - release, release / 4);
  });
  voice.start(start);
  voice.stop(end + RELEASE);
}

function setClicks(
  context: AudioContext,
  out: GainNode,
  clicks: SoundView["clicks"],
  start: number,
  end: number,
): void {
  if (clicks.length === 0) return;
  const voice = context.createOscillator();
  voice.type = "triangle";
  const level = context.createGain();
  level.gain.value = 0;
  voice.connect(level).connect(out);
  for (const { at, strong } of clicks) {
    const from = start + at;
    voice.frequency.setValueAtTime(strong ? CLICKS.strong : CLICKS.weak, from);
    level.gain.setValueAtTime(0, from);
    level.gain.linearRampToValueAtTime(strong ? CLICK : CLICK * 0.6, from + 0.002);
    level.gain.linearRampToValueAtTime(0, from + CLICKS.seconds);
  }
  voice.start(start);
  voice.stop(end + CLICKS.seconds);
}

function setDrone(context: AudioContext, out: GainNode, hz: number, start: number, end: number): void {
  const voice = context.createOscillator();
  voice.setPeriodicWave(
    context.createPeriodicWave(new Float32Array(PARTIALS.length), Float32Array.from(PARTIALS)),
  );
  voice.frequency.value = hz;
  const level = context.createGain();
  level.gain.setValueAtTime(0, start);
  level.gain.linearRampToValueAtTime(DRONE, start + 0.4);
  level.gain.setValueAtTime(DRONE, Math.max(start + 0.4, end - 0.1));
  level.gain.linearRampToValueAtTime(0, end);
  voice.connect(level).connect(out);
  voice.start(start);
  voice.stop(end);
}
