// JCGM 102:2011, 9.2 and 9.3, and GUM H.2 (its 9.4), run from examples/published.
// Inputs from memory of the document (medium confidence for 9.2); results computed independently: closed forms,
// quadrature in polar co-ordinates, and for coverage factors runs of 4·10⁶ trials with another generator.
import { describe, expect, test } from "vitest";
import { runExample } from "../read-example.ts";

describe("9.2: two sums with a term in common", () => {
  test.each([
    { id: "common-term-normal", kp: 2.447746831, kq: 2.07088089519 },
    { id: "common-term-rectangular", kp: 2.272, kq: 1.794 },
  ])("$id", ({ id, kp, kq }) => {
    const { joint, measurands } = runExample(`published/${id}`);
    expect(measurands["first"]!.linear.standardUncertainty).toBeCloseTo(Math.sqrt(2), 9);
    expect(joint!.linear.correlation[0]![1]).toBeCloseTo(0.95, 9);
    // Standard error of r: (1 − r²)/√M = 1e-4.
    expect(Math.abs(joint!.monteCarlo!.correlation[0]![1]! - 0.95)).toBeLessThan(5e-4);
    expect(Math.abs(joint!.ellipsoid!.factor - kp)).toBeLessThan(0.01);
    expect(Math.abs(joint!.rectangle!.factor - kq)).toBeLessThan(0.01);
    // JCGM 102, 6.5.2 and 6.5.3: √χ²₂(0.95) = 2.4477 and the union bound 2.2414.
    expect(joint!.ellipsoid!.normalFactor).toBeCloseTo(2.44774683068, 9);
    expect(joint!.rectangle!.normalFactor).toBeCloseTo(2.2414027276, 9);
    // Cells come whole: the region holds p, and at most one cell more.
    const { grid } = joint!.pairs[0]!;
    expect(grid.held).toBeGreaterThanOrEqual(0.95);
    expect(grid.held - grid.least / 1e6).toBeLessThan(0.95);
    // 9.2: for the normal case the smallest region is the ellipse, of area π·k_p²·√det U; cells overhang its rim.
    if (id === "common-term-normal") {
      const area = Math.PI * kp * kp * Math.sqrt(4 * (1 - 0.95 * 0.95));
      expect(grid.area / area).toBeGreaterThan(0.98);
      expect(grid.area / area).toBeLessThan(1.1);
    }
  });
});

describe("9.3: polar co-ordinates", () => {
  test.each([
    { id: "001", y: [0.012564455, 0], u: [0.0065676845, 1.7441272], r: 0, kp: 2.215, kq: 1.838 },
    {
      id: "001-correlated",
      y: [0.011732805, -0.55631245],
      u: [0.0079587234, 1.598787],
      r: -0.069649972,
      kp: 2.321,
      kq: 2.14,
    },
    { id: "010", y: [0.015485725, 0], u: [0.0077583718, 1.1175468], r: 0, kp: 2.573, kq: 2.379 },
    {
      id: "010-correlated",
      y: [0.015289077, -0.34292726],
      u: [0.0081390498, 0.90308018],
      r: 0.3518774,
      kp: 2.461,
      kq: 2.112,
    },
    { id: "100", y: [0.10050127, 0], u: [0.0099747108, 0.10051266], r: 0, kp: 2.451, kq: 2.238 },
    {
      id: "100-correlated",
      y: [0.10050909, -0.008985593],
      u: [0.0098955493, 0.10240968],
      r: 0.88201699,
      kp: 2.477,
      kq: 2.158,
    },
  ])("polar-$id", ({ id, y, u, r, kp, kq }) => {
    const { joint, measurands } = runExample(`published/polar-${id}`);
    ["modulus", "phase"].forEach((name, i) => {
      const { monteCarlo } = measurands[name]!;
      expect(Math.abs(monteCarlo.estimate! - y[i]!)).toBeLessThan(5 * monteCarlo.standardErrors.estimate!);
      expect(Math.abs(monteCarlo.standardUncertainty! - u[i]!)).toBeLessThan(
        5 * monteCarlo.standardErrors.standardUncertainty!,
      );
    });
    expect(Math.abs(joint!.monteCarlo!.correlation[0]![1]! - r)).toBeLessThan(0.005);
    expect(Math.abs(joint!.ellipsoid!.factor - kp)).toBeLessThan(0.01);
    expect(Math.abs(joint!.rectangle!.factor - kq)).toBeLessThan(0.01);
  });
});

describe("JCGM 100:2008, H.2: resistance and reactance from simultaneous readings", () => {
  const { measurands, joint, remarks } = runExample("published/impedance");
  test.each([
    // Printed: 127.732 (0.071), 219.847 (0.295), 254.260 (0.236); u(X) computes to 0.2956 from the raw sets.
    { name: "resistance", y: 127.732169928, u: 0.071071407397 },
    { name: "reactance", y: 219.846511913, u: 0.295581677359 },
    { name: "impedance", y: 254.259701948, u: 0.236336130082 },
  ])("$name", ({ name, y, u }) => {
    const { linear } = measurands[name]!;
    expect(linear.estimate).toBeCloseTo(y, 8);
    expect(Math.abs(linear.standardUncertainty / u - 1)).toBeLessThan(1e-9);
  });

  test("correlations −0.588, −0.485 and 0.993 by the linear route", () => {
    const { correlation } = joint!.linear;
    expect(correlation[0]![1]).toBeCloseTo(-0.588429784424, 8);
    expect(correlation[0]![2]).toBeCloseTo(-0.48525922421, 8);
    expect(correlation[1]![2]).toBeCloseTo(0.992511648949, 8);
  });

  test("5 readings of 3 quantities leave ν = 2 (JCGM 102, 5.3.2): no covariance, but intervals", () => {
    expect(joint!.monteCarlo).toBeNull();
    expect(measurands["resistance"]!.monteCarlo.standardUncertainty).toBeNull();
    // t₂ with the scale u·√(4/2): k = t₂(0.975)·√2 = 6.085.
    const { intervals } = measurands["impedance"]!.monteCarlo;
    const half = (intervals.symmetric[1] - intervals.symmetric[0]) / 2;
    expect(half / 0.236336130082).toBeCloseTo(4.302652729911 * Math.SQRT2, 1);
    expect(remarks.join(" ")).toContain("multivariate t");
  });
});
