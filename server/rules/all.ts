import { dayClock } from "./budget/day-clock";
import { dayLoad } from "./budget/day-load";
import { dayPlaying } from "./budget/day-playing";
import { dayUpper } from "./budget/day-upper";
import { weekClock } from "./budget/week-clock";
import { weekLoad } from "./budget/week-load";
import { weekPlaying } from "./budget/week-playing";
import { weekUpper } from "./budget/week-upper";
import { playerIncomplete } from "./notes/player-incomplete";
import { unusedExercise } from "./notes/unused-exercise";
import { unusedRoutine } from "./notes/unused-routine";
import { READING_RULES } from "./reading/all";
import type { Rule } from "./rule";
import { areaUntouched } from "./term/area-untouched";
import { dateOutside } from "./term/date-outside";
import { dayStretch } from "./term/day-stretch";
import { highestLast } from "./term/highest-last";
import { keysUnreached } from "./term/keys-unreached";
import { lipSlurValves } from "./term/lip-slur-valves";
import { noConcertEasing } from "./term/no-concert-easing";
import { noDayOff } from "./term/no-day-off";
import { noEasingIn } from "./term/no-easing-in";
import { outsideInstrument } from "./term/outside-instrument";
import { outsideLimit } from "./term/outside-limit";
import { outsideRange } from "./term/outside-range";
import { phraseBreath } from "./term/phrase-breath";
import { sessionMinutes } from "./term/session-minutes";
import { tempoJumps } from "./term/tempo-jumps";
import { tongueSpeed } from "./term/tongue-speed";
import { tooLittleRest } from "./term/too-little-rest";
import { walkRestarts } from "./term/walk-restarts";
import { walkUnfinished } from "./term/walk-unfinished";
import { weekBeyond } from "./term/week-beyond";
import { weekClimbs } from "./term/week-climbs";
import { weeksOverlap } from "./term/weeks-overlap";
import { weeksUnplanned } from "./term/weeks-unplanned";

/** Every rule there is. */
export const RULES: readonly Rule[] = [
  ...READING_RULES,
  walkRestarts,
  walkUnfinished,
  dayClock,
  dayLoad,
  dayPlaying,
  dayUpper,
  weekClock,
  weekLoad,
  weekPlaying,
  weekUpper,
  areaUntouched,
  dateOutside,
  dayStretch,
  highestLast,
  keysUnreached,
  lipSlurValves,
  noConcertEasing,
  noDayOff,
  noEasingIn,
  outsideInstrument,
  outsideLimit,
  outsideRange,
  phraseBreath,
  sessionMinutes,
  tempoJumps,
  tongueSpeed,
  tooLittleRest,
  weekBeyond,
  weekClimbs,
  weeksOverlap,
  weeksUnplanned,
  playerIncomplete,
  unusedExercise,
  unusedRoutine,
];
