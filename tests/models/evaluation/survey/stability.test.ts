import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  allanDeviations,
  evaluateStability,
  overlappingAllanDeviation,
  thermometerLog,
  type ThermometerLog,
} from "../../../../models/index.ts";
import figures from "../../../reference/bath.json" with { type: "json" };

const relative = (value: number, expected: number): number => Math.abs(value - expected) / Math.abs(expected);

const testData = (): number[] => {
  const values = [1234567890];
  for (let i = 1; i < 1000; i++) values.push(Number((16807n * BigInt(values[i - 1]!)) % 2147483647n));
  return values.map((value) => value / 2147483647);
};

describe("overlapping Allan deviation", () => {
  it.each(Object.entries(figures.allan.overlapping))(
    "of the 1000-point test data at τ = %s (NIST SP 1065, 12.4)",
    (averaged, expected) => {
      // Seven printed digits.
      expect(relative(overlappingAllanDeviation(testData(), Number(averaged)), expected)).toBeLessThan(3e-7);
    },
  );

  it("of white noise falls as 1/√τ", () => {
    // Rectangular white noise: σ = 1/√12. Degrees of freedom of the estimate by NIST SP 1065, 5.4.1, white FM; the
    // relative standard error of a deviation is 1/√(2·edf), and four of them are allowed.
    for (const { averaged: m, deviation } of allanDeviations(testData(), 1)) {
      const edf = ((3 * 1000) / (2 * m) - (2 * 999) / 1001) * ((4 * m * m) / (4 * m * m + 5));
      expect(relative(deviation, 1 / Math.sqrt(12 * m))).toBeLessThan(4 / Math.sqrt(2 * edf));
    }
  });

  it("of a drift of D a second is D·τ/√2, exactly", () => {
    const values = Array.from({ length: 400 }, (_, i) => 100 + 0.25 * i);
    for (const { time, deviation } of allanDeviations(values, 10)) {
      expect(relative(deviation, (0.025 * time) / Math.SQRT2)).toBeLessThan(1e-10);
    }
  });
});

/** A log of a function of time. */
const log = (
  thermometer: string,
  samples: number,
  interval: number,
  value: (time: number, i: number) => number,
): ThermometerLog => {
  const times = Array.from({ length: samples }, (_, i) => i * interval);
  return thermometerLog(thermometer, times, times.map(value));
};

