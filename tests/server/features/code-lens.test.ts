import { describe, expect, it } from "vitest";
import { codeLensesOf } from "../../../server/features/code-lens";
import { SHOW_WEEK } from "../../../server/protocol/requests";
import { drawnPlan, PLACES } from "./write-fixture";
import { studio, studioWith } from "./writing-studio";

function lenses(picture: string, commands = true, path = "term.practice") {
  const { checked } = drawnPlan(picture);
  const file = checked.files.find((each) => each.path === path);
  const found = codeLensesOf(checked, path, { commands }, PLACES);
  const drawn = found.map(
    ({ range, command }) => `${file?.text.split("\n")[range.start.line]?.trim()} ⟨${command?.title}⟩`,
  );
  return { found, drawn };
}

describe("figures over terms and weeks", () => {
  it("tell the fullest week for the player with the least room", () => {
    const { drawn } = lenses(
      studioWith(
        '  week 1 {\n    Mon "Morning" {\n      "Slow fifths"  for 10 min\n    }\n  }\n  weeks 2, 3 {\n    Mon to Fri "Morning" {\n      "Étude in thirds"  20 times\n    }\n  }',
      ),
    );
    expect(drawn).toEqual([
      'term "Autumn" for "Seniors" { ⟨fullest: week 2 · playing 8 of 112 min · upper 6 of 4 min · Seniors⟩',
      "week 1 { ⟨week 1 · playing 5 of 140 min · upper 0 of 5 min · Seniors⟩",
      "weeks 2, 3 { ⟨week 2 · playing 8 of 112 min · upper 6 of 4 min · Seniors⟩",
    ]);
  });

  it("lead to the week", () => {
    const { found } = lenses(studio('"Slow fifths"  once'));
    expect(found[0]?.command).toMatchObject({
      command: SHOW_WEEK,
      arguments: ["file:///studio/term.practice", found[0]?.range.start],
    });
  });

  it("are left out where the editor has no such command, and where there is no term", () => {
    expect(lenses(studio('"Slow fifths"  once'), false).found).toEqual([]);
    expect(lenses(studio('"Slow fifths"  once'), true, "book.practice").found).toEqual([]);
    expect(lenses(studio('"Slow fifths"  once'), true, "elsewhere.practice").found).toEqual([]);
  });

  it("say the figures alone where nothing is allowed for", () => {
    const picture = `--- term.practice\narea "A"\nexercise "E" {\n  in "A"\n  key C major\n  meter 4/4\n  tempo 1/4 = 60\n  music { 1/1 C4 | }\n}\nlevel "L" {\n}\nterm "T" for "L" {\n  from 2026-09-07 to 2026-09-12\n  every week {\n    Mon "M" {\n      "E"  for 2 min\n    }\n  }\n}\n`;
    expect(lenses(picture).drawn[1]).toBe("every week { ⟨week 1 · playing 1 min · upper 0 min⟩");
  });
});
