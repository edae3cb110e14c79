import * as z from "zod";
import { refuse } from "../errors.ts";
import { guideTable } from "../random/guide-table.ts";
import { checkEqualLengths, leastNotBelow } from "./discrete.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { inUnit, perUnit } from "./field-unit.ts";

/** Greatest difference from 1 of the integral of a density read from a picture; it is then normalised. */
const INTEGRAL_TOLERANCE = 0.01;

/**
 * A density that is linear between given points and 0 outside them. It need not be continuous at its first and last
 * point.
 *
 * @param xs strictly rising
 * @param heights densities up to a common factor: not negative, not all 0
 */
export function piecewiseLinearDensity(xs: readonly number[], heights: readonly number[]): Distribution {
  const n = xs.length;
  const x = Float64Array.from(xs);
  const area = trapezia(xs, heights);
  const f = Float64Array.from(heights, (height) => height / area);
  /** P(X ≤ x[i]) */
  const cumulative = new Float64Array(n);
  let reached = 0;
  for (let i = 1; i < n; i++) cumulative[i] = reached += ((x[i]! - x[i - 1]!) * (f[i]! + f[i - 1]!)) / 2;
  for (let i = 1; i < n; i++) cumulative[i] = i === n - 1 ? 1 : cumulative[i]! / reached;
  const segmentEnds = cumulative.subarray(1);
  const place = guideTable(segmentEnds);
  /** The position within segment i (from x[i] to x[i + 1]) below which the total probability is p. */
  const within = (i: number, p: number): number => {
    const width = x[i + 1]! - x[i]!;
    const slope = (f[i + 1]! - f[i]!) / width;
    const left = p - cumulative[i]!;
    const right = cumulative[i + 1]! - p;
    // From the nearer end; this form of the quadratic's root has no cancellation.
    return left <= right
      ? x[i]! + lengthFrom(f[i]!, slope, left, width)
      : x[i + 1]! - lengthFrom(f[i + 1]!, -slope, right, width);
  };
  const { mean, standardDeviation } = moments(x, f);
  return {
    mean,
    standardDeviation,
    support: [x[0]!, x[n - 1]!],
    density(at) {
      if (at < x[0]! || at > x[n - 1]!) return 0;
      const i = Math.max(1, leastNotBelow(x, at));
      return f[i - 1]! + ((f[i]! - f[i - 1]!) * (at - x[i - 1]!)) / (x[i]! - x[i - 1]!);
    },
    distributionFunction(at) {
      if (at <= x[0]!) return 0;
      if (at >= x[n - 1]!) return 1;
      const i = leastNotBelow(x, at) - 1;
      const width = x[i + 1]! - x[i]!;
      const slope = (f[i + 1]! - f[i]!) / width;
      const left = at - x[i]!;
      const right = x[i + 1]! - at;
      return left <= right
        ? cumulative[i]! + left * (f[i]! + (slope * left) / 2)
        : cumulative[i + 1]! - right * (f[i + 1]! - (slope * right) / 2);
    },
    quantile(p) {
      if (p <= 0) return x[0]!;
      return within(leastNotBelow(segmentEnds, p), p);
    },
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = within(place(out[i]!), out[i]!);
    },
  };
}

/** Length over which a density that starts at `height` with this slope gathers `probability`, at most `width`. */
function lengthFrom(height: number, slope: number, probability: number, width: number): number {
  if (probability <= 0) return 0;
  const root = Math.sqrt(Math.max(0, height * height + 2 * slope * probability));
  return Math.min(width, (2 * probability) / (height + root));
}

/** Area under straight lines between points. */
function trapezia(xs: readonly number[], heights: readonly number[]): number {
  let area = 0;
  for (let i = 1; i < xs.length; i++) area += (xs[i]! - xs[i - 1]!) * (heights[i]! / 2 + heights[i - 1]! / 2);
  return area;
}

/** Moments segment by segment about the middles, where those of a linear density are simple. */
function moments(x: Float64Array, f: Float64Array): { mean: number; standardDeviation: number } {
  const shift = x[0]!;
  let mean = 0;
  for (let i = 1; i < x.length; i++) {
    const width = x[i]! - x[i - 1]!;
    mean +=
      ((f[i]! + f[i - 1]!) / 2) * width * ((x[i]! + x[i - 1]!) / 2 - shift) +
      ((f[i]! - f[i - 1]!) * width * width) / 12;
  }
  mean += shift;
  let variance = 0;
  for (let i = 1; i < x.length; i++) {
    const width = x[i]! - x[i - 1]!;
    const mass = ((f[i]! + f[i - 1]!) / 2) * width;
    const offset = (x[i]! + x[i - 1]!) / 2 - mean;
    variance += mass * (offset * offset + (width * width) / 12) + (offset * (f[i]! - f[i - 1]!) * width * width) / 6;
  }
  return { mean, standardDeviation: Math.sqrt(variance) };
}

/** Refuses values that do not rise. @throws {InputError} */
export function checkStrictlyRising(values: readonly number[], place: string): void {
  for (let i = 1; i < values.length; i++) {
    if (!(values[i]! > values[i - 1]!))
      refuse(`${place}.${i}`, values[i], `a number greater than the one before it (${values[i - 1]})`);
  }
}

/** A density known at points: from a curve in a picture, a histogram or another method's result. */
export const tabulatedDensity = defineDistribution({
  kind: "tabulated-density",
  statement: statementOf("tabulated-density", {
    values: z.array(number()).min(2).meta(inUnit("Values of the quantity, rising")),
    densities: z
      .array(number().gte(0))
      .min(2)
      .meta(
        perUnit(
          "Probability density at each, linear between them and 0 outside; its integral must be 1 within 1 % and is normalised to 1",
        ),
      ),
  }),
  read({ values, densities }, place) {
    checkEqualLengths(place, values, "densities", densities, "values");
    checkStrictlyRising(values, `${place}.values`);
    const area = trapezia(values, densities);
    if (!(Math.abs(area - 1) <= INTEGRAL_TOLERANCE)) {
      refuse(
        `${place}.densities`,
        `an integral of ${area}`,
        `densities whose integral over the values is 1 within ${INTEGRAL_TOLERANCE} (divide them by it if only their shape is known)`,
      );
    }
    const distribution = piecewiseLinearDensity(values, densities);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
  },
});
