export { minutes as clockText } from "../rules/words";

/** A count as it is read aloud: `1,204`. */
export function countText(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ",");
}

/** A count with its word: `1 day`, `1,204 days`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${countText(count)} ${count === 1 ? one : many}`;
}

/** Seconds to a tenth: `8.4 s`. */
export function secondsText(seconds: number): string {
  return `${Math.round(seconds * 10) / 10} s`;
}

/** A figure with at most two decimals, none where they say nothing. */
export function plainNumber(value: number): string {
  return String(Math.round(value * 100) / 100);
}
