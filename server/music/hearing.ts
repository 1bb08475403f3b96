/** How long the ear may be exposed to a sound level. */

/** The published limits: minutes are halved for every `exchange` decibels above `criterion`, eight hours there. */
const LIMITS = {
  /** NIOSH recommended exposure limit. */
  NIOSH: { criterion: 85, exchange: 3 },
  /** OSHA 1910.95. */
  OSHA: { criterion: 90, exchange: 5 },
} as const;

/** Whose limit: NIOSH recommends for health, OSHA is the older law of the workplace. */
export type HearingStandard = keyof typeof LIMITS;

/** Minutes in a working day of eight hours, which both standards count from. */
const WORKING_DAY = 480;

/** The minutes a day an ear may spend at a level in dBA. */
export function permittedMinutes(level: number, standard: HearingStandard): number {
  const { criterion, exchange } = LIMITS[standard];
  return WORKING_DAY / 2 ** ((level - criterion) / exchange);
}

/** The day's dose in per cent that so many minutes at a level in dBA use up; 100 is the whole of it. */
export function dosePercent(minutes: number, level: number, standard: HearingStandard): number {
  return (100 * minutes) / permittedMinutes(level, standard);
}
