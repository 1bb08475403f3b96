import type { Day } from "../days/day";

/** What is special about a day: closed, light, ill, a rehearsal, a concert; lessons are every week's. */
export function remarkOf(day: Day): string {
  const words: string[] = [];
  if (day.state === "closed" || day.state === "light" || day.state === "ill") words.push(day.state);
  for (const { kind, name, days } of day.bookings) {
    if (kind === "concert") words.push(`concert “${name}”`);
    else if (kind === "rehearsal" && days.kind === "dates") words.push(name);
  }
  return words.join(", ");
}
