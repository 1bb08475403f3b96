import { spawnSync } from "node:child_process";
import ICAL from "ical.js";
import { afterEach, describe, expect, test } from "vitest";
import { type CalendarEvent, calendarEvents } from "../../../server/output/calendar-events";
import { calendarFile } from "../../../server/output/calendar-file";
import { isoWeek, parseDate } from "../../../server/plan/date";
import { ensureProgram } from "../../editor/ensure-program";
import { readers } from "../../editor/programs";
import { dayOf, planOf, termOf } from "../plan-of";

const NOW = new Date(Date.UTC(2026, 8, 1, 12));

function day(text: string): number {
  const found = parseDate(text);
  if (found === undefined) throw new Error(`no such day: ${text}`);
  return found;
}

function fileOf(events: readonly CalendarEvent[], more: { alarm?: number; now?: Date } = {}): string {
  return calendarFile({ name: "K. M.", events, alarm: more.alarm, now: more.now ?? NOW, version: "0" });
}

const EVENT: CalendarEvent = {
  identity: "one",
  date: day("2026-09-07"),
  time: undefined,
  minutes: 10,
  title: "Morning",
  lines: [],
  kind: "practice",
};

/** The events of a file as ical.js reads them. */
function read(file: string) {
  const calendar = new ICAL.Component(ICAL.parse(file));
  return calendar.getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));
}

const STUDIO = `area "Tones" { }
area "Songs" { }
exercise "Fifths" {
  in "Tones"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 C4 G4 | 1/1 C4 ' | }
  rest equal
}
exercise "Frère Jacques" {
  in "Songs"
  printed "Book" page 3
  range C4 to C5
  lasts 2 min
  tempo 1/4 = 90
}
level "Seniors" { stage senior }
student "K. M." like "Seniors" { }
term "Winter" for "Seniors" {
  from 2026-12-14 to 2027-01-16
  practice Mon to Sat
  closed 2026-12-24 to 2027-01-02
  lesson every Tue { clock 30 min }
  booked 2026-12-19 "Rehearsal" { clock 90 min }
  concert 2026-12-20 "Carols" { clock 1 h }
  aim "easy"
  every week {
    Mon to Fri "Morning" 10 min {
      "Fifths"  keys C, Bb  tempo 60 to 64  twice { aim "one ring" }
      "Frère Jacques"  once  drop when tired
      short 3 min { "Fifths" once }
    }
    Sat "Short" { "Fifths" once }
  }
  short 2026-12-18
}
`;

function eventsOf(text: string, hours: ReadonlyMap<string, number> = new Map()) {
  return calendarEvents(termOf(planOf(text), "K. M."), hours);
}

describe("what a player's calendar holds", () => {
  const events = eventsOf(STUDIO);
  const on = (date: string) => events.filter((event) => event.date === day(date));

  test("a session a day with its list and minutes", () => {
    expect(on("2026-12-15")).toMatchObject([
      {
        title: "Morning, 10 min",
        minutes: 10,
        kind: "practice",
        lines: [
          "Fifths: B♭ major, quarter = 60, twice, one ring",
          "Frère Jacques: quarter = 90, once, drop when tired",
          "aim: easy",
          // 2 × (8 + 8) s and 120 s: 2 min 32 s.
          "3 minutes with rests",
        ],
      },
      { title: "Lesson", minutes: 30, kind: "lesson", lines: [] },
    ]);
  });

  test("short days as such, sessions without minutes for as long as they take", () => {
    expect(on("2026-12-18")[0]?.title).toBe("Morning, 3 min (short)");
    // Once 8 s and no rest after the last: not yet a minute.
    expect(on("2027-01-09")[0]).toMatchObject({ title: "Short, 1 min", minutes: 1 });
  });

  test("bookings and concerts, and nothing on closed days", () => {
    expect(on("2026-12-19").map((each) => [each.title, each.kind, each.minutes])).toEqual([
      ["Short, 1 min", "practice", 1],
      ["Rehearsal", "rehearsal", 90],
    ]);
    expect(on("2026-12-20").map((each) => each.kind)).toEqual(["concert"]);
    expect(on("2026-12-29")).toEqual([]);
  });

  test("goes on after New Year, in ISO week 53 of 2026 and week 1 of 2027", () => {
    // ISO 8601: 2026 has 53 weeks, the last from 2026-12-28 to 2027-01-03.
    expect(isoWeek(day("2027-01-03"))).toEqual({ year: 2026, week: 53 });
    expect(isoWeek(day("2027-01-04"))).toEqual({ year: 2027, week: 1 });
    const dates = read(fileOf(events)).map((event) => event.startDate.toString());
    expect(dates).toContain("2026-12-23");
    expect(dates).toContain("2027-01-04");
    expect(dates.some((date) => date >= "2026-12-24" && date <= "2027-01-03")).toBe(false);
    expect(read(fileOf(events)).map((event) => event.startDate.weekNumber(ICAL.Time.MONDAY))).toContain(1);
  });
});

