/** Figures and lists as the messages say them. */

/** Seconds as minutes and seconds: `6:12`. */
export function minutes(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** Seconds in words where few: `8.4 s`, from two minutes on `3:20`. */
export function shortTime(seconds: number): string {
  if (seconds >= 120) return minutes(seconds);
  return `${Math.round(seconds * 10) / 10} s`;
}

/** `a, b and c`; at most `most` of them, the rest counted. */
export function list(words: readonly string[], most = 6): string {
  if (words.length > most) return `${words.slice(0, most).join(", ")} and ${words.length - most} more`;
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

export function quoted(name: string): string {
  return `“${name}”`;
}

/** `1 day`, `3 days`. */
export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}

/** A ratio above 1 as a rise: `23 %`. */
export function rise(ratio: number): string {
  return `${Math.round((ratio - 1) * 100)} %`;
}
