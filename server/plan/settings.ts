import type { Piece } from "../../grammar/piece";
import type { StudioDeclaration } from "../../grammar/tree";
import { type LetStand, readLet } from "./let-stand";
import type { Place } from "./place";
import { firstSaid, Reader } from "./reader";

export type Severity = "error" | "warning" | "note" | "off";

/** The studio's figures and house rules. The starting values are common practice without a source. */
export interface Settings {
  readonly name: string | undefined;
  /** Hertz of A4, sounding. Starting value: ISO 16:1975. */
  readonly tuning: number;
  /** The shortest rest, in seconds, that ends a stretch. */
  readonly hornDown: number;
  /** Seconds always taken between two times through. */
  readonly breathBetween: number;
  /** How many times its value a fermata lasts. */
  readonly fermata: number;
  /** The exponent on frequency in the load. */
  readonly loadExponent: number;
  /** Decibels from one dynamic to the next. */
  readonly dynamicStep: number;
  /** How long a breath lasts at p and softer, and at f and louder, as parts of its length at mf. */
  readonly softBreath: number;
  readonly loudBreath: number;
  /** Practice days an area may be left alone. */
  readonly untouched: number;
  /** The largest rise of a tempo from one week to the next, as a part of it. */
  readonly tempoJump: number;
  /** The least rest, as a part of a session's clock time. */
  readonly rest: number;
  readonly severities: ReadonlyMap<string, { readonly severity: Severity; readonly place: Place }>;
  readonly lets: readonly LetStand[];
  /** Equal for settings that compute alike; caches of profiles are kept by it. */
  readonly key: string;
}

export const STARTING_SETTINGS: Settings = withKey({
  name: undefined,
  tuning: 440,
  hornDown: 15,
  breathBetween: 2,
  fermata: 2,
  loadExponent: 1,
  dynamicStep: 5,
  softBreath: 1.3,
  loudBreath: 0.7,
  untouched: 3,
  tempoJump: 0.12,
  rest: 0.25,
  severities: new Map(),
  lets: [],
});

function withKey(settings: Omit<Settings, "key">): Settings {
  const { fermata, loadExponent, dynamicStep, softBreath, loudBreath } = settings;
  return { ...settings, key: [fermata, loadExponent, dynamicStep, softBreath, loudBreath].join(" ") };
}

type Writable = { -readonly [K in keyof Settings]: Settings[K] };

/** The studio's figures over the starting ones, with what could not be meant. */
export function readSettings(
  piece: Piece,
  declaration: StudioDeclaration,
): { settings: Settings; reader: Reader } {
  const reader = new Reader(piece);
  const settings: Writable = { ...STARTING_SETTINGS, name: declaration.name?.text };
  const severities = new Map<string, { severity: Severity; place: Place }>();
  const lets: LetStand[] = [];
  const said = new Map<string, Place>();
  for (const item of declaration.block?.items ?? []) {
    switch (item.kind) {
      case "unread":
      case "aim":
        break;
      case "let":
        lets.push(readLet(reader, item, declaration));
        break;
      case "finding":
        if (firstSaid(reader, said, `finding ${item.code.text}`, item)) {
          severities.set(item.code.text, { severity: item.severity, place: reader.place(item.code) });
        }
        break;
      case "time setting": {
        const seconds = reader.seconds(item.time, item.setting);
        if (!firstSaid(reader, said, item.setting, item) || seconds === undefined) break;
        if (item.setting === "horn down") settings.hornDown = seconds;
        else settings.breathBetween = seconds;
        break;
      }
      case "percent setting": {
        const share = reader.share(item.share, item.setting, 300);
        if (!firstSaid(reader, said, item.setting, item) || share === undefined) break;
        if (item.setting === "soft breath") settings.softBreath = share;
        else if (item.setting === "loud breath") settings.loudBreath = share;
        else if (item.setting === "tempo jump") settings.tempoJump = share;
        else settings.rest = share;
        break;
      }
      case "plain setting": {
        const [least, most] = PLAIN_BOUNDS[item.setting];
        const value = reader.number(item.value, item.setting, least, most);
        if (!firstSaid(reader, said, item.setting, item) || value === undefined) break;
        if (item.setting === "tuning") settings.tuning = value;
        else if (item.setting === "fermata") settings.fermata = value;
        else if (item.setting === "load exponent") settings.loadExponent = value;
        else if (item.setting === "dynamic step") settings.dynamicStep = value;
        else settings.untouched = value;
        break;
      }
    }
  }
  return { settings: withKey({ ...settings, severities, lets }), reader };
}

const PLAIN_BOUNDS = {
  tuning: [380, 480],
  fermata: [1, 10],
  "load exponent": [0, 4],
  "dynamic step": [0, 15],
  untouched: [1, 60],
} as const;
