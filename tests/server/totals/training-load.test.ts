import { describe, expect, it } from "vitest";
import { acuteToChronic, monotonyOf, smoothing } from "../../../server/totals/training-load";

/** Nothing here says that these figures mean anything for brass players: none has been tried on them. */
describe("monotony and strain", () => {
  // Foster 1998, Med. Sci. Sports Exerc. 30:1164–1168: daily mean ÷ SD, load × monotony. Which SD is not said;
  // the figures are worked out (mean 2450 ÷ 7 = 350; squared distances 385000; SD √55000 or √64166.7).
  const week = [600, 200, 400, 500, 100, 650, 0];

  it("with the population's deviation", () => {
    const figures = monotonyOf(week, "population");
    expect(figures?.monotony).toBeCloseTo(1.4924, 4);
    expect(figures?.strain).toBeCloseTo(3656.4, 1);
  });

  it("with the sample's deviation", () => {
    const figures = monotonyOf(week, "sample");
    expect(figures?.monotony).toBeCloseTo(1.3817, 4);
    expect(figures?.strain).toBeCloseTo(3385.2, 1);
  });

  it("does not say anything of days without spread, or of one day", () => {
    expect(monotonyOf([100, 100, 100], "population")).toBeUndefined();
    expect(monotonyOf([100], "sample")).toBeUndefined();
    expect(monotonyOf([], "sample")).toBeUndefined();
  });
});

describe("acute to chronic load", () => {
  // The same week three ways: 28 days at 100, then 7 at 200; averages started at 100. Worked out by definition.
  const days = [...Array.from({ length: 28 }, () => 100), ...Array.from({ length: 7 }, () => 200)];

  it("smooths by λ = 2 ÷ (N + 1)", () => {
    // Williams et al. 2017, Br. J. Sports Med. 51:209.
    expect(smoothing(7)).toBe(0.25);
    expect(smoothing(28)).toBeCloseTo(0.068966, 6);
  });

  it("weighted: 1.3394", () => {
    // (200 − 100·0.75⁷) ÷ (200 − 100·(27/29)⁷)
    expect(acuteToChronic(days, "weighted")).toBeCloseTo(
      (200 - 100 * 0.75 ** 7) / (200 - 100 * (27 / 29) ** 7),
      10,
    );
    expect(acuteToChronic(days, "weighted")).toBeCloseTo(1.3394, 4);
  });

  it("coupled: 1.6000, uncoupled: 2.0000", () => {
    expect(acuteToChronic(days, "coupled")).toBeCloseTo(1.6, 10);
    expect(acuteToChronic(days, "uncoupled")).toBeCloseTo(2, 10);
  });

  it("has nothing to say with too few days or nothing to compare with", () => {
    expect(acuteToChronic(days.slice(0, 27), "coupled")).toBeUndefined();
    expect(acuteToChronic(days.slice(0, 27), "uncoupled")).toBeUndefined();
    expect(acuteToChronic([], "weighted")).toBeUndefined();
    expect(
      acuteToChronic([...Array.from({ length: 21 }, () => 0), 1, 1, 1, 1, 1, 1, 1], "uncoupled"),
    ).toBeUndefined();
  });

  it("is 1 where every day is alike", () => {
    const even = Array.from({ length: 40 }, () => 73);
    for (const method of ["weighted", "coupled", "uncoupled"] as const) {
      expect(acuteToChronic(even, method)).toBeCloseTo(1, 10);
    }
  });
});
