import { describe, expect, it } from "vitest";
import { DiagnosticSeverity, DiagnosticTag } from "vscode-languageserver-types";
import { diagnosticsOf, MOST_DIAGNOSTICS } from "../../../server/features/diagnostics";
import { drawnPlan, PLACES, textIn } from "./write-fixture";
import { studio } from "./writing-studio";

const CAN = { relatedInformation: true, tags: true };

function shown(picture: string, path?: string, can = CAN, lineEnd = "\n") {
  const drawn = drawnPlan(picture, lineEnd);
  const asked = path ?? drawn.path;
  const file = drawn.checked.files.find((each) => each.path === asked);
  const diagnostics = diagnosticsOf(drawn.checked, asked, can, PLACES);
  const of = (code: string) => diagnostics.find((each) => each.code === code);
  return { ...drawn, file, diagnostics, of };
}

describe("a finding as an editor shows it", () => {
  it("has its place, its weight, its code and the sum behind its figure", () => {
    const { of, file } = shown(studio('"Étude in thirds"  in A  20 times'), "term.practice");
    const upper = of("day-upper");
    if (upper === undefined || file === undefined) throw new Error("no such finding");
    expect(textIn(file, upper.range)).toBe('"Étude in thirds"  in A  20 times');
    expect(upper.severity).toBe(DiagnosticSeverity.Warning);
    expect(upper.source).toBe("leadpipe");
    const [first, sum] = String(upper.message).split("\n");
    expect(first).toMatch(/in the upper register for Seniors, of 1:00 at most/);
    expect(sum).toMatch(/“Étude in thirds” in A major$/);
    expect(upper.data).toMatchObject({ finding: "day-upper" });
  });

  it("names the place in another file that belongs to it", () => {
    const { of } = shown(studio('"Étude in thirds"  in C  once'), "term.practice");
    const related = of("outside-limit")?.relatedInformation ?? [];
    expect(related.map(({ location }) => location.uri)).toContain("file:///studio/players.practice");
    const plain = shown(studio('"Étude in thirds"  in C  once'), "term.practice", {
      relatedInformation: false,
      tags: false,
    });
    expect(plain.diagnostics.every((each) => each.relatedInformation === undefined)).toBe(true);
    expect(plain.diagnostics.every((each) => each.tags === undefined)).toBe(true);
  });

  it("draws faint what serves nothing", () => {
    const { of } = shown(studio('"Slow fifths"  once'), "book.practice");
    expect(of("unused-exercise")?.tags).toEqual([DiagnosticTag.Unnecessary]);
    expect(of("unused-exercise")?.severity).toBe(DiagnosticSeverity.Information);
    const idle = shown(studio('"Slow fifths"  once { let day-upper stand because "no" }'), "term.practice");
    expect(idle.of("let-idle")?.tags).toEqual([DiagnosticTag.Unnecessary]);
  });

  it("shows what is let stand, with the reason", () => {
    const { of } = shown(
      studio('"Étude in thirds"  in A  20 times { let day-upper stand because "her wish" }'),
      "term.practice",
    );
    const upper = of("day-upper");
    expect(upper?.severity).toBe(DiagnosticSeverity.Information);
    expect(upper?.message).toMatch(/\nlet stand: her wish$/);
  });

  it("points at the exact text in a file with Windows line ends", () => {
    const { of, file } = shown(studio('"Slow fifhts"  once'), "term.practice", CAN, "\r\n");
    const unknown = of("unknown-name");
    if (unknown === undefined || file === undefined) throw new Error("no such finding");
    expect(textIn(file, unknown.range)).toBe('"Slow fifhts"');
    expect(unknown.severity).toBe(DiagnosticSeverity.Error);
  });

  it("has nothing to show of a file that is not there", () => {
    expect(shown(studio(), "elsewhere.practice").diagnostics).toEqual([]);
  });
});

describe("very many findings", () => {
  const notes = Array.from({ length: MOST_DIAGNOSTICS }, (_, i) => `exercise "E${i}" {\n  nonsense ${i}\n}`);
  const picture = `area "A"\n${notes.join("\n")}\nlevel "L" {\n}\nlevel "L" {\n}\n`;

  it("keeps the most serious in the order of the text and counts the rest", () => {
    const { diagnostics, checked } = shown(picture);
    const all = checked.files[0]?.findings ?? [];
    expect(all.length).toBeGreaterThan(MOST_DIAGNOSTICS);
    expect(diagnostics).toHaveLength(MOST_DIAGNOSTICS);
    const last = diagnostics.at(-1);
    expect(last?.code).toBe("more-findings");
    expect(last?.message).toMatch(new RegExp(`^${all.length - MOST_DIAGNOSTICS + 1} more findings`));
    const lines = diagnostics.slice(0, -1).map(({ range }) => range.start.line);
    expect(lines).toEqual(lines.toSorted((a, b) => a - b));
    expect(diagnostics.slice(0, -1).every(({ severity }) => severity === DiagnosticSeverity.Error)).toBe(
      true,
    );
  });
});
