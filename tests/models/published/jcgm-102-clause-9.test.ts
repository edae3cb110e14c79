// JCGM 102:2011: the examples of 6.5.2.3 and 7.7.2, and those of 9.2 to 9.4; GUM H.2. From examples/published, or stated
// here. Results computed independently: closed forms,
// quadrature in polar co-ordinates, and for coverage factors runs of 4·10⁶ trials with another generator.
import { describe, expect, test } from "vitest";
import { readExample, runExample } from "../../read-example.ts";

describe("6.5.2.3, example 2, and 7.7.2: two sums with a common term", () => {
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
    // Only whole cells count: the region contains p, and at most one cell more.
    const { grid } = joint!.pairs[0]!;
    expect(grid.held).toBeGreaterThanOrEqual(0.95);
    expect(grid.held - grid.least / 1e6).toBeLessThan(0.95);
    // 7.7.4: for the normal case the smallest region is the ellipse, of area π·k_p²·√det U; cells overhang its rim.
    if (id === "common-term-normal") {
      const area = Math.PI * kp * kp * Math.sqrt(4 * (1 - 0.95 * 0.95));
      expect(grid.area / area).toBeGreaterThan(0.98);
      expect(grid.area / area).toBeLessThan(1.1);
    }
  });
});

/** 9.2: two sums of N(0, 1) and a term in common; u, r, k_p and k_q as tables 3 to 5 print them. */
describe("9.2: two sums with a common term", () => {
  const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 };
  const rectangular = (u: number) => ({ distribution: "rectangular", estimate: 0, halfWidth: u * Math.sqrt(3) });
  test.each([
    { shared: normal, u: "1.414", r: "0.500", kp: 2.45, kq: 2.21, scale: 1.85 },
    { shared: rectangular(1), u: "1.414", r: "0.500", kp: 2.38, kq: 2.15, scale: 1.85 },
    { shared: rectangular(3), u: "3.162", r: "0.900", kp: 2.28, kq: 1.87, scale: 1.6 },
  ])("X_3 $shared.distribution: u = $u, r = $r, k_p = $kp, k_q = $kq", ({ shared, u, r, kp, kq, scale }) => {
    const { joint, measurands } = runExample("published/common-term-normal", {
      inputs: { own1: normal, own2: normal, shared },
    });
    expect(measurands["first"]!.linear.standardUncertainty.toFixed(3)).toBe(u);
    expect(joint!.linear.correlation[0]![1]!.toFixed(3)).toBe(r);
    // Half a printed digit, and five standard errors of 10⁶ trials (scale/√M).
    const within = 0.005 + (5 * scale) / 1000;
    expect(Math.abs(joint!.ellipsoid!.factor - kp)).toBeLessThan(within);
    expect(Math.abs(joint!.rectangle!.factor - kq)).toBeLessThan(within);
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

// 9.4 adds a sixth set to the five of GUM H.2, which leaves ν = 3; table 11: u by the linear route 0.058, 0.241, 0.193 Ω;
// standard deviations of the t by 5.3.2, u·√(5/(6 − 3 − 2)), 0.130, 0.540, 0.431 Ω, of which the intervals are.
test("9.4: six sets of readings", () => {
  const five = readExample("published/impedance") as unknown as {
    inputs: Record<string, { distribution: string; values: number[] }>;
  };
  const sixth: Record<string, number> = { voltage: 4.999, current: 0.019661, phase: 1.0445 };
  const inputs = Object.fromEntries(
    Object.entries(five.inputs).map(([name, stated]) => [
      name,
      { ...stated, values: [...stated.values, sixth[name]!] },
    ]),
  );
  const { measurands } = runExample("published/impedance", { inputs });
  const rows = { resistance: ["0.058", 0.13], reactance: ["0.241", 0.54], impedance: ["0.193", 0.431] } as const;
  for (const [name, [u, deviation]] of Object.entries(rows)) {
    const { linear, monteCarlo } = measurands[name]!;
    expect(linear.standardUncertainty.toFixed(3)).toBe(u);
    // t₃(0.975) = 3.182446; a t with ν = 3 has the scale of its standard deviation over √3.
    const [low, high] = monteCarlo.intervals.symmetric;
    const half = (3.182446 * deviation) / Math.sqrt(3);
    const rounding = (3.182446 * 0.0005) / Math.sqrt(3);
    expect(Math.abs((high - low) / 2 - half)).toBeLessThan(
      rounding + 5 * Math.max(...monteCarlo.standardErrors.symmetric),
    );
  }
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
