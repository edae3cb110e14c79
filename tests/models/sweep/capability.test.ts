// The envelope of a capability: never below a point, rounded up to two digits, and no line that claims less.
import { describe, expect, test } from "vitest";
import { envelopeAt, lineAbove, roundedUp, stepAbove } from "../../../models/index.ts";

/** A generator of its own, so that the points do not come from the code under test (Lehmer, Park and Miller 1988). */
function lehmer(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

const SETS = Array.from({ length: 300 }, (_, i) => i + 1);

describe("property: over 300 random sets of points", () => {
  const pointsOf = (seed: number): readonly (readonly [number, number])[] => {
    const random = lehmer(seed * 7919);
    const size = 10 ** -(1 + Math.floor(5 * random()));
    const tilt = size * (random() - 0.5) * 0.02;
    return Array.from({ length: 1 + Math.floor(12 * random()) }, (__, i) => {
      const at = -80 + 30 * i + 10 * random();
      return [at, size * (1 + random()) + Math.max(0, tilt * at)] as const;
    });
  };

  test.each(["line", "step"] as const)("the %s lies below no point, at what is printed of it", (kind) => {
    for (const seed of SETS) {
      const points = pointsOf(seed);
      const envelope = kind === "line" ? lineAbove(points) : stepAbove(points);
      for (const [at, U] of points) expect(envelopeAt(envelope, at)).toBeGreaterThanOrEqual(U);
      expect(envelope.constant).toBe(Number(envelope.constant.toFixed(envelope.places[0])));
      expect(envelope.slope).toBe(Number(envelope.slope.toFixed(Math.max(0, envelope.places[1]))));
    }
  });

  test("the step is at most one unit of its second digit above the largest point", () => {
    for (const seed of SETS) {
      const points = pointsOf(seed);
      const most = Math.max(...points.map(([, U]) => U));
      const { constant, places } = stepAbove(points);
      expect(constant - most).toBeLessThan(10 ** -places[0]);
    }
  });

  test("the line claims no more over the points than the step, but for its rounding", () => {
    for (const seed of SETS) {
      const points = pointsOf(seed);
      const [line, step] = [lineAbove(points), stepAbove(points)];
      const sum = (of: typeof line): number => points.reduce((all, [at]) => all + envelopeAt(of, at), 0);
      // One unit of the line's constant and a tenth for its slope, at each point.
      expect(sum(line) - sum(step)).toBeLessThan(points.length * 1.2 * 10 ** -line.places[0]);
    }
  });
});

test("points on a straight line have that line", () => {
  const { constant, slope } = lineAbove([0, 50, 100].map((t) => [t, 0.004 + 2e-5 * t] as const));
  expect(slope).toBeCloseTo(2e-5, 12);
  expect(constant).toBeCloseTo(0.004, 12);
});

test.each([
  [0.0131, 3, 0.014],
  [0.014, 3, 0.014],
  [0.0140000001, 3, 0.015],
  [123, -1, 130],
])("%d rounded up at %d places is %d", (value, places, rounded) => {
  expect(roundedUp(value, places)).toBe(rounded);
});
