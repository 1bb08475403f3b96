import type { TroubleRule } from "../rule";
import { barLength } from "./bar-length";
import { degreeHome } from "./degree-home";
import { duplicateName } from "./duplicate-name";
import { impossibleDate } from "./impossible-date";
import { impossiblePitch } from "./impossible-pitch";
import { impossibleValue } from "./impossible-value";
import { likeCircle } from "./like-circle";
import { lineMissing } from "./line-missing";
import { musicSlip } from "./music-slip";
import { noKey } from "./no-key";
import { noTempo } from "./no-tempo";
import { noValves } from "./no-valves";
import { otherMode } from "./other-mode";
import { outOfBounds } from "./out-of-bounds";
import { rhythmDoesNotFit } from "./rhythm-does-not-fit";
import { saidTwice } from "./said-twice";
import { seriesEndless } from "./series-endless";
import { unknownCode } from "./unknown-code";
import { unknownInstrument } from "./unknown-instrument";
import { unknownName } from "./unknown-name";
import { upsideDown } from "./upside-down";
import { walkUnreachable } from "./walk-unreachable";
import { whenPassedNoLesson } from "./when-passed-no-lesson";

/** One rule for every kind of trouble that reading can note. */
export const READING_RULES: readonly TroubleRule[] = [
  barLength,
  degreeHome,
  duplicateName,
  impossibleDate,
  impossiblePitch,
  impossibleValue,
  likeCircle,
  lineMissing,
  musicSlip,
  noKey,
  noTempo,
  noValves,
  otherMode,
  outOfBounds,
  rhythmDoesNotFit,
  saidTwice,
  seriesEndless,
  unknownCode,
  unknownInstrument,
  unknownName,
  upsideDown,
  walkUnreachable,
  whenPassedNoLesson,
];
