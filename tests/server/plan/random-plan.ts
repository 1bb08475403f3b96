import fc from "fast-check";

/**
 * Plans made at random: all of them can be read, and many of them mean something odd. Numbers come from far
 * beyond what is sensible, too.
 */

const count = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 12 }) },
  fc.constantFrom(0, 13, 60, 100, 400, 10_000),
);
const key = fc.constantFrom("C", "G", "F", "Bb", "Eb", "F#", "Db", "B", "Cb", "A minor", "D dorian");
const step = fc.constantFrom("half step", "whole step", "minor third", "major third", "fourth", "fifth");
const way = fc.constantFrom("up", "down");
const note = fc.constantFrom("C4", "F#3", "G4", "A4", "Bb4", "C5", "E5", "G5", "B5", "C6", "E6", "C3", "C8");
const value = fc.constantFrom("1/1", "1/2", "1/4", "1/8", "1/16", "1/4.", "1/2..", "1/32");
const day = fc
  .tuple(
    fc.constantFrom("2026-09", "2026-10", "2026-12", "2027-01", "2027-02"),
    fc.integer({ min: 1, max: 31 }),
  )
  .map(([month, date]) => `${month}-${String(date).padStart(2, "0")}`);
const days = fc.constantFrom("Mon to Fri", "Mon", "Sat, Sun", "every day", "Fri to Mon", "Wed, Thu");
const exercise = fc.constantFrom("One", "Two", "Three", "Four", "Five", "Missing");

const bar = fc
  .array(
    fc.oneof(
      fc
        .tuple(
          value,
          note,
          fc.constantFrom("", " accent", " fermata", " '", " held", " bend half step", " tie"),
        )
        .map((parts) => `${parts[0]} ${parts[1]}${parts[2]}`),
      fc.tuple(value).map(([each]) => `${each} rest`),
      fc.tuple(note, note).map(([a, b]) => `1/4 (${a} ${b})`),
      fc.tuple(note, note).map(([a, b]) => `1/4 lip (${a} ${b})`),
      fc.tuple(note).map(([each]) => `triplet [ 1/8 ${each} ${each} ${each} ]`),
      fc.constantFrom("p", "ff", "double", "single", "attack air", "cresc", "meter 3/4", "key D major"),
    ),
    { minLength: 1, maxLength: 6 },
  )
  .map((parts) => parts.join(" "));

const music = fc
  .tuple(bar, fc.array(bar, { maxLength: 3 }), fc.constantFrom("plain", "repeat", "endings", "free"))
  .map(([first, more, shape]) => {
    const all = ["1/4 C4", first, ...more].join(" | ");
    if (shape === "repeat") return `{ repeat [ ${all} ] }`;
    if (shape === "endings") return `{ repeat [ ${all} ] ending 1 [ ${first} ] ending 2 [ ${all} ] }`;
    return shape === "free" ? `{ free 9 s ${all} }` : `{ ${all} | }`;
  });

const book = fc
  .record({
    tempo: count,
    meter: fc.constantFrom("4/4", "free", "3/4", "7/8"),
    music,
    second: music,
    home: key,
    like: fc.constantFrom("One", "Two", "Four", "Missing"),
    rest: fc.constantFrom("equal", "none", "20 s", "0 s"),
    change: fc.tuple(way, step).map((parts) => `moved ${parts[0]} by ${parts[1]}`),
    articulation: fc.constantFrom("all slurred", "slur 2 tongue 2", "double tongued", "as written"),
    cells: fc.constantFrom("series 7 cells down by half step", "series up by whole step", ""),
  })
  .map(
    (each) => `area "A"
exercise "One" {
  in "A"
  key ${each.home}
  meter ${each.meter}
  tempo 1/4 = ${each.tempo}
  music ${each.music}
  rest ${each.rest}
  ${each.cells}
}
exercise "Two" like "${each.like}" {
  ${each.change}
  articulation ${each.articulation}
}
exercise "Three" {
  in "A"
  meter 4/4
  tempo 1/4 = 80
  partials { 1/4 lip (2 3 4 3) 1/1 2 ' | }
}
exercise "Four" {
  in "A"
  key G major
  meter free
  tempo 1/8 = 90
  music ${each.second}
}
exercise "Five" {
  in "A"
  activity singing
  spares lips
  lasts 1 min
}
`,
  );

