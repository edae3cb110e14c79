import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fromAlphaDeltaBeta,
  IEC_60751,
  ratioAt,
  resistanceAt,
  slopeAt,
  temperatureAt,
  temperatureFromRatio,
  toAlphaDeltaBeta,
} from "../../../models/platinum/callendar-van-dusen.ts";
import { resistanceRatio, temperatureOf } from "../../../models/platinum/iec60751.ts";
import reference from "../../reference/platinum.json" with { type: "json" };

const relative = (found: number, wanted: number): number => Math.abs(found - wanted) / Math.abs(wanted);

describe("Callendar–Van Dusen coefficients", () => {
  // Textbook forms (Quinn, Temperature; IEC 751:1983): both forms agree to 1e-30 in 40-digit arithmetic; the figures
  // below carry 9 to 12 digits.
  it.each(reference["cvd-conversion"].values.worked)("convert both ways and give the ratios: $name", (row) => {
    const found = fromAlphaDeltaBeta(row);
    const back = toAlphaDeltaBeta(row);
    for (const name of ["A", "B", "C"] as const) expect(relative(found[name], row[name])).toBeLessThan(1e-10);
    for (const name of ["alpha", "delta", "beta"] as const) expect(relative(back[name], row[name])).toBeLessThan(1e-10);
    for (const [t, ratio] of row.ratio_points.rows) expect(relative(ratioAt(found, t!), ratio!)).toBeLessThan(1e-10);
  });

  it("give the commonly quoted α, δ, β of IEC 60751", () => {
    const { alpha, delta, beta } = toAlphaDeltaBeta(IEC_60751);
    expect(alpha).toBeCloseTo(3.85055e-3, 12);
    expect(delta.toFixed(5)).toBe("1.49979");
    expect(beta.toFixed(5)).toBe("0.10863");
  });

  it("convert there and back", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3.8e-3, max: 3.95e-3, noNaN: true }),
        fc.double({ min: 1.4, max: 1.6, noNaN: true }),
        fc.double({ min: 0.09, max: 0.13, noNaN: true }),
        (alpha, delta, beta) => {
          const back = toAlphaDeltaBeta(fromAlphaDeltaBeta({ alpha, delta, beta }));
          // Cancellation in A + 100B costs less than a digit.
          return (
            relative(back.alpha, alpha) < 1e-14 &&
            relative(back.delta, delta) < 1e-13 &&
            relative(back.beta, beta) < 1e-13
          );
        },
      ),
      { seed: 1925, numRuns: 1000 },
    );
  });

  it("with those of IEC 60751 give the standard's own curve", () => {
    for (let t = -200; t <= 850; t += 7) {
      expect(ratioAt(IEC_60751, t)).toBe(resistanceRatio(t));
      expect(
        Math.abs(temperatureFromRatio(IEC_60751, ratioAt(IEC_60751, t)) - temperatureOf(resistanceRatio(t))),
      ).toBeLessThan(1e-11);
    }
  });

  it("close the round trip below 1e-10 °C for platinum of any purity", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3.8e-3, max: 3.95e-3, noNaN: true }),
        fc.double({ min: 1.4, max: 1.6, noNaN: true }),
        fc.double({ min: 0.09, max: 0.13, noNaN: true }),
        fc.double({ min: -200, max: 850, noNaN: true }),
        (alpha, delta, beta, t) => {
          const own = fromAlphaDeltaBeta({ alpha, delta, beta });
          return Math.abs(temperatureFromRatio(own, ratioAt(own, t)) - t) < 1e-10;
        },
      ),
      { seed: 1887, numRuns: 5000 },
    );
  });

  it("have the slope that differences give", () => {
    for (const t of [-180, -40, -1, 0, 50, 700]) {
      const h = 1e-3;
      // Central difference: error about h²·r‴/6 + 1e-16/h.
      expect(
        Math.abs((ratioAt(IEC_60751, t + h) - ratioAt(IEC_60751, t - h)) / (2 * h) - slopeAt(IEC_60751, t)),
      ).toBeLessThan(1e-12);
    }
  });

  it("refuse what is no platinum thermometer", () => {
    expect(() => fromAlphaDeltaBeta({ alpha: 0, delta: 1.5, beta: 0.1 })).toThrow(
      /alpha: got 0; expected a number greater than 0/,
    );
    expect(() => fromAlphaDeltaBeta({ alpha: 3.9e-3, delta: Number.NaN, beta: 0.1 })).toThrow(/delta: got NaN/);
    expect(() => toAlphaDeltaBeta({ A: 1e-5, B: -1e-6, C: 0 })).toThrow(/alpha/);
    expect(() => resistanceAt(IEC_60751, -1, 20)).toThrow(/R0: got -1; expected a resistance greater than 0 Ω/);
    expect(() => resistanceAt(IEC_60751, 100, 900)).toThrow(
      /t: got 900; expected a temperature from -200 °C to 850 °C/,
    );
    expect(() => temperatureAt(IEC_60751, 100, 10)).toThrow(
      /R: got 10; expected a resistance from 18.5201 Ω to 390.481 Ω/,
    );
    expect(temperatureFromRatio(IEC_60751, 5)).toBeNaN();
  });
});
