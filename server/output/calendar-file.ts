import ical, { ICalAlarmType, ICalEventTransparency } from "ical-generator";
import type { CalendarEvent } from "./calendar-events";
import { nameUuid } from "./name-uuid";
import { safeText } from "./safe-text";

export interface CalendarAsk {
  /** Whose it is. */
  readonly name: string;
  readonly events: readonly CalendarEvent[];
  /** Minutes before each session with an hour at which the calendar rings; undefined for silence. */
  readonly alarm: number | undefined;
  /** The moment the file is written. */
  readonly now: Date;
  /** Of Leadpipe. */
  readonly version: string;
}

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
/** From here revisions are counted, in minutes: a file written later has the higher number, as calendars ask. */
const FIRST_REVISION = Date.UTC(2026, 0, 1);

/**
 * A calendar as RFC 5545 has it. An hour is floating local time (section 3.3.5, form 1): practice at half past
 * seven is at half past seven in summer and winter. What has no hour is an event of the whole day that leaves the
 * day free.
 */
export function calendarFile({ name, events, alarm, now, version }: CalendarAsk): string {
  const calendar = ical({
    name: safeText(name),
    prodId: { company: "Leadpipe", product: `Leadpipe ${version}`, language: "EN" },
  });
  const revision = Math.max(0, Math.floor((now.getTime() - FIRST_REVISION) / MINUTE_MS));
  const seen = new Map<string, number>();
  for (const event of events) {
    // Two terms of one name in one year: the second of two alike is still another event.
    const before = seen.get(event.identity) ?? 0;
    seen.set(event.identity, before + 1);
    const identity = before === 0 ? event.identity : `${event.identity} ${before + 1}`;
    const start = event.date * DAY_MS + (event.time ?? 0) * MINUTE_MS;
    const timed = event.time !== undefined;
    const entry = calendar.createEvent({
      id: nameUuid(identity),
      sequence: revision,
      stamp: now,
      start: new Date(start),
      ...(timed ? { end: new Date(start + event.minutes * MINUTE_MS), floating: true } : { allDay: true }),
      summary: safeText(event.title),
      transparency: timed ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
      ...(event.lines.length === 0 ? {} : { description: event.lines.map(safeText).join("\n") }),
    });
    if (alarm !== undefined && timed && event.kind === "practice") {
      entry.createAlarm({
        type: ICalAlarmType.display,
        triggerBefore: alarm * 60,
        description: safeText(event.title),
      });
    }
  }
  return `${calendar.toString()}\r\n`.replace(/(?:\r\n)+$/, "\r\n");
}
