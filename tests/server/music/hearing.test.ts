import { describe, expect, it, test } from "vitest";
import { dosePercent, permittedMinutes } from "../../../server/music/hearing.js";

describe("permitted exposure", () => {
  // NIOSH recommended exposure limit: minutes = 480 ÷ 2^((L−85)/3).
  test.each([
    [85, 480],
    [88, 240],
    [91, 120],
    [94, 60],
    [97, 30],
    [100, 15],
  ])("NIOSH allows %i dBA for %i minutes", (level, minutes) => {
    expect(permittedMinutes(level, "NIOSH")).toBeCloseTo(minutes, 9);
  });

  // OSHA 1910.95: minutes = 480 ÷ 2^((L−90)/5).
  test.each([
    [90, 480],
    [95, 240],
    [100, 120],
    [115, 15],
  ])("OSHA allows %i dBA for %i minutes", (level, minutes) => {
    expect(permittedMinutes(level, "OSHA")).toBeCloseTo(minutes, 9);
  });

  // NIOSH recommended exposure limit: dose 100·t/T.
  it("counts 47 minutes at 95 dBA as 98.69 % of a day", () => {
    expect(dosePercent(47, 95, "NIOSH")).toBeCloseTo(98.69, 2);
    expect(dosePercent(240, 88, "NIOSH")).toBeCloseTo(100, 9);
  });

  // Wrong on purpose (facts): 90 dB for 2 h and 110 dB for 2 min; truth 2 h 31 min and 1 min 29 s.
  it("rejects the two wrong NIOSH times", () => {
    const at90 = permittedMinutes(90, "NIOSH");
    expect(Math.round(at90)).toBe(151);
    expect(Math.abs(at90 - 120)).toBeGreaterThan(30);
    const at110 = permittedMinutes(110, "NIOSH");
    expect(Math.round(at110 * 60)).toBe(89);
    expect(Math.abs(at110 - 2)).toBeGreaterThan(0.5);
  });
});
