import { lasting } from "../profile/profile";
import type { DayItem } from "./day";

/**
 * Follows a session and keeps the longest run of clock time in which no rest was long enough for the horn to
 * come down. Short rests are part of the run.
 */
export class StretchMeter {
  /** Seconds. */
  longest = 0;
  /** What fills most of the longest run. */
  longestItem: DayItem | undefined;
  /** Seconds since the horn went up, the rests within it included, those after the last note not. */
  private run = 0;
  private waiting = 0;
  /** Of the present run: the item that fills most of it so far, and the one now sounding. */
  private most: DayItem | undefined;
  private mostSeconds = 0;
  private now: DayItem | undefined;
  private nowSeconds = 0;

  /** @param hornDown the shortest rest, in seconds, that lets the lips recover */
  constructor(private readonly hornDown: number) {}

  /** Begins another session. */
  begin(): void {
    this.longest = 0;
    this.longestItem = undefined;
    this.run = 0;
    this.waiting = 0;
    this.now = undefined;
  }

  rest(seconds: number): void {
    this.waiting += seconds;
    if (this.waiting >= this.hornDown) {
      this.run = 0;
      this.waiting = 0;
    }
  }

  private play(seconds: number, item: DayItem): void {
    if (seconds <= 0) return;
    if (this.run === 0) {
      this.run = seconds;
      this.most = undefined;
      this.mostSeconds = 0;
      this.now = undefined;
    } else this.run += this.waiting + seconds;
    this.waiting = 0;
    if (this.now !== item) {
      this.now = item;
      this.nowSeconds = 0;
    }
    this.nowSeconds += seconds;
    if (this.nowSeconds > this.mostSeconds) {
      this.most = item;
      this.mostSeconds = this.nowSeconds;
    }
    if (this.run > this.longest) {
      this.longest = this.run;
      this.longestItem = this.most;
    }
  }

  item(item: DayItem): void {
    const { profile, wholeSeconds } = item;
    const lipsRest = item.playing === 0;
    let times = 0;
    for (const pass of item.passes) times += pass.times;
    if (lipsRest) {
      this.rest(item.clock);
      return;
    }
    const gapless = profile.gaps.length === 0;
    if (gapless && item.restAfter >= this.hornDown && times > 1) {
      // Every time through after the first is the same run anew.
      this.play(lasting(profile.tail, wholeSeconds), item);
      this.rest(item.restAfter);
      this.play(lasting(profile.tail, wholeSeconds), item);
      this.rest(item.restAfter);
      return;
    }
    for (let i = 0; i < times; i++) {
      for (const gap of profile.gaps) {
        this.play(lasting(gap.before, wholeSeconds), item);
        this.rest(lasting(gap.rest, wholeSeconds));
      }
      this.play(lasting(profile.tail, wholeSeconds), item);
      this.rest(item.restAfter);
    }
  }
}
