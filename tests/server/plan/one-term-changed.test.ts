import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { oneTermChanged } from "../../../server/plan/one-term-changed";
import { type BuiltPlan, buildPlan, type Plan } from "../../../server/plan/plan";
import { checkPlan } from "../../../server/rules/check";
import { SMALL } from "../cli/command";

const [AREA = "", EXERCISE = "", LEVEL = "", STUDENT = "", TERM = ""] = SMALL.split(/\n(?=\w)/).map(
  (part) => `${part}\n`,
);
const SPRING = TERM.replace("Autumn", "Spring");
const ROUTINE = 'routine "Every day" {\n  minutes 20\n  "Fifths"  twice\n}\n';
const STUDIO = [AREA, EXERCISE, LEVEL, STUDENT, ROUTINE, TERM, SPRING].join("\n");

function builtFrom(text: string): BuiltPlan {
  const { pieces } = readSource(text);
  return { own: pieces, used: [], records: [], plan: buildPlan(pieces, []) };
}

/** The findings in words, and what else others ask of a plan. */
function meaningOf(plan: Plan): unknown {
  return {
    exercises: [...plan.exercises.keys()],
    terms: [...plan.terms.keys()],
    own: plan.own.terms.map(({ name, weeks }) => [name, weeks.length]),
    mentioned: [...plan.mentioned].sort(),
    asked: [...plan.exerciseNames.keys(), "Sevenths"].map((name) => plan.mentioned.has(name)),
    findings: checkPlan(plan, { mentioned: plan.mentioned, hasTerm: true })
      .map(({ code, message }) => `${code}: ${message}`)
      .sort(),
  };
}

/** The plan after an edit as it is taken over from the one before, and as it is read afresh. */
function afterwards(
  before: string,
  after: string,
): { readonly taken: Plan | undefined; readonly fresh: Plan } {
  const tree = readSource(before);
  const built: BuiltPlan = {
    own: tree.pieces,
    used: [],
    records: [],
    plan: buildPlan(tree.pieces, []),
  };
  const taken = oneTermChanged(readSource(after, tree).pieces, built);
  return { taken, fresh: buildPlan(readSource(after).pieces, []) };
}

describe("the plan after one term was changed", () => {
  test.each([
    ["other times", STUDIO.replace(SPRING, SPRING.replace("twice", "3 times"))],
    ["an exercise that is not there", STUDIO.replace(SPRING, SPRING.replace('"Fifths"', '"Sevenths"'))],
    ["a line nobody can read", STUDIO.replace(SPRING, SPRING.replace('"Fifths"', "nonsense"))],
    [
      "a routine by its name",
      STUDIO.replace(
        SPRING,
        SPRING.replace(/Mon to Fri[^}]*\}/, 'Mon to Fri "Morning" routine "Every night"'),
      ),
    ],
  ])("is taken over from before: %s", (_, after) => {
    if (after === STUDIO) throw new Error("nothing was changed");
    const { taken, fresh } = afterwards(STUDIO, after);
    const back = afterwards(after, STUDIO);
    if (taken === undefined || back.taken === undefined) throw new Error("it was built anew");
    expect(meaningOf(taken)).toEqual(meaningOf(fresh));
    expect(meaningOf(back.taken)).toEqual(meaningOf(back.fresh));
  });

  test.each([
    ["its name is another", STUDIO.replace('term "Spring"', 'term "Summer"')],
    ["an exercise was changed", STUDIO.replace(EXERCISE, EXERCISE.replace("1/4 = ", "1/4 = 1"))],
    ["two were changed", STUDIO.replaceAll("twice", "3 times")],
    ["one is new", `${STUDIO}\n${TERM.replace("Autumn", "Summer")}`],
    ["it bears the name of another", STUDIO.replace('term "Spring"', 'term "Autumn"')],
  ])("is built anew where %s", (_, after) => {
    if (after === STUDIO) throw new Error("nothing was changed");
    expect(afterwards(STUDIO, after).taken).toBeUndefined();
  });

  test("a second term of the same name is judged by the one that holds", () => {
    const twice = STUDIO.replace('term "Spring"', 'term "Autumn"');
    const after = twice.replace("twice", "3 times");
    expect(afterwards(twice, after).taken).toBeUndefined();
  });

  test("means what a fresh reading means, whatever is typed one after the other", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            at: fc.nat(),
            cut: fc.nat(12),
            text: fc.constantFrom("e", "1", "Fifths", '"', "\n", "}", "3 times", ' "Sevenths"  twice\n', ""),
          }),
          { minLength: 1, maxLength: 12 },
        ),
        (edits) => {
          let text = STUDIO;
          let tree = readSource(text);
          let built = builtFrom(text);
          for (const { at, cut, text: typed } of edits) {
            // Mostly inside the two terms, at the end of the text.
            const from = text.length - (at % Math.min(text.length, 2 * TERM.length));
            text = text.slice(0, from) + typed + text.slice(from + cut);
            tree = readSource(text, tree);
            built = { own: tree.pieces, used: [], records: [], plan: buildPlan(tree.pieces, [], [], built) };
            expect(meaningOf(built.plan)).toEqual(meaningOf(buildPlan(readSource(text).pieces, [])));
          }
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });
});
