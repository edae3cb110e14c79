import { describe, expect, it } from "vitest";
import { IEC_60751, ratioAt, resistanceAt, temperatureFrom } from "../../../models/platinum/callendar-van-dusen.ts";
import { fitCoefficients, jointCovariance, type ComparisonPoint } from "../../../models/platinum/fit.ts";
import { ratioSlope } from "../../../models/platinum/iec60751.ts";
import { interpolatedTemperature } from "../../../models/platinum/interpolation.ts";
import { leastSquares } from "../../../models/platinum/least-squares.ts";
import { Refit } from "../../../models/platinum/refit.ts";
import computed from "../../reference/platinum-computed.json" with { type: "json" };

const { fit } = computed;
const points: ComparisonPoint[] = fit.t.map((temperature, i) => ({ temperature, resistance: fit.R[i]! }));
const relative = (found: number, wanted: number): number => Math.abs(found - wanted) / Math.abs(wanted);
const values = ({ R0, coefficients: { A, B, C } }: ReturnType<typeof fitCoefficients>): number[] => [R0, A, B, C];

const cubic = (t: number): number => (t < 0 ? (t - 100) * t ** 3 : 0);
const pointsAt = (...ts: number[]): ComparisonPoint[] =>
  ts.map((temperature) => ({ temperature, resistance: resistanceAt(IEC_60751, 100, temperature) }));

describe("fit of R₀, A, B, C to correlated points", () => {
  // platinum.py: generalised least squares by normal equations in 50-digit arithmetic. QR here; the columns' condition
  // (about 1e3 after scaling) times that of the covariance costs some five digits of B and C.
  it.each([
    ["R0,A,B,C", undefined, 4],
    ["R0,A,B", false, 3],
  ] as const)("%s as in 50-digit arithmetic", (name, fitC, count) => {
    const expected = fit[name];
    const found = fitCoefficients(points, { covariance: fit.V, fitC });
    expect(found.names).toHaveLength(count);
    values(found)
      .slice(0, count)
      .forEach((value, k) => expect(relative(value, expected.coefficients[k]!)).toBeLessThan(1e-8));
    found.covariance!.forEach((row, j) =>
      row.forEach((value, k) => expect(relative(value, expected.covariance[j]![k]!)).toBeLessThan(1e-8)),
    );
    found.residuals.forEach((value, i) => expect(Math.abs(value - expected.residuals[i]!)).toBeLessThan(1e-11));
    expect(relative(found.chiSquare, expected.chiSquare)).toBeLessThan(1e-6);
    expect(found.degreesOfFreedom).toBe(5 - count);
    expect(found.leverage.reduce((sum, h) => sum + h, 0)).toBeCloseTo(count, 9);
    if (fitC === false) expect(found.coefficients.C).toBe(IEC_60751.C);
  });

  it("reports the probability of a worse χ²", () => {
    const found = fitCoefficients(points, { covariance: fit.V, fitC: false });
    // ν = 2: P(χ² ≥ x) = exp(−x/2), a textbook identity.
    expect(found.probability).toBeCloseTo(Math.exp(-found.chiSquare / 2), 12);
    expect(
      fitCoefficients(points.slice(0, 4), { covariance: fit.V.slice(0, 4).map((row) => row.slice(0, 4)) }).probability,
    ).toBeNull();
  });

  it("finds what the points were made with", () => {
    const own = { A: 3.9795e-3, B: -5.85e-7, C: -4.3e-12 };
    const exact = [-190, -80, -38.8, 0.01, 29.8, 156.6, 419.5].map((temperature) => ({
      temperature,
      resistance: resistanceAt(own, 25.5, temperature),
    }));
    const found = fitCoefficients(exact);
    [25.5, own.A, own.B, own.C].forEach((value, k) => expect(relative(values(found)[k]!, value)).toBeLessThan(1e-10));
    found.residualsInCelsius.forEach((r) => expect(Math.abs(r)).toBeLessThan(1e-11));
    found.correlation.forEach((row, k) => expect(row[k]).toBeCloseTo(1, 12));
  });

  // JCGM 100, H.3.2 and H.3.3: s² = Σr²/(n − p) stands in each variance if no uncertainty of the points is stated.
  it("scales the covariance by s² with n − p if none is given for the points", () => {
    const scattered = [0.01, 30, 72, 100, 134, 200].map((temperature, i) => ({
      temperature,
      resistance: resistanceAt(IEC_60751, 100, temperature) + [1, -2, 3, -1, -2, 1][i]! * 1e-4,
    }));
    const found = fitCoefficients(scattered);
    const s = Math.sqrt(found.residuals.reduce((sum, r) => sum + r * r, 0) / 3);
    expect(found.residualDeviation).toBeCloseTo(s, 12);
    expect(found.probability).toBeNull();
    const stated = fitCoefficients(scattered, {
      covariance: scattered.map((_, i) => scattered.map((__, j) => (i === j ? s * s : 0))),
    });
    found.covariance!.forEach((row, j) =>
      row.forEach((value, k) => expect(relative(value, stated.covariance![j]![k]!)).toBeLessThan(1e-9)),
    );
    // Half a milliohm or half an ohm of scatter: the uncertainty follows, and any common weight leaves it.
    const weighted = fitCoefficients(scattered, { weights: scattered.map(() => 4e6) });
    expect(relative(weighted.covariance![0]![0]!, found.covariance![0]![0]!)).toBeLessThan(1e-9);
    const none = fitCoefficients(scattered.slice(0, 3));
    expect(none).toMatchObject({ covariance: null, residualDeviation: null });
    expect(() => interpolatedTemperature(none, 120)).toThrow(/fit\.covariance: got "none"/);
  });

  it("leaves C alone if no point is below 0 °C", () => {
    const exact = [0.01, 72, 134, 200].map((temperature) => ({
      temperature,
      resistance: resistanceAt(IEC_60751, 100, temperature),
    }));
    expect(fitCoefficients(exact).names).toEqual(["R0", "A", "B"]);
  });
});

