// JCGM 102:2011, 9.2 and 9.3: rows of the tables, and what each must satisfy. Results computed independently: closed
// forms, quadrature in polar co-ordinates, and for coverage factors runs of 4·10⁶ trials with another generator.
import { describe, expect, test } from "vitest";
import { runExample } from "../../read-example.ts";

const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 };
const rectangular = (u: number) => ({ distribution: "rectangular", estimate: 0, halfWidth: u * Math.sqrt(3) });

/** 9.2: two sums of N(0, 1) and a term in common; u, r, k_p and k_q as tables 3 to 5 print them. */
export const COMMON_TERM = [
  { shared: normal, u: "1.414", r: "0.500", kp: 2.45, kq: 2.21, scale: 1.85 },
  { shared: rectangular(1), u: "1.414", r: "0.500", kp: 2.38, kq: 2.15, scale: 1.85 },
  { shared: rectangular(3), u: "3.162", r: "0.900", kp: 2.28, kq: 1.87, scale: 1.6 },
];

/** 9.3: y, u, r, k_p and k_q of the six cases. */
export const POLAR = [
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
];

export function commonTerm(rows: typeof COMMON_TERM): void {
  describe("9.2: two sums with a common term", () => {
    test.each(rows)(
      "X_3 $shared.distribution: u = $u, r = $r, k_p = $kp, k_q = $kq",
      ({ shared, u, r, kp, kq, scale }) => {
        const { joint, measurands } = runExample("published/common-term-normal", {
          inputs: { own1: normal, own2: normal, shared },
        });
        expect(measurands["first"]!.linear.standardUncertainty.toFixed(3)).toBe(u);
        expect(joint!.linear.correlation[0]![1]!.toFixed(3)).toBe(r);
        // Half a printed digit, and five standard errors of 10⁶ trials (scale/√M).
        const within = 0.005 + (5 * scale) / 1000;
        expect(Math.abs(joint!.ellipsoid!.factor - kp)).toBeLessThan(within);
        expect(Math.abs(joint!.rectangle!.factor - kq)).toBeLessThan(within);
      },
    );
  });
}

export function polarCoordinates(rows: typeof POLAR): void {
  describe("9.3: polar co-ordinates", () => {
    test.each(rows)("polar-$id", ({ id, y, u, r, kp, kq }) => {
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
}
