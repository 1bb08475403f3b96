import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { lex } from "../../grammar/tokens";
import { unrollTerm } from "../../server/days/unroll";
import { shownPlace } from "../../server/output/position";
import { dateText } from "../../server/plan/date";
import { playersOf } from "../../server/plan/plan";
import { lasting } from "../../server/profile/profile";
import { weekTotals } from "../../server/totals/week";
import { checkTexts } from "../server/check-texts";
import { leadpipe } from "./leadpipe";

/** “The life of one line” in DEVELOPERS.md, followed through the code: what is said there is what happens. */

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const HOME = "samples/2026-27/spring.practice";
const FILES = ["studio", "book", "routines", "players", "2026-27/spring"].map(
  (each) => `samples/${each}.practice`,
);
const developers = readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8");
const [, life = ""] = /^## The life of one line\n([\s\S]*?)^## /m.exec(developers) ?? [];
const checked = checkTexts(new Map(FILES.map((path) => [path, readFileSync(join(ROOT, path), "utf8")])));
const file = checked.files.find((each) => each.path === HOME)!;
const source = file.text.split("\n")[216] ?? "";
const piece = file.tree.pieces.findIndex(
  (each) => each.text.includes(source) && each.text.includes('for "Seniors"'),
);
const finding = file.findings.find((each) => each.code === "day-upper")!;
const term = file.plan.own.terms.find((each) => each.name === "Spring 2027, seniors")!;
const player = playersOf(file.plan, term).find((each) => each.name === "R. A.")!;
const days = unrollTerm(file.plan, term, player);
const day = days.days.find((each) => dateText(each.date) === "2027-02-02")!;
const items = day.sessions.flatMap((each) => each.items);
const item = items.find((each) => each.assignment.exercise === "Evening at the lock")!;

test("the line and its piece", () => {
  expect(life).toContain(`\`\`\`text\n${source}\n\`\`\``);
  expect(piece).toBe(5);
  expect(life).toContain(`sixth piece and begins at ${file.tree.starts[piece]};`);
  expect(life).toContain(`number ${item.assignment.place.span.start} of the piece`);
});

test("its tokens", () => {
  const names = lex(source).map((token) => `\`${token.tokenType.name}\``);
  expect(names).toHaveLength(3);
  expect(life).toContain(`gives three: ${names.join(", ")}.`);
});

test("its plan, its profile and its day", () => {
  expect(item.assignment.amount).toMatchObject({ kind: "times", times: { from: 3 } });
  expect(item.exercise.name).toBe("Audition piece");
  const { playing, declaredUpper } = item.profile;
  expect(life).toContain(
    `${playing.whole} whole notes of playing, ${declaredUpper?.whole.toFixed(2)} of them`,
  );
  const once = [playing, declaredUpper!].map((length) => lasting(length, item.wholeSeconds).toFixed(0));
  expect(life).toContain(`that is ${once[0]} s, and ${once[1]} s.`);
  expect(life).toContain(`in taught week ${day.week},`);
  expect(life).toContain(`${item.playing.toFixed(0)} s of playing and ${item.upper.toFixed(0)} s of upper`);
});

test("its totals", () => {
  const week = weekTotals(days).find((each) => each.week === day.week)!;
  expect(life).toContain(`add up to ${day.totals.upper.toFixed(1)} s of upper`);
  expect(life).toContain(`makes ${week.upper.toFixed(1)} s of the week`);
});

test("its finding, and where it is shown", () => {
  expect(finding.place).toEqual(item.assignment.place);
  const shown = shownPlace(finding.place, checked.homes);
  expect([shown?.from.line, shown?.from.column]).toEqual([217, 7]);
  expect(life).toContain("line 217, column 7");
});

test("the line that is printed", async () => {
  const [printed = ""] = /^samples\/\S+: warning day-upper: .*$/m.exec(life) ?? [];
  expect(printed).not.toBe("");
  expect((await leadpipe(["check", "samples"], ROOT)).text).toContain(printed);
});