describe("identities", () => {
  const identities = (text: string) =>
    new Map(eventsOf(text).map((event) => [event.date, event.identity] as const));
  const uids = (text: string) => read(fileOf(eventsOf(text))).map((event) => event.uid);

  test("no two things share one", () => {
    expect(new Set(uids(STUDIO)).size).toBe(uids(STUDIO).length);
    const twice = STUDIO.replace('Sat "Short"', 'Mon to Fri "Morning" { "Fifths" once }\n    Sat "Short"');
    expect(new Set(uids(twice)).size).toBe(uids(twice).length);
  });

  test("two terms of one name in one year do not share theirs", () => {
    const twice = read(fileOf([EVENT, EVENT, EVENT])).map((event) => event.uid);
    expect(new Set(twice).size).toBe(3);
    expect(read(fileOf([EVENT]))[0]?.uid).toBe(twice[0]);
  });

  test("stay when work, minutes and hour change", () => {
    const changed = STUDIO.replace('"Morning" 10 min', '"Morning" 12 min').replace("60 to 64", "66 to 70");
    expect(uids(changed)).toEqual(uids(STUDIO));
    const hours = new Map([["", 450]]);
    expect(read(fileOf(eventsOf(STUDIO, hours))).map((event) => event.uid)).toEqual(uids(STUDIO));
  });

  test("move along when a closure moves the weeks after it", () => {
    const before = identities(STUDIO);
    // Another week wholly closed: the second taught week lies a week later.
    const after = identities(STUDIO.replace("closed 2026-12-24", "closed 2026-12-21"));
    expect(after.get(day("2027-01-04"))).toBe(before.get(day("2026-12-21")));
  });

  test("keep a concert put off the same concert", () => {
    const later = STUDIO.replace("concert 2026-12-20", "concert 2027-01-10");
    const concert = (text: string) => eventsOf(text).find((event) => event.kind === "concert")?.identity;
    expect(concert(later)).toBe(concert(STUDIO));
  });

  test("differ by year, term and player", () => {
    const other = [
      STUDIO.replaceAll("2026-12", "2025-12").replaceAll("2027-01", "2026-01"),
      STUDIO.replace('term "Winter"', 'term "Advent"'),
    ];
    for (const text of other) expect(uids(text).filter((uid) => uids(STUDIO).includes(uid))).toEqual([]);
    const level = calendarEvents(termOf(planOf(STUDIO), "Seniors"), new Map());
    expect(level[0]?.identity).not.toBe(eventsOf(STUDIO)[0]?.identity);
  });

  test("a file written later has the higher revision", () => {
    const sequence = (now: Date) => Number(/SEQUENCE:(\d+)/.exec(fileOf([EVENT], { now }))?.[1]);
    expect(sequence(new Date(NOW.getTime() + 60_000))).toBe(sequence(NOW) + 1);
  });
});

