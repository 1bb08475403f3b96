import { expect, test } from "vitest";
import { compareJson } from "../../../server/output/compare-json";
import { compareText } from "../../../server/output/compare-text";
import { NO_PAINT } from "../../../server/output/paint";
import { parseDate } from "../../../server/plan/date";
import { compared } from "./sides";
import { FIRST_AUTUMN, SECOND_AUTUMN } from "./story";

/** The two autumns of `story.ts`, where every figure is worked out by hand. */
const comparison = compared(FIRST_AUTUMN, SECOND_AUTUMN);
const { findings, ...differences } = comparison;

test("every difference of two small terms, line by line", () => {
  const slowFifths = { before: "Fifths", after: "Slow fifths" };
  expect(differences).toEqual({
    book: {
      added: ["March"],
      dropped: ["Hymn"],
      renamed: [slowFifths],
      rewritten: [
        {
          exercise: { before: "Bells", after: "Bells" },
          // After the pick-up: bar 2 had one note and has two, bar 4 is new, the short last bar stays.
          bars: [
            { before: [2], after: [2] },
            { before: [], after: [4] },
          ],
          lines: [{ what: "tempo", before: "quarter = 80", after: "quarter = 88" }],
        },
      ],
    },
    players: {
      added: [],
      dropped: [],
      changed: [
        {
          player: "K. M.",
          figures: [{ what: "limit", before: "F♯3 to B♭5", after: "F♯3 to A5" }],
        },
      ],
    },
    terms: {
      added: [],
      dropped: [],
      changed: [
        {
          term: { before: "Autumn 2025", after: "Autumn 2026" },
          dates: {
            before: { from: parseDate("2025-09-08"), to: parseDate("2025-09-19") },
            after: { from: parseDate("2026-09-07"), to: parseDate("2026-09-18") },
          },
          taughtWeeks: undefined,
          // 2026-09-09 is the Wednesday of week 1.
          goals: { added: [{ text: "by heart", week: 1 }], dropped: [{ text: "by heart", week: 2 }] },
          newPlayers: [],
          formerPlayers: [],
          practice: [
            {
              // K. M. has another limit, and days like any senior's.
              players: ["K. M.", "Seniors"],
              takenUp: [{ exercise: "March", from: 1, to: 2, times: 4, clock: 40 }],
              givenUp: [{ exercise: "Hymn", from: 1, to: 2, times: 4, clock: 72 }],
              areas: [
                {
                  area: "Songs",
                  before: { clock: 72, share: 72 / 184 },
                  after: { clock: 40, share: 40 / 120 },
                },
                {
                  area: "Tones",
                  before: { clock: 112, share: 112 / 184 },
                  after: { clock: 80, share: 80 / 120 },
                },
              ],
              keys: [
                { exercise: slowFifths, key: "D major", before: 1, after: 2 },
                { exercise: slowFifths, key: "E major", before: 2, after: 1 },
                { exercise: slowFifths, key: "F major", before: 2, after: undefined },
              ],
              tempi: [
                {
                  exercise: slowFifths,
                  beat: "quarter",
                  before: { first: 60, last: 80 },
                  after: { first: 80, last: 120 },
                },
              ],
              weeks: [
                {
                  week: 1,
                  before: { clock: 96, playing: 64, upper: 8 },
                  after: { clock: 64, playing: 40, upper: 8 },
                },
                {
                  week: 2,
                  before: { clock: 80, playing: 56, upper: 8 },
                  after: { clock: 48, playing: 32, upper: 8 },
                },
              ],
            },
          ],
        },
      ],
    },
  });
});

test("what is found now and was not, and the other way", () => {
  expect(findings.gained.map((each) => each.code)).toEqual(["session-minutes", "walk-restarts"]);
  expect(findings.lost.map((each) => each.code)).toEqual(["date-outside"]);
  expect(findings.gained[0]?.message).toContain("takes 0:32 of its 0:30");
  expect([...findings.standsNow, ...findings.standsNoMore]).toEqual([]);
});

test("said in musicians' words", () => {
  expect(compareText(comparison, NO_PAINT)).toBe(`The exercise book
  new: “March”
  gone: “Hymn”
  “Fifths” is called “Slow fifths” now
  “Bells”: bar 2 rewritten; bar 4 put in; tempo quarter = 88, was quarter = 80

Players
  “K. M.”: limit F♯3 to A5, was F♯3 to B♭5

Autumn 2026, beside Autumn 2025
  from 2026-09-07 to 2026-09-18, was 2025-09-08 to 2025-09-19
  goal “by heart” by week 1, was week 2

  For K. M., Seniors
    taken up
      “March”: weeks 1 to 2, 4 times through, 0:40
    given up
      “Hymn”: weeks 1 to 2, 4 times through, 1:12
    share of the clock time
      Songs: 33.3 % (0:40), was 39.1 % (1:12)
      Tones: 66.7 % (1:20), was 60.9 % (1:52)
    keys
      “Slow fifths”: D major in week 2, 1 week later; E major in week 1, 1 week earlier; F major no more (was week 2)
    tempi
      “Slow fifths”: quarter = 80 to 120, was 60 to 80
    week by week, before and after
      Week  Clock   now  Playing   now  Upper   now
         1   1:36  1:04     1:04  0:40   0:08  0:08
         2   1:20  0:48     0:56  0:32   0:08  0:08

Findings
  new: ${findings.gained.map((each) => `${each.severity} ${each.code}: ${each.message}`).join("\n  new: ")}
  gone: ${findings.lost.map((each) => `${each.severity} ${each.code}: ${each.message}`).join("\n")}`);
});

test("as data for other programs", () => {
  const data: unknown = JSON.parse(compareJson(comparison));
  expect(data).toMatchObject({
    book: { renamed: [{ before: "Fifths", after: "Slow fifths" }] },
    terms: {
      changed: [
        {
          dates: {
            before: { from: "2025-09-08", to: "2025-09-19" },
            after: { from: "2026-09-07", to: "2026-09-18" },
          },
          practice: [{ keys: [{}, {}, { key: "F major", before: 2, after: null }] }],
        },
      ],
    },
    findings: { lost: [{ code: "date-outside", standing: null }] },
  });
});
