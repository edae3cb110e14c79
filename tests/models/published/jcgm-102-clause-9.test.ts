// JCGM 102:2011: the examples of 6.5.2.3 and 7.7.2, and those of 9.2 to 9.4; GUM H.2. From examples/published, or stated
// here. Results computed independently: closed forms,
// quadrature in polar co-ordinates, and for coverage factors runs of 4·10⁶ trials with another generator.
import { describe, expect, test } from "vitest";
import { readExample, runExample } from "../../read-example.ts";
import { COMMON_TERM, commonTerm, POLAR, polarCoordinates } from "./jcgm-102-tables.ts";

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

commonTerm(COMMON_TERM.slice(2));
// Both inputs to 9.3 that matter: an estimate near 0, and correlated ones.
polarCoordinates(POLAR.filter(({ id }) => id === "001" || id === "010-correlated"));

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