describe("RFC 5545", () => {
  test("3.3.11: text with line ends", () => {
    const lines = ["Project XYZ Final Review", "Conference Room - 3B", "Come Prepared."];
    expect(unfolded(fileOf([{ ...EVENT, lines }]))).toContain(
      "DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.",
    );
  });

  test("3.3.11: signs that mean something are escaped", () => {
    const title = "Fifths; slow, \\ even";
    expect(unfolded(fileOf([{ ...EVENT, title }]))).toContain("SUMMARY:Fifths\\; slow\\, \\\\ even");
    expect(read(fileOf([{ ...EVENT, title }]))[0]?.summary).toBe(title);
  });

  test("3.3.4: a date", () => {
    expect(fileOf([{ ...EVENT, date: day("1997-07-14") }])).toContain("\r\nDTSTART;VALUE=DATE:19970714\r\n");
  });

  test("3.3.5, form 1: local time", () => {
    const file = fileOf([{ ...EVENT, date: day("1998-01-18"), time: 23 * 60 }]);
    expect(file).toContain("\r\nDTSTART:19980118T230000\r\n");
    expect(file).toContain("\r\nDTEND:19980118T231000\r\n");
  });

  test("3.6.6: an alarm thirty minutes before", () => {
    const file = fileOf([{ ...EVENT, time: 480 }], { alarm: 30 });
    const alarm = /BEGIN:VALARM\r\n([\s\S]*)END:VALARM/.exec(file)?.[1] ?? "";
    expect(alarm.split("\r\n")).toEqual(expect.arrayContaining(["TRIGGER:-PT30M", "ACTION:DISPLAY"]));
    // 3.6.1: an event's own properties stand before its alarms.
    expect(file).toMatch(/END:VALARM\r\nEND:VEVENT/);
  });

  test("an alarm rings before practice that has an hour, and before nothing else", () => {
    const events = [EVENT, { ...EVENT, time: 480, kind: "concert" as const }];
    expect(fileOf(events, { alarm: 10 })).not.toContain("VALARM");
  });

  test("3.1: no line is longer than 75 octets, wherever an accent falls", () => {
    for (let before = 0; before < 90; before++) {
      const title = `${"a".repeat(before)}é♭𝄞é`;
      const file = fileOf([{ ...EVENT, title, lines: [title, title] }]);
      for (const line of file.split("\r\n")) {
        expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
        // A letter cut in two would no longer be UTF-8.
        expect(line).not.toContain("\ufffd");
      }
      expect(read(file)[0]?.summary).toBe(title);
      expect(read(file)[0]?.description).toBe(`${title}\n${title}`);
    }
  });

  test("3.1: every line ends with CR LF, the last one too", () => {
    const file = fileOf(eventsOf(STUDIO));
    expect(file.endsWith("END:VCALENDAR\r\n")).toBe(true);
    expect(file.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });

  test("a name that would turn the writing round or ring the bell is made harmless", () => {
    const file = fileOf([{ ...EVENT, title: "a\u0007b\u202ec" }]);
    expect(file).not.toContain("\u0007");
    expect(file).not.toContain("\u202e");
  });
});

describe("days on which the clocks change", () => {
  const zone = process.env["TZ"];
  afterEach(() => {
    if (zone === undefined) delete process.env["TZ"];
    else process.env["TZ"] = zone;
  });

  test.each([
    ["Europe/Berlin", "2026-10-25"],
    ["Europe/Berlin", "2027-03-28"],
    ["America/New_York", "2026-11-01"],
    ["America/New_York", "2027-03-14"],
    ["Pacific/Auckland", "2026-09-27"],
  ])("practice in %s on %s is at the hour it says", (where, date) => {
    process.env["TZ"] = where;
    const [event] = read(fileOf([{ ...EVENT, date: day(date), time: 150 }]));
    expect(event?.startDate.toString()).toBe(`${date}T02:30:00`);
    expect(event?.startDate.zone).toBe(ICAL.Timezone.localTimezone);
    expect(event?.duration.toSeconds()).toBe(600);
  });
});

test("Debian's python3-icalendar reads it too", async () => {
  // Debian's own Python is the one that has the module, whichever Python comes first elsewhere.
  await ensureProgram(readers.icalendar, () => undefined);
  const events = eventsOf(STUDIO, new Map([["Morning", 435]]));
  const program = [
    "import sys, json, icalendar",
    "calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())",
    "events = [e for e in calendar.walk('VEVENT')]",
    "print(json.dumps([[str(e['UID']), str(e['SUMMARY']), e['DTSTART'].dt.isoformat(),",
    "  str(e.get('DESCRIPTION', '')), len(e.subcomponents)] for e in events]))",
  ].join("\n");
  const ended = spawnSync("/usr/bin/python3", ["-c", program], {
    input: fileOf(events, { alarm: 10 }),
    encoding: "utf8",
  });
  expect(ended.stderr).toBe("");
  const theirs: unknown = JSON.parse(ended.stdout);
  const ours = read(fileOf(events, { alarm: 10 })).map((event) => [
    event.uid,
    event.summary,
    event.startDate.toString(),
    event.description ?? "",
    event.component.getAllSubcomponents("valarm").length,
  ]);
  expect(theirs).toEqual(ours);
});

test("the day of a session is that of the plan", () => {
  const term = termOf(planOf(STUDIO), "K. M.");
  const monday = dayOf(term, "2026-12-14");
  const [event] = calendarEvents(term, new Map());
  expect(event?.date).toBe(monday.date);
});

/** A file with its folded lines joined (section 3.1). */
function unfolded(file: string): string {
  return file.replace(/\r\n[ \t]/g, "");
}
