// Worked examples of JCGM 101:2008, clause 9, run from the studies in examples/published.
//
// Besides the printed figures, closed forms and exact distribution functions were computed
// independently (see tests/reference/README.md), and the Monte Carlo figures are checked against them. Tolerances are
// five standard errors of the figure at 10⁶ trials, scale/√M, with the scale of each case stated.
import { describe, expect, test } from "vitest";
import { runExample } from "../../read-example.ts";

const M = 1_000_000;
const FIVE = 5 / Math.sqrt(M);

describe("additive model, JCGM 101:2008, 9.2", () => {
  test.each([
    // 9.2.2, table 2: u = 2.00, ±3.92, δ = 0.05, validated. Exact: N(0, 4).
    {
      id: "additive-normal",
      u: 2,
      linear: 3.919927969,
      half: 3.919927969,
      uScale: Math.SQRT2,
      endScale: 5.34,
      printed: 3.92,
      tolerance: 0.05,
      validated: true,
    },
    // 9.2.3, table 3: u = 2.00, ±3.88 = 2√3(2 − (3/5)^¼), d = 0.04, validated.
    {
      id: "additive-rectangular",
      u: 2,
      linear: 3.919927969,
      half: 3.87940674135,
      uScale: 1.31,
      endScale: 4.76,
      printed: 3.88,
      tolerance: 0.05,
      validated: true,
    },
    // 9.2.4, table 4: u = 10.1, linear ±19.9, Monte Carlo ±17.0, δ = 0.5, d = 2.8, not validated.
    {
      id: "additive-one-dominant",
      u: 10.1488915651,
      linear: 19.89146195,
      half: 17.0158140999,
      uScale: 4.75,
      endScale: 9.56,
      printed: 17.0,
      tolerance: 0.5,
      validated: false,
    },
  ])("$id", ({ id, u, linear, half, uScale, endScale, printed, tolerance, validated }) => {
    const { measurands } = runExample(`published/${id}`);
    const y = measurands["y"]!;
    expect(y.linear.estimate).toBe(0);
    expect(y.linear.standardUncertainty).toBeCloseTo(u, 9);
    expect(y.linear.effectiveDegreesOfFreedom).toBeNull();
    expect(Math.abs(y.linear.interval[1] - linear)).toBeLessThan(5e-5);
    expect(y.monteCarlo.trials).toBe(M);
    expect(Math.abs(y.monteCarlo.estimate!)).toBeLessThan(FIVE * u);
    expect(Math.abs(y.monteCarlo.standardUncertainty! - u)).toBeLessThan(FIVE * uScale);
    const [low, high] = y.monteCarlo.intervals.symmetric;
    expect(Math.abs(high - half)).toBeLessThan(FIVE * endScale);
    expect(Math.abs(low + half)).toBeLessThan(FIVE * endScale);
    // The printed figure: half of its last digit more.
    expect(Math.abs(high - printed)).toBeLessThan(FIVE * endScale + (tolerance === 0.5 ? 0.05 : 0.005));
    expect(y.validation.numericalTolerance).toBe(tolerance);
    expect(y.validation.validated).toBe(validated);
  });

  // Table 2 prints 1.23·10⁶ adaptive trials, table 3 1.02·10⁶, table 4 0.03·10⁶. Counts are random: half to twice the
  // printed ones, and 10⁴ to 1.5·10⁵ for the last, as observed over eight seeds of an independent program.
  test.each([
    { id: "additive-normal", least: 615_000, most: 2_460_000 },
    { id: "additive-rectangular", least: 510_000, most: 2_040_000 },
    { id: "additive-one-dominant", least: 20_000, most: 150_000 },
  ])("adaptive procedure (7.9.4) stops in time: $id", ({ id, least, most }) => {
    const record = runExample(`published/${id}`, { trials: "adaptive" });
    expect(record.trials.stop).toBe("settled");
    expect(record.trials.count).toBeGreaterThanOrEqual(least);
    expect(record.trials.count).toBeLessThanOrEqual(most);
    const { settling } = record.measurands["y"]!.monteCarlo;
    for (const doubled of Object.values(settling.doubled)) expect(doubled!).toBeLessThanOrEqual(settling.limit);
  });
});

describe("mass calibration, JCGM 101:2008, 9.3, tables 5 and 6", () => {
  const { measurands } = runExample("published/mass-calibration");
  const { linear, monteCarlo, validation } = measurands["deviation"]!;

  test("linear budget: 1.2340 mg, u = 0.0539 mg, [1.1285, 1.3395] mg", () => {
    expect(linear.estimate).toBeCloseTo(1.234, 10);
    expect(linear.standardUncertainty).toBeCloseTo(0.0538516480713, 10);
    expect(linear.interval[0]).toBeCloseTo(1.12845270927, 8);
    expect(linear.interval[1]).toBeCloseTo(1.33954729073, 8);
    expect(linear.interval.map((end) => end.toFixed(4))).toEqual(["1.1285", "1.3395"]);
  });

  test("first-order sensitivities to the three densities vanish at the estimates", () => {
    for (const input of ["airDensity", "weightDensity", "referenceDensity"]) {
      const row = linear.contributions.find((part) => part.input === input)!;
      expect(Math.abs(row.contribution)).toBeLessThan(1e-9);
    }
  });

  test("Monte Carlo: 1.2341 mg, u = 0.0754 mg, shortest [1.0834, 1.3825] mg", () => {
    // Exact by quadrature: u = 0.0754797, endpoints 1.0844333 and 1.3835667 (symmetric, so shortest is the same).
    expect(Math.abs(monteCarlo.estimate! - 1.234)).toBeLessThan(FIVE * 0.0755);
    expect(Math.abs(monteCarlo.standardUncertainty! - 0.0754797399554)).toBeLessThan(FIVE * 0.06);
    const [low, high] = monteCarlo.intervals.symmetric;
    expect(Math.abs(low - 1.08443325975)).toBeLessThan(FIVE * 0.211);
    expect(Math.abs(high - 1.38356674026)).toBeLessThan(FIVE * 0.211);
    // The position of a shortest interval is noisy (about M^(−1/3)), its width is not; printed endpoints need 0.0015 of room
    // for the document's own single run besides.
    const [shortLow, shortHigh] = monteCarlo.intervals.shortest;
    expect(Math.abs(shortHigh - shortLow - 0.29913348)).toBeLessThan(2 * FIVE * 0.211);
    expect(Math.abs(shortLow - 1.0834)).toBeLessThan(0.0015 + 0.003);
    expect(Math.abs(shortHigh - 1.3825)).toBeLessThan(0.0015 + 0.003);
  });

  test("not validated to one digit: δ = 0.005 mg, d = 0.0451 and 0.0430 mg", () => {
    expect(validation.significantDigits).toBe(1);
    expect(validation.numericalTolerance).toBe(0.005);
    expect(validation.validated).toBe(false);
    // Exact: both 0.04402; the printed pair is one run with a noisy position.
    expect(Math.abs((validation.dLow + validation.dHigh) / 2 - 0.04402)).toBeLessThan(FIVE * 0.211);
  });
});
