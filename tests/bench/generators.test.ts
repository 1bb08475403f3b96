import { describe, expect, test } from "vitest";
import { unrollTerm } from "../../server/days/unroll";
import { playersOf } from "../../server/plan/plan";
import type { Checked } from "../../server/workspace/check-sources";
import { checkTexts } from "../server/check-texts";
import { conservatoryFiles } from "./conservatory";
import { practiceText } from "./practice-text";
import { ASSIGNMENTS_A_DAY, CONSERVATORY, DAYS_A_TERM, ONE_PLAN, studioOf } from "./studio";
import { YamlReference } from "./yaml-reference";
import { YAML_SCHEMA, yamlText } from "./yaml-text";

function problems(checked: Checked): readonly string[] {
  return checked.files.flatMap(({ tree, plan }) => [
    ...tree.pieces.flatMap((piece) => piece.problems.map((problem) => problem.message)),
    ...plan.troubles.map((trouble) => trouble.kind),
  ]);
}

/** How often anything is practised on any day by anyone. */
function assignmentDays(checked: Checked): number {
  let count = 0;
  for (const { plan } of checked.files) {
    for (const term of plan.own.terms) {
      for (const player of playersOf(plan, term)) {
        for (const day of unrollTerm(plan, term, player).days) {
          for (const session of day.sessions) count += session.items.length;
        }
      }
    }
  }
  return count;
}

describe("the generated conservatory", () => {
  const files = conservatoryFiles(CONSERVATORY);
  const checked = checkTexts(files);

  test("parses and means something everywhere", () => {
    expect(problems(checked)).toEqual([]);
  });

  test("holds 200 exercises and 60 players who practise 84,240 assignments", () => {
    const studio = studioOf(CONSERVATORY);
    expect(studio.exercises.length).toBe(200);
    expect(new Set(studio.exercises.map((each) => each.name)).size).toBe(200);
    expect(studio.students.length).toBe(60);
    expect(60 * 3 * DAYS_A_TERM * ASSIGNMENTS_A_DAY).toBe(84_240);
    expect(assignmentDays(checked)).toBe(84_240);
  });

  test("is a plan a teacher could have written: nothing out of anybody's reach", () => {
    const errors = checked.files.flatMap((file) => file.findings.filter((each) => each.severity === "error"));
    expect(errors.map((each) => each.message)).toEqual([]);
  });

  test("is the same every time", () => {
    expect(conservatoryFiles(CONSERVATORY)).toEqual(files);
  });
});

describe("the plan written twice", () => {
  const studio = studioOf(ONE_PLAN);
  const yaml = yamlText(studio);

  test("is 200 kB of YAML that its schema accepts", async () => {
    expect(Math.abs(yaml.length - 200_000)).toBeLessThan(4_000);
    expect(await new YamlReference(YAML_SCHEMA).validate(yaml)).toBe(0);
  });

  test("is judged by its schema", async () => {
    const broken = yaml.replace('"1/4 ', '"1/3 ').replace("way: growth", "way: grown");
    expect(await new YamlReference(YAML_SCHEMA).validate(broken)).toBe(2);
  });

  test("says the same as practice text", () => {
    const checked = checkTexts(new Map([["plan.practice", practiceText(studio)]]));
    expect(problems(checked)).toEqual([]);
    expect(assignmentDays(checked)).toBe(84_240 / 10);
  });
});
