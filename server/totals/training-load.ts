/**
 * Figures that sports science makes of daily loads. They are shown on request only and never beside a
 * warning: none has been tried on brass players, and the ratio is strongly disputed (Impellizzeri et al. 2020).
 */

/** Mean and spread of a week's daily loads. `monotony` is mean ÷ standard deviation, `strain` sum × monotony. */
export interface Monotony {
  readonly monotony: number;
  readonly strain: number;
}

/** Which standard deviation: Foster (1998) does not say, so the caller must. */
export type Deviation = "population" | "sample";

/** Foster 1998; undefined where all days are alike (no spread) or there are fewer than two. */
export function monotonyOf(daily: readonly number[], deviation: Deviation): Monotony | undefined {
  if (daily.length < 2) return undefined;
  const sum = daily.reduce((a, b) => a + b, 0);
  const mean = sum / daily.length;
  const squares = daily.reduce((a, b) => a + (b - mean) ** 2, 0);
  const spread = Math.sqrt(squares / (deviation === "population" ? daily.length : daily.length - 1));
  if (spread === 0) return undefined;
  const monotony = mean / spread;
  return { monotony, strain: sum * monotony };
}

export const RATIO_METHODS = ["weighted", "coupled", "uncoupled"] as const;

export type RatioMethod = (typeof RATIO_METHODS)[number];

/** Days of the short and the long average. */
const SHORT = 7;
const LONG = 28;

/**
 * The load of the last days against that of the last weeks, by a named method, at the end of `daily`:
 * `weighted` averages (Williams et al. 2017, λ = 2 ÷ (N + 1), started at the first day's load), `coupled` (7 days
 * against 28 that include them) or `uncoupled` (7 days against the 21 before). Undefined with too few days
 * (28, or one for the weighted) or nothing to compare with.
 */
export function acuteToChronic(daily: readonly number[], method: RatioMethod): number | undefined {
  if (method === "weighted") {
    const short = weightedAverage(daily, SHORT);
    const long = weightedAverage(daily, LONG);
    return long === undefined || short === undefined || long === 0 ? undefined : short / long;
  }
  if (daily.length < LONG) return undefined;
  const last = daily.slice(-LONG);
  const acute = mean(last.slice(-SHORT));
  const chronic = mean(method === "coupled" ? last : last.slice(0, LONG - SHORT));
  return chronic === 0 ? undefined : acute / chronic;
}

/** λ of a weighted average over `days`. */
export function smoothing(days: number): number {
  return 2 / (days + 1);
}

function weightedAverage(daily: readonly number[], days: number): number | undefined {
  const lambda = smoothing(days);
  let average: number | undefined;
  for (const load of daily) average = average === undefined ? load : load * lambda + (1 - lambda) * average;
  return average;
}

function mean(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}
