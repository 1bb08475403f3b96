import { describe, expect, test } from "vitest";
import { workspaceSymbols } from "../../../server/features/workspace-symbols";
import { asWindows, drawnLocations, opened, PLACES } from "./opened";
import { SMALL_STUDIO } from "./small-studio";

function found(query: string, picture = SMALL_STUDIO, change?: (text: string) => string): string[] {
  return workspaceSymbols(opened(picture, change).checked, query, PLACES).map(
    ({ name, containerName }) => `${name} · ${containerName}`,
  );
}

describe("workspace symbols", () => {
  test("all that is declared, where nothing is asked for", () => {
    expect(found("")).toEqual([
      "Saltmarsh brass · studio.practice",
      "Long tones · studio.practice",
      "Flow · studio.practice",
      "Slow fifths · book.practice",
      "Slow fifths, tongued · book.practice",
      "Morning basics · book.practice",
      "Seniors · players.practice",
      "K. M. · players.practice",
      "Autumn · autumn.practice",
      "Autumn · autumn.practice",
    ]);
  });

  test("the beginning of a name before the beginning of a word, and that before letters here and there", () => {
    const book =
      '--- a.practice\nexercise "Afoot in B"\nexercise "Big fog"\nexercise "Fogs"\nexercise "Off to G"\n';
    expect(found("fog", book)).toEqual([
      "Fogs · a.practice",
      "Big fog · a.practice",
      "Off to G · a.practice",
    ]);
  });

  test("capitals, accents and spaces aside", () => {
    const book = 'exercise "Frère Jacques"\nexercise "🎺 call"\n';
    expect(found("FRERE", book)).toEqual(["Frère Jacques · plan.practice"]);
    expect(found("fre re ja", book)).toEqual(["Frère Jacques · plan.practice"]);
    expect(found("🎺call", book)).toEqual(["🎺 call · plan.practice"]);
  });

  test("nothing where no name holds the letters", () => {
    expect(found("slowx")).toEqual([]);
    expect(found("a", "")).toEqual([]);
  });

  test.each([undefined, asWindows])("each in its place, also where its line cannot be read", (change) => {
    const studio = opened(
      '--- a.practice\narea "Flow"\n--- b.practice\nexercise "Flow fifths" lik\n',
      change,
    );
    expect(
      drawnLocations(
        studio,
        workspaceSymbols(studio.checked, "flow", PLACES).map(({ location }) => location),
      ),
    ).toEqual({
      "a.practice": ['area "⟦Flow⟧"'],
      "b.practice": ['exercise "⟦Flow fifths⟧" lik'],
    });
  });

  test("at most two hundred", () => {
    const many = Array.from({ length: 300 }, (_, i) => `area "Area ${i}"\n`).join("");
    expect(found("area", many)).toHaveLength(200);
  });
});
