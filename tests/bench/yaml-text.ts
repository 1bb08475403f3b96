import { groupText } from "./practice-text";
import type { ModelAssignment, ModelExercise, ModelTerm, StudioModel } from "./studio-model";

/** The whole studio as YAML, as a careful teacher would write it by hand. */
export function yamlText(studio: StudioModel): string {
  const lines = [
    "studio:",
    `  name: ${JSON.stringify(studio.name)}`,
    "  tuning: 440",
    "areas:",
    ...studio.areas.map((area) => `  - ${area}`),
    "exercises:",
    ...studio.exercises.flatMap(exerciseLines),
    "levels:",
  ];
  for (const level of studio.levels) {
    lines.push(`  - name: ${level.name}`, "    instrument: trumpet in Bb", `    stage: ${level.stage}`);
    lines.push(`    keys: [${level.keys.join(", ")}]`);
  }
  lines.push("students:");
  for (const student of studio.students) {
    lines.push(`  - name: ${student.name}`, `    like: ${student.level}`);
    lines.push(`    limit: { from: ${JSON.stringify(student.limit[0])}, to: ${student.limit[1]} }`);
  }
  lines.push("terms:", ...studio.terms.flatMap(termLines));
  return `${lines.join("\n")}\n`;
}

function exerciseLines(exercise: ModelExercise): readonly string[] {
  const lines = [`  - name: ${JSON.stringify(exercise.name)}`, `    in: ${exercise.area}`];
  if (exercise.key !== undefined) lines.push(`    key: ${exercise.key} major`);
  lines.push("    meter: 4/4", `    tempo: { beat: ${exercise.beat}, bpm: ${exercise.bpm} }`);
  lines.push(`    aim: ${JSON.stringify(exercise.aim)}`);
  if (exercise.way === "degrees") lines.push(`    from: ${JSON.stringify(exercise.from)}`);
  lines.push(`    ${exercise.way}:`);
  for (const bar of exercise.bars) {
    lines.push(`      - ${JSON.stringify(bar.map((group) => groupText(group, exercise.way)).join(" "))}`);
  }
  lines.push(`    rest: ${exercise.rest}`);
  return lines;
}

function termLines(term: ModelTerm): readonly string[] {
  const lines = [
    `  - name: ${JSON.stringify(term.name)}`,
    `    for: [${term.students.join(", ")}]`,
    `    from: ${term.from}`,
    `    to: ${term.to}`,
    "    practice: [Mon, Tue, Wed, Thu, Fri, Sat]",
    `    lesson: { every: ${term.lesson}, clock: 30, playing: 6, stretch: 1 }`,
    `    concerts: [{ on: ${term.concert}, name: Concert, clock: 45, playing: 6, stretch: 2 }]`,
    "    ease: { days: 2, to: half }",
    "    blocks:",
  ];
  for (const block of term.blocks) {
    lines.push(`      - weeks: { from: ${block.weeks[0]}, to: ${block.weeks[1]} }`, "        sessions:");
    for (const session of block.sessions) {
      lines.push(`          - days: [${session.days.join(", ")}]`, `            name: ${session.name}`);
      lines.push(`            minutes: ${session.minutes}`, "            assignments:");
      for (const assignment of session.assignments) lines.push(...assignmentLines(assignment));
    }
  }
  return lines;
}

function assignmentLines(assignment: ModelAssignment): readonly string[] {
  const { travel, tempo, amount } = assignment;
  const indent = "                ";
  const lines = [`              - exercise: ${JSON.stringify(assignment.exercise)}`];
  if (travel?.kind === "in") lines.push(`${indent}in: ${travel.key}`);
  else if (travel?.kind === "all") lines.push(`${indent}keys: [${travel.keys.join(", ")}]`);
  else if (travel?.kind === "valves") {
    lines.push(`${indent}valves: { all: ${travel.all}, from: "${travel.from}", to: "${travel.to}" }`);
  } else if (travel !== undefined) {
    const { from, step, to, pacing } = travel;
    lines.push(`${indent}walk: { from: ${from}, up by: ${step}, to: ${to}, pacing: ${pacing} }`);
  }
  if (tempo !== undefined) {
    lines.push(`${indent}tempo: { way: ${tempo.way}, from: ${tempo.from}, to: ${tempo.to} }`);
  }
  lines.push(`${indent}${amount.kind}: { from: ${amount.from}, to: ${amount.to} }`);
  return lines;
}

