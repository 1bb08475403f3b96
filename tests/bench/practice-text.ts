import type {
  ModelAssignment,
  ModelExercise,
  ModelStudent,
  ModelTerm,
  NoteGroup,
  StudioModel,
} from "./studio-model";

/** The whole studio as one `.practice` text. */
export function practiceText(studio: StudioModel): string {
  return [studioText(studio), bookText(studio), playersText(studio), termsText(studio.terms)].join("\n");
}

export function studioText(studio: StudioModel): string {
  const areas = studio.areas.map((area) => `area "${area}"\n`);
  return `studio "${studio.name}" {\n  tuning    440 Hz\n}\n\n${areas.join("")}`;
}

export function bookText(studio: StudioModel): string {
  return studio.exercises.map(exerciseText).join("\n");
}

export function playersText(studio: StudioModel): string {
  const levels = studio.levels.map(
    (level) =>
      `level "${level.name}" {\n  instrument trumpet in Bb\n  stage     ${level.stage}\n  keys      ${level.keys.join(", ")}\n}\n`,
  );
  return [...levels, ...studio.students.map(studentText)].join("\n");
}

export function termsText(terms: readonly ModelTerm[]): string {
  return terms.map(termText).join("\n");
}

function studentText(student: ModelStudent): string {
  return `student "${student.name}" like "${student.level}" {\n  limit     ${student.limit.join(" to ")}\n}\n`;
}

function exerciseText(exercise: ModelExercise): string {
  const lines = [`exercise "${exercise.name}" {`, `  in        "${exercise.area}"`];
  if (exercise.key !== undefined) lines.push(`  key       ${exercise.key} major`);
  lines.push("  meter     4/4", `  tempo     ${exercise.beat} = ${exercise.bpm}`);
  lines.push(`  aim       "${exercise.aim}"`);
  lines.push(exercise.way === "degrees" ? `  degrees from ${exercise.from} {` : `  ${exercise.way} {`);
  for (const bar of exercise.bars) {
    lines.push(`    ${bar.map((group) => groupText(group, exercise.way)).join(" ")} |`);
  }
  lines.push("  }", `  rest      ${exercise.rest} s`, "}", "");
  return lines.join("\n");
}

/** Notes as both languages write them: `1/4 (C4 D4)`. */
export function groupText(group: NoteGroup, way: ModelExercise["way"]): string {
  const lip = way === "partials";
  const notes = group.notes.join(" ");
  const slur = group.slurred && group.notes.length > 1;
  return `${group.value} ${slur ? `${lip ? "lip " : ""}(${notes})` : notes}${group.breath ? " '" : ""}`;
}

function termText(term: ModelTerm): string {
  const lines = [
    `term "${term.name}" for ${term.students.map((name) => `"${name}"`).join(", ")} {`,
    `  from      ${term.from} to ${term.to}`,
    "  practice  Mon to Sat",
    `  lesson every ${term.lesson} { clock 30 min  playing 6 min  stretch 1 min }`,
    `  concert   ${term.concert} "Concert" { clock 45 min  playing 6 min  stretch 2 min }`,
    "  ease 2 days before concerts to half",
  ];
  for (const block of term.blocks) {
    lines.push("", `  weeks ${block.weeks[0]} to ${block.weeks[1]} {`);
    for (const session of block.sessions) {
      lines.push(`    ${session.days.join(", ")} "${session.name}" ${session.minutes} min {`);
      for (const assignment of session.assignments) lines.push(`      ${assignmentText(assignment)}`);
      lines.push("    }");
    }
    lines.push("  }");
  }
  lines.push("}", "");
  return lines.join("\n");
}

function assignmentText(assignment: ModelAssignment): string {
  const { travel, tempo, amount } = assignment;
  const parts = [`"${assignment.exercise}"`];
  if (travel?.kind === "in") parts.push(`in ${travel.key}`);
  else if (travel?.kind === "all") parts.push(`all keys ${travel.keys.join(", ")}`);
  else if (travel?.kind === "valves") {
    parts.push(`${travel.all ? "all " : ""}valves ${travel.from} to ${travel.to}`);
  } else if (travel !== undefined) {
    parts.push(`keys ${travel.from} up by ${travel.step} to ${travel.to}`);
    if (travel.pacing === "when passed") parts.push("when passed");
  }
  if (tempo !== undefined) {
    const { from, to } = tempo;
    parts.push(tempo.way === "growth" ? `tempo ${from} to ${to}` : `tempo between ${from} and ${to}`);
  }
  const count = amount.from === amount.to ? String(amount.from) : `${amount.from} to ${amount.to}`;
  parts.push(amount.kind === "minutes" ? `for ${count} min` : `${count} times`);
  return parts.join("  ");
}