describe("joint covariance of points", () => {
  it("joins common effects and keeps the others apart (JCGM 100, 5.2.2)", () => {
    const pair: ComparisonPoint[] = [-40, 134].map((temperature) => ({
      temperature,
      resistance: 2 * 100 * ratioAt(IEC_60751, temperature),
    }));
    const slopes = [-40, 134].map((t) => 200 * ratioSlope(t));
    const V = jointCovariance(pair, [
      { unit: "°C", standardUncertainty: [0.004, 0.006], common: true },
      { unit: "Ω", standardUncertainty: 0.001, common: false },
      { unit: "1", standardUncertainty: 2e-6, common: true },
    ]);
    const [r1, r2] = pair.map((p) => p.resistance) as [number, number];
    expect(V[0]![1]).toBeCloseTo(slopes[0]! * 0.004 * slopes[1]! * 0.006 + r1 * r2 * 4e-12, 15);
    expect(V[0]![0]).toBeCloseTo((slopes[0]! * 0.004) ** 2 + 1e-6 + (r1 * 2e-6) ** 2, 15);
    expect(V[1]![1]).toBeCloseTo((slopes[1]! * 0.006) ** 2 + 1e-6 + (r2 * 2e-6) ** 2, 15);
    expect(V[1]![0]).toBe(V[0]![1]);
  });

  it("refuses an uncertainty that is missing or negative", () => {
    expect(() => jointCovariance(points, [{ unit: "°C", standardUncertainty: [0.01], common: true }])).toThrow(
      /effects.0.standardUncertainty: got nothing; expected a standard uncertainty in °C for each of the 5 points/,
    );
    expect(() => jointCovariance(points, [{ unit: "Ω", standardUncertainty: -1, common: false }])).toThrow(
      /effects.0.standardUncertainty: got -1/,
    );
  });
});