interface Schema {
  readonly [key: string]: unknown;
}

function exactly(properties: Schema, optional: readonly string[] = []): Schema {
  const required = Object.keys(properties).filter((name) => !optional.includes(name));
  return { type: "object", properties, required, additionalProperties: false };
}

function listOf(items: Schema): Schema {
  return { type: "array", items, minItems: 1 };
}

const text: Schema = { type: "string", minLength: 1 };
const amount: Schema = { type: "number", exclusiveMinimum: 0 };
const pitch: Schema = { type: "string", pattern: "^[A-G](##?|bb?)?[0-9]$" };
const key: Schema = { type: "string", pattern: "^[A-G](#|b)?$" };
const date: Schema = { type: "string", format: "date" };
const combination: Schema = { enum: ["open", "2", "1", "12", "23", "13", "123"] };
const weekday: Schema = { enum: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] };
const fromTo = (of: Schema): Schema => exactly({ from: of, to: of });

/** One bar a line: note values, and notes under slurs or without. */
function bars(note: string): Schema {
  const notes = `(${note}( ${note})*|(lip )?\\(${note}( ${note})*\\))`;
  const group = `1/[1248] ${notes}( ')?`;
  return listOf({ type: "string", pattern: `^${group}( ${group})*$` });
}

/** The JSON schema of the YAML plan: shapes, spellings and spans, which is all a schema can say of it. */
export const YAML_SCHEMA: Schema = {
  $schema: "http://json-schema.org/draft-07/schema#",
  ...exactly({
    studio: exactly({ name: text, tuning: amount }),
    areas: listOf(text),
    exercises: listOf(
      exactly(
        {
          name: text,
          in: text,
          key: { type: "string", pattern: "^[A-G](#|b)? (major|minor)$" },
          meter: { type: "string", pattern: "^[0-9]+/[0-9]+$" },
          tempo: exactly({
            beat: { enum: ["1/2", "1/4"] },
            bpm: { type: "integer", minimum: 20, maximum: 300 },
          }),
          aim: text,
          from: pitch,
          music: bars("[A-G](##?|bb?)?[0-9]"),
          degrees: bars("-?[0-9]+"),
          partials: bars("[0-9]+"),
          rest: amount,
        },
        ["key", "from", "music", "degrees", "partials"],
      ),
    ),
    levels: listOf(
      exactly({
        name: text,
        instrument: text,
        stage: { enum: ["first year", "years 2 to 3", "senior", "college"] },
        keys: listOf(key),
      }),
    ),
    students: listOf(exactly({ name: text, like: text, limit: fromTo(pitch) })),
    terms: listOf(
      exactly({
        name: text,
        for: listOf(text),
        from: date,
        to: date,
        practice: listOf(weekday),
        lesson: exactly({ every: weekday, clock: amount, playing: amount, stretch: amount }),
        concerts: listOf(exactly({ on: date, name: text, clock: amount, playing: amount, stretch: amount })),
        ease: exactly({ days: { type: "integer", minimum: 1 }, to: text }),
        blocks: listOf(
          exactly({
            weeks: fromTo({ type: "integer", minimum: 1, maximum: 60 }),
            sessions: listOf(
              exactly({
                days: listOf(weekday),
                name: text,
                minutes: amount,
                assignments: listOf(
                  exactly(
                    {
                      exercise: text,
                      in: key,
                      keys: listOf(key),
                      valves: exactly({ all: { type: "boolean" }, from: combination, to: combination }),
                      walk: exactly({
                        from: key,
                        "up by": text,
                        to: key,
                        pacing: { enum: ["onward", "when passed"] },
                      }),
                      tempo: exactly({ way: { enum: ["growth", "choice"] }, from: amount, to: amount }),
                      times: fromTo({ type: "integer", minimum: 1 }),
                      minutes: fromTo(amount),
                    },
                    ["in", "keys", "valves", "walk", "tempo", "times", "minutes"],
                  ),
                ),
              }),
            ),
          }),
        ),
      }),
    ),
  }),
};
