import { join, relative, resolve } from "node:path";
import { version } from "../../package.json";
import type { PlayerTerm } from "../days/day";
import { type CalendarEvent, calendarEvents, type Hours } from "../output/calendar-events";
import { calendarFile } from "../output/calendar-file";
import { fileNames } from "../output/file-names";
import { counted } from "../output/numbers";
import { safeText } from "../output/safe-text";
import { nearest } from "../plan/nearest";
import { termsOf } from "./asked-terms";
import { readOptions } from "./options";
import { readPlans } from "./read-plans";
import { CLEAN, FOUND, Misuse, type World } from "./world";
import { isThere, makeFolder, UnwrittenError, writeWhole } from "./write-file";

/** `leadpipe calendar`: a calendar file for each player, to be read into a phone or a computer. */
export async function calendar(args: readonly string[], world: World): Promise<number> {
  const { words, values, switches } = readOptions("calendar", args, {
    to: "value",
    player: "value",
    term: "value",
    at: "value",
    alarm: "value",
    force: "switch",
  });
  const checked = await readPlans(words, world, { findings: false });
  const terms = termsOf(checked, { player: values.get("player"), term: values.get("term") });
  if (terms.length === 0) throw new Misuse("There is no term here to put into a calendar.");
  const hours = hoursOf(values.get("at"), terms);
  const alarm = alarmOf(values.get("alarm"), hours);
  const folder = resolve(world.cwd, values.get("to") ?? ".");
  const byPlayer = new Map<string, CalendarEvent[]>();
  for (const term of terms) {
    const events = byPlayer.get(term.player.name) ?? [];
    byPlayer.set(term.player.name, events);
    events.push(...calendarEvents(term, hours));
  }
  const names = fileNames([...byPlayer.keys()], ".ics");
  const files = [...byPlayer].map(([name, events], i) => ({
    name,
    events,
    path: join(folder, names[i] ?? ""),
  }));
  const there = files.filter((file) => isThere(file.path));
  if (there.length > 0 && !switches.has("force")) {
    const list = there.map((file) => `“${relative(world.cwd, file.path)}”`).join(", ");
    throw new Misuse(`${list} is there already. Nothing is written; --force writes it anew.`);
  }
  try {
    makeFolder(folder);
    for (const { name, events, path } of files) {
      writeWhole(path, calendarFile({ name, events, alarm, now: world.today(), version }));
      world.out(`${safeText(relative(world.cwd, path))}: ${counted(events.length, "event")}\n`);
    }
  } catch (error) {
    if (!(error instanceof UnwrittenError)) throw error;
    world.err(`${safeText(error.message)}\n`);
    return FOUND;
  }
  return CLEAN;
}

/** `07:30` for all sessions, or `Morning 07:30, Band 18:00` by the names of sessions and bookings. */
function hoursOf(text: string | undefined, terms: readonly PlayerTerm[]): Hours {
  const hours = new Map<string, number>();
  if (text === undefined) return hours;
  const names = new Set(
    terms.flatMap(({ term, days }) => [
      ...term.bookings.map((booking) => booking.name),
      ...days.flatMap((day) => day.sessions.map(({ session }) => session.name)),
    ]),
  );
  for (const part of text.split(",")) {
    const match = /^(?:(.*\S)\s+)?(\d{1,2}):(\d{2})$/.exec(part.trim());
    const [name, hour, minute] = [match?.[1] ?? "", Number(match?.[2]), Number(match?.[3])];
    if (match === null || hour > 23 || minute > 59) {
      throw new Misuse(
        `“--at” takes hours such as 07:30 or "Morning 07:30, Evening 18:00", not “${part.trim()}”.`,
      );
    }
    if (name !== "" && !names.has(name)) {
      const near = nearest(name, names);
      throw new Misuse(
        `There is no session or booking “${name}” here.${near === undefined ? "" : ` Did you mean “${near}”?`}`,
      );
    }
    hours.set(name, hour * 60 + minute);
  }
  return hours;
}

/** A day; nobody wants to be warned earlier. */
const LONGEST_ALARM = 24 * 60;

function alarmOf(text: string | undefined, hours: Hours): number | undefined {
  if (text === undefined) return undefined;
  const minutes = Number(text);
  if (!/^\d+$/.test(text) || minutes > LONGEST_ALARM) {
    throw new Misuse(`“--alarm” takes minutes before practice, such as 10, not “${text}”.`);
  }
  if (hours.size === 0) throw new Misuse("“--alarm” needs hours to ring before: --at 07:30");
  return minutes;
}