/** Normal deviates for tests: mulberry32 and Box–Muller, fixed seed. */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let z = Math.imul(state ^ (state >>> 15), state | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return (((z ^ (z >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

describe("covariance of the fit against refitted draws", () => {
  const TRIALS = 40_000;
  const temperatures = [-40, 0.01, 4, 72, 134];
  const exact = temperatures.map((temperature) => ({
    temperature,
    resistance: resistanceAt(IEC_60751, 100, temperature),
  }));
  const V = jointCovariance(exact, [
    { unit: "°C", standardUncertainty: [0.004, 0.003, 0.003, 0.004, 0.006], common: true },
    { unit: "°C", standardUncertainty: [0.003, 0.001, 0.001, 0.002, 0.004], common: false },
    { unit: "1", standardUncertainty: 5e-6, common: true },
  ]);

  it.each([
    ["R0, A, B, C", null],
    ["R0, A, B", IEC_60751.C],
  ] as const)("%s, and t in use", (_, heldC) => {
    const weights = temperatures.map(() => 1);
    const found = fitCoefficients(exact, { covariance: V, weights, fitC: heldC === null });
    const p = found.names.length;
    const refit = new Refit(5, heldC, weights);
    const draw = normals(4);
    const inUse = resistanceAt(IEC_60751, 100, 100);
    const sums = Array.from({ length: p + 1 }, () => 0);
    const products = sums.map(() => sums.map(() => 0));
    const centre = [...values(found).slice(0, p), 100];
    for (let trial = 0; trial < TRIALS; trial++) {
      const reference = draw();
      const gain = 1 + 5e-6 * draw();
      exact.forEach(({ temperature, resistance }, i) => {
        refit.temperatures[i] =
          temperature +
          [0.004, 0.003, 0.003, 0.004, 0.006][i]! * reference +
          [0.003, 0.001, 0.001, 0.002, 0.004][i]! * draw();
        refit.resistances[i] = resistance * gain;
      });
      expect(refit.solve()).toBe(true);
      const [R0, a, b, c] = refit.parameters as unknown as [number, number, number, number?];
      const own = [R0, a / R0, b / R0, ...(heldC === null ? [c! / R0] : [])];
      own.push(temperatureFrom((inUse - R0) / R0, own[1]!, own[2]!, own[3] ?? IEC_60751.C));
      own.forEach((v, j) => {
        sums[j]! += v - centre[j]!;
        own.forEach((w, k) => (products[j]![k]! += (v - centre[j]!) * (w - centre[k]!)));
      });
    }
    // s.e. of a sample covariance of normals: σ_jσ_k·√((1 + ρ²)/n); 5 of them. Curvature of the fit is 1e-4 of this.
    const covariance = (j: number, k: number): number =>
      (products[j]![k]! - (sums[j]! * sums[k]!) / TRIALS) / (TRIALS - 1);
    for (let j = 0; j < p; j++) {
      for (let k = 0; k < p; k++) {
        const expected = found.covariance![j]![k]!;
        const scale = Math.sqrt(found.covariance![j]![j]! * found.covariance![k]![k]!);
        const error = Math.sqrt((1 + (expected / scale) ** 2) / TRIALS);
        expect(Math.abs(covariance(j, k) - expected) / scale).toBeLessThan(5 * error);
      }
    }
    const t = interpolatedTemperature(found, inUse);
    expect(t.temperature).toBeCloseTo(100, 9);
    // s.e. of a standard deviation: 1/√(2n).
    expect(Math.abs(Math.sqrt(covariance(p, p)) / t.fromCoefficients - 1)).toBeLessThan(5 / Math.sqrt(2 * TRIALS));
  });
});

describe("the fit of the inner loop", () => {
  it.each([
    ["with C", null],
    ["C held", IEC_60751.C],
  ] as const)("is least squares by the library, %s", (_, heldC) => {
    const weights = [1, 2, 3, 2, 1];
    const refit = new Refit(5, heldC, weights);
    refit.temperatures.set(fit.t);
    refit.resistances.set(fit.R);
    expect(refit.solve()).toBe(true);
    const design = fit.t.map((t) => (heldC === null ? [1, t, t * t, cubic(t)] : [1 + heldC * cubic(t), t, t * t]));
    const found = leastSquares(design, fit.R, { weights });
    found.parameters.forEach((value, k) => expect(relative(refit.parameters[k]!, value)).toBeLessThan(1e-9));
  });

  it("states when points do not determine the coefficients", () => {
    const refit = new Refit(3, IEC_60751.C, [1, 1, 1]);
    refit.temperatures.set([0, 0, 0]);
    refit.resistances.set([100, 100, 100]);
    expect(refit.solve()).toBe(false);
    refit.temperatures.set([0, 50, 100]);
    refit.resistances.set([-100, -119, -138]);
    expect(refit.solve()).toBe(false);
  });
});

describe("interpolated temperature", () => {
  const found = fitCoefficients(points, { covariance: fit.V });

  it.each([-39, -10, 0, 50, 121])("has the sensitivities that differences give, at %d °C", (t) => {
    const R = found.R0 * ratioAt(found.coefficients, t);
    const { sensitivities, temperature } = interpolatedTemperature(found, R);
    expect(temperature).toBeCloseTo(t, 9);
    const at = (p: readonly number[]): number => temperatureFrom((R - p[0]!) / p[0]!, p[1]!, p[2]!, p[3]!);
    const centre = values(found);
    sensitivities.forEach((c, k) => {
      const h = centre[k]! * 1e-5;
      const shifted = (sign: number): number => at(centre.map((v, j) => (j === k ? v + sign * h : v)));
      // Central difference over 1e-5 of the coefficient: curvature 1e-10 relative, rounding 1e-14 °C over the step.
      expect(Math.abs((shifted(1) - shifted(-1)) / (2 * h) - c)).toBeLessThan(1e-6 * Math.abs(c) + 1e-13 / Math.abs(h));
    });
  });

  it("adds the uncertainty of the resistance in use", () => {
    const t = interpolatedTemperature(found, 127.8, 0.004);
    expect(t.fromResistance).toBeCloseTo(
      0.004 / (found.R0 * (found.coefficients.A + 2 * found.coefficients.B * t.temperature)),
      12,
    );
    expect(t.standardUncertainty).toBeCloseTo(Math.hypot(t.fromCoefficients, t.fromResistance), 15);
    expect(() => interpolatedTemperature(found, 127.8, -1)).toThrow(/resistanceUncertainty: got -1/);
    expect(() => interpolatedTemperature(found, 5)).toThrow(/R: got 5/);
  });
});

describe("bad points", () => {
  it.each([
    [() => fitCoefficients(pointsAt(0, 50)), /points: got 2; expected at least 3 points for R0, A, B/],
    [() => fitCoefficients(pointsAt(-40, 0, 50)), /points: got 3; expected at least 4 points for R0, A, B, C/],
    [() => fitCoefficients(pointsAt(72, 72, 72, 72)), /expected points that determine all 3 coefficients/],
    [() => fitCoefficients(pointsAt(4, 4, 72, 72, 72)), /expected points that determine all 3 coefficients/],
    [
      () => fitCoefficients(pointsAt(0, 50, 100, 150), { fitC: true }),
      /points: got "none below 0 °C"; expected a point below 0 °C, which C needs/,
    ],
    [
      () => fitCoefficients([...pointsAt(0, 50), { temperature: 900, resistance: 400 }]),
      /points.2.temperature: got 900; expected a temperature from -200 °C to 850 °C/,
    ],
    [
      () => fitCoefficients([...pointsAt(0, 50), { temperature: 100, resistance: -5 }]),
      /points.2.resistance: got -5; expected a resistance greater than 0 Ω/,
    ],
  ])("%#", (call, message) => expect(call).toThrow(message));
});