const keys = fc.oneof(
  fc.constant(""),
  key.map((each) => `in ${each}`),
  fc
    .tuple(
      fc.constantFrom("", "all "),
      fc.array(key, { minLength: 1, maxLength: 4 }),
      fc.constantFrom("", " folded", " afresh", " when passed", " onward"),
    )
    .map(([all, list, more]) => `${all}keys ${list.join(", ")}${more}`),
  fc
    .tuple(key, way, step, key, fc.constantFrom("", " next round up by whole step", " folded"))
    .map((p) => `keys ${p[0]} ${p[1]} by ${p[2]} to ${p[3]}${p[4]}`),
  fc.constantFrom("valves open to 123", "valves 13, 2", "all valves 123 to open"),
);
const amount = fc.oneof(
  count.map((each) => `${each} times`),
  fc.tuple(count, count).map(([from, to]) => `${from} to ${to} times`),
  fc.tuple(count, count).map(([from, to]) => `for ${from} to ${to} min`),
  count.map((each) => `for ${each} min`),
  fc.constantFrom("once", ""),
);
const tempo = fc.oneof(
  fc.constant(""),
  count.map((each) => `tempo ${each}`),
  fc.tuple(count, count).map(([from, to]) => `tempo between ${from} and ${to}`),
  fc.tuple(count, count).map(([from, to]) => `tempo 1/8 = ${from} to ${to}`),
);
const assignment = fc.tuple(exercise, keys, tempo, amount).map((p) => `"${p[0]}" ${p.slice(1).join(" ")}`);
const session = fc
  .tuple(
    days,
    fc.constantFrom("Morning", "Evening"),
    fc.constantFrom("", " 10 min", " 1 min"),
    fc.array(assignment, { minLength: 1, maxLength: 3 }),
    fc.boolean(),
  )
  .map(
    ([when, name, minutes, work, short]) =>
      `${when} "${name}"${minutes} {\n${work.join("\n")}\n${short ? 'short { "One" }' : "rest 20 s"}\n}`,
  );
const weeks = fc
  .tuple(
    fc.constantFrom("every week", "week 1", "weeks 1 to 3", "weeks 2, 5 to 9"),
    fc.array(session, { minLength: 1, maxLength: 3 }),
  )
  .map(([when, all]) => `${when} {\n${all.join("\n")}\n}`);
const field = fc.oneof(
  fc
    .tuple(fc.constantFrom("closed", "light", "no lesson"), day, day)
    .map((p) => `${p[0]} ${p[1]} to ${p[2]}`),
  day.map((each) => `concert ${each} "Concert" { clock 1 h  playing half  upper 5 min }`),
  fc.constantFrom(
    "lesson every Tue { clock 30 min }",
    "ease 3 days before concerts to half",
    "short every Wed",
    'booked every Thu "Band" { playing 20 min }',
    "practice Mon to Sun",
    "practice Sat",
    'let day-upper stand because "so"',
  ),
  fc
    .tuple(exercise, exercise)
    .map(
      ([a, b]) =>
        `change "S" { replace "${a}" with "${b}" weeks 1 to 2\n leave out "${b}"\n ill 2026-09-15 to 2026-09-16\n back at half 2026-09-17 to 2026-09-20 }`,
    ),
);

export const randomPlan = fc
  .tuple(
    book,
    fc.constantFrom("first year", "years 2 to 3", "senior", "college"),
    day,
    day,
    fc.array(field, { maxLength: 5 }),
    fc.array(weeks, { minLength: 1, maxLength: 3 }),
  )
  .map(
    ([all, stage, from, to, fields, blocks]) => `${all}level "L" {
  stage ${stage}
  keys C, G, F
  each week {
    increase at most 15 %
    playing at most 2 h
  }
}
student "S" like "L" {
  instrument piccolo trumpet in A
}
term "T" for "L" {
from ${from} to ${to}
${fields.join("\n")}
${blocks.join("\n")}
}
`,
  );