describe("stability", () => {
  it("finds the worst window of a record and separates drift from fluctuation", () => {
    // Quiet for an hour, then a drift of 6 mK an hour with a square ripple of ± 0.5 mK on it.
    const record = log("A", 721, 10, (time, i) =>
      time <= 3600 ? 0 : (0.006 * (time - 3600)) / 3600 + (i % 2 === 0 ? 5e-4 : -5e-4),
    );
    const found = evaluateStability(record, { calibration: 1200 });
    expect(found.window).toBe(1800);
    expect(found.best.halfRange).toBe(0);
    // 6 mK/h through 30 min is 3 mK, and the ripple adds its 1 mK from top to bottom: half of 4 mK, less the one
    // interval by which the outermost ripples may miss the ends.
    expect(found.worst.halfRange).toBeGreaterThan(0.002 - (0.006 * 20) / 3600);
    expect(found.worst.halfRange).toBeLessThanOrEqual(0.002 + 1e-12);
    expect(found.worst.from).toBeGreaterThanOrEqual(3590);
    expect(found.worst.slope * 3600).toBeCloseTo(0.006, 4);
    expect(found.worst.fluctuation).toBeCloseTo(5e-4, 5);
    expect(found.checks.every(({ passed }) => passed)).toBe(true);
  });

  it("offers the change over the time of a drift-corrected cycle, which slow drift does not fill", () => {
    // 6 mK an hour and a ripple of ± 0.5 mK: over 5 min half of 0.5 mK and of the ripple's 1 mK, over 30 min of 3 mK and 1 mK.
    const record = log("A", 721, 10, (time, i) => (0.006 * time) / 3600 + (i % 2 === 0 ? 5e-4 : -5e-4));
    const whole = evaluateStability(record, { calibration: 1200 });
    expect(whole.cycle).toBeNull();
    expect(whole.reasoning.join(" ")).toContain("counts again what the correction removes");
    const found = evaluateStability(record, { calibration: 1200, cycle: 300 });
    expect(found.worst).toEqual(whole.worst);
    expect(found.cycle!.length).toBe(300);
    expect(found.halfWidth).toBe(found.cycle!.worst.halfRange);
    expect(found.halfWidth).toBeGreaterThan(0.00075 - (0.006 * 20) / 3600);
    expect(found.halfWidth).toBeLessThanOrEqual(0.00075 + 1e-12);
    // Drift of 0.5 mK in 5 min makes a half-span of 0.25 mK.
    expect(found.reasoning.join(" ")).toMatch(/Steady drift within the cycle, 0\.250 mK of it, .* is left in/);
    expect(() => evaluateStability(record, { calibration: 1200, cycle: 15 })).toThrow(
      /stability\.cycleMinutes: got 0\.25/,
    );
    expect(() => evaluateStability(record, { calibration: 1200, cycle: 9000 })).toThrow(/stability\.cycleMinutes/);
  });

  it("states what the monitor's noise adds: no more than σ·√(2 ln n) on average, the mean of the greatest of n normals", () => {
    // A steady bath: all of its half-span is the monitor. Uniform noise of the test data, whose extremes are milder.
    const record = thermometerLog(
      "A",
      testData().map((_, i) => i * 10),
      testData().map((value) => value * 1e-3),
    );
    const { readingNoise, noiseAdded, worst } = evaluateStability(record, { calibration: 1200 });
    expect(noiseAdded).toBeCloseTo(readingNoise! * Math.sqrt(2 * Math.log(worst.samples)), 12);
    expect(worst.halfRange).toBeLessThan(noiseAdded!);
  });

  it("property: its worst window is the worst of all windows examined one by one", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 12, maxLength: 80 }),
        fc.integer({ min: 2, max: 10 }),
        (values, width) => {
          const record = thermometerLog(
            "A",
            values.map((_, i) => i * 10),
            values,
          );
          const window = width * 10;
          const found = evaluateStability(record, { calibration: 10, window });
          let worst = 0;
          for (let i = 0; i < values.length; i++) {
            // A window may lack one interval at its end, since a sample stands for its interval.
            const part = values.filter((_, j) => j >= i && (j - i) * 10 <= window);
            if ((part.length - 1) * 10 >= window - 10)
              worst = Math.max(worst, (Math.max(...part) - Math.min(...part)) / 2);
          }
          return found.worst.halfRange === worst;
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });

  it("checks 30 min and the length of the calibration", () => {
    const record = log("A", 400, 10, (_, i) => (i % 7) * 1e-4);
    const short = evaluateStability(record, { calibration: 2400, window: 1200 });
    expect(short.checks.filter(({ passed }) => !passed).map(({ check }) => check)).toEqual([
      expect.stringContaining("at least 30 min"),
      expect.stringContaining("no shorter than the calibration"),
    ]);
    expect(evaluateStability(record, { calibration: 2400 }).window).toBe(2400);
  });

  it("refuses a window longer than the record, or than what a gap leaves of it", () => {
    const record = log("A", 100, 10, () => 1);
    expect(() => evaluateStability(record, { calibration: 600 })).toThrow(
      /stability\.A\.window: got "30 min"; expected a window no longer than the log without a gap, 16.5 min/,
    );
    const times = Array.from({ length: 300 }, (_, i) => i * 10 + (i >= 150 ? 600 : 0));
    const broken = thermometerLog(
      "A",
      times,
      times.map(() => 1),
    );
    expect(() => evaluateStability(broken, { calibration: 600 })).toThrow(/nothing between 1490 s and 2100 s/);
  });

  it("never lets a window reach over a gap", () => {
    const times = Array.from({ length: 600 }, (_, i) => i * 10 + (i >= 300 ? 900 : 0));
    const stepped = thermometerLog(
      "A",
      times,
      times.map((_, i) => (i < 300 ? 0 : 1) + (i % 2) * 1e-3),
    );
    const found = evaluateStability(stepped, { calibration: 600 });
    expect(found.worst.halfRange).toBeCloseTo(5e-4, 12);
    expect(found.checks.find(({ check }) => check === "log without gaps")?.passed).toBe(false);
  });
});
