import { CholeskyDecomposition, inverse, Matrix, pseudoInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../../models/platinum/least-squares.ts";
import reference from "../../reference/platinum.json" with { type: "json" };

const relative = (found: number, wanted: number): number => Math.abs(found - wanted) / Math.abs(wanted);
const powers = (x: number, degree: number): number[] => Array.from({ length: degree + 1 }, (_, k) => x ** k);
const deviations = ({ covariance, chiSquare, degreesOfFreedom }: ReturnType<typeof leastSquares>): number[] =>
  covariance.map((row, k) => Math.sqrt((row[k]! * chiSquare) / degreesOfFreedom));

/** Tolerances are those each data set's notes allow a QR in double precision. */
describe("NIST Statistical Reference Datasets, linear regression (NIST/ITL StRD)", () => {
  it("Norris: straight line, 36 points", () => {
    const { inputs, results } = reference["strd-norris"];
    const found = leastSquares(
      inputs.x.map((x) => [1, x]),
      inputs.y,
    );
    const { B, sd, residual_sd: residualDeviation, df } = results.published;
    found.parameters.forEach((value, k) => expect(relative(value, B[k]!)).toBeLessThan(1e-11));
    deviations(found).forEach((value, k) => expect(relative(value, sd[k]!)).toBeLessThan(1e-12));
    expect(relative(Math.sqrt(found.chiSquare / df), residualDeviation)).toBeLessThan(1e-12);
    expect(found.degreesOfFreedom).toBe(df);
  });

  const x = Array.from({ length: 21 }, (_, i) => i);
  const design = x.map((value) => powers(value, 5));

  it("Wampler1 and Wampler2: polynomials of degree 5 without residuals", () => {
    const first = leastSquares(
      design,
      x.map((v) => 1 + v + v ** 2 + v ** 3 + v ** 4 + v ** 5),
    );
    first.parameters.forEach((value) => expect(Math.abs(value - 1)).toBeLessThan(1e-8));
    const second = leastSquares(
      design,
      x.map((v) => 1 + v / 10 + v ** 2 / 100 + v ** 3 / 1e3 + v ** 4 / 1e4 + v ** 5 / 1e5),
    );
    second.parameters.forEach((value, k) =>
      expect(Math.abs(value - [1, 0.1, 0.01, 1e-3, 1e-4, 1e-5][k]!)).toBeLessThan(1e-11),
    );
  });

  it.each(["strd-wampler4", "strd-wampler5"] as const)("%s: degree 5 under large residuals", (id) => {
    const { inputs, results } = reference[id];
    const found = leastSquares(design, inputs.y);
    const tolerance = id === "strd-wampler4" ? 1e-7 : 1e-5;
    found.parameters.forEach((value) => expect(Math.abs(value - 1)).toBeLessThan(tolerance));
    deviations(found).forEach((value, k) => expect(relative(value, results.published.sd[k]!)).toBeLessThan(1e-10));
  });

  it("Filip: degree 10, where normal equations fail outright", () => {
    const { inputs, results } = reference["strd-filip"];
    const found = leastSquares(
      inputs.x.map((v) => powers(v, 10)),
      inputs.y,
    );
    found.parameters.forEach((value, k) => expect(relative(value, results.published.B[k]!)).toBeLessThan(1e-6));
    deviations(found).forEach((value, k) => expect(relative(value, results.published.sd[k]!)).toBeLessThan(1e-6));
  });
});

describe("correlated observations", () => {
  const t = [-40, 0, 4, 72, 134];
  const design = t.map((v) => [1, v, v * v]);
  const y = [84.27, 100.02, 101.58, 127.86, 151.35];
  const V = t.map((_, i) => t.map((__, j) => 4e-6 + (i === j ? (1 + i) * 1e-6 : 0)));

  it("are the same as normal equations with the inverse covariance", () => {
    const X = new Matrix(design);
    const W = inverse(new Matrix(V));
    const N = X.transpose().mmul(W).mmul(X);
    const expected = inverse(N).mmul(X.transpose()).mmul(W).mmul(Matrix.columnVector(y));
    const found = leastSquares(design, y, { covariance: V });
    // Normal equations square the condition number (about 2e4 here): 1e-16 × 4e8.
    found.parameters.forEach((value, k) => expect(relative(value, expected.get(k, 0))).toBeLessThan(1e-7));
    found.covariance.forEach((row, j) =>
      row.forEach((value, k) => expect(relative(value, inverse(N).get(j, k))).toBeLessThan(1e-7)),
    );
    const r = Matrix.columnVector([...found.residuals]);
    expect(relative(found.chiSquare, r.transpose().mmul(W).mmul(r).get(0, 0))).toBeLessThan(1e-6);
  });

  it("have leverages that add up to the number of parameters", () => {
    const found = leastSquares(design, y, { covariance: V });
    expect(found.leverage.reduce((sum, h) => sum + h, 0)).toBeCloseTo(3, 10);
    // Without correlation they are the diagonal of the hat matrix X·X⁺, here from a singular value decomposition.
    const X = new Matrix(design);
    const hat = X.mmul(pseudoInverse(X)).diagonal();
    leastSquares(design, y).leverage.forEach((h, i) => expect(h).toBeCloseTo(hat[i]!, 9));
  });

  it("fitted with other weights still carry the true covariance", () => {
    // G = (XᵀWX)⁻¹XᵀW; covariance GVGᵀ (JCGM 102:2011, 6.2.1).
    const weights = [1, 2, 3, 2, 1];
    const X = new Matrix(design);
    const W = Matrix.diag(weights);
    const G = inverse(X.transpose().mmul(W).mmul(X)).mmul(X.transpose()).mmul(W);
    const expected = G.mmul(new Matrix(V)).mmul(G.transpose());
    const found = leastSquares(design, y, { covariance: V, weights });
    found.covariance.forEach((row, j) =>
      row.forEach((value, k) => expect(relative(value, expected.get(j, k))).toBeLessThan(1e-7)),
    );
    expect(
      relative(
        found.chiSquare,
        found.residuals.reduce((sum, r, i) => sum + weights[i]! * r * r, 0),
      ),
    ).toBeLessThan(1e-12);
  });

  it("need a covariance that is one", () => {
    expect(new CholeskyDecomposition(new Matrix(V)).isPositiveDefinite()).toBe(true);
    const flat = t.map(() => t.map(() => 1e-6));
    expect(() => leastSquares(design, y, { covariance: flat })).toThrow(/covariance: .*positive definite/);
    expect(() =>
      leastSquares(design, y, {
        covariance: [
          [1, 0],
          [0, 1],
        ],
      }),
    ).toThrow(/covariance: got "2 rows"; expected a 5 × 5 matrix/);
    expect(() =>
      leastSquares(design, y, { covariance: V.map((row, i) => row.map((v, j) => (i === 0 && j === 1 ? v * 2 : v))) }),
    ).toThrow(/symmetric/);
    expect(() => leastSquares(design, y, { weights: [1, 1, 1, 0, 1] })).toThrow(
      /weights.3: got 0; expected a number greater than 0/,
    );
    expect(() => leastSquares(design, y, { weights: [1] })).toThrow(/weights: got 1; expected 5 weights/);
    expect(() => leastSquares(design.slice(0, 2), y.slice(0, 2))).toThrow(
      /points: got 2; expected at least 3 points for 3 coefficients/,
    );
    expect(() =>
      leastSquares(
        design.map(() => [1, 20, 400]),
        y,
      ),
    ).toThrow(/points that determine all 3 coefficients/);
    expect(() => leastSquares([], y)).toThrow(/design/);
  });
});
