import * as z from "zod";
import { refuse } from "../errors.ts";
import { guideTable } from "../random/guide-table.ts";
import { checkEqualLengths, leastNotBelow } from "./discrete.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { checkStrictlyRising } from "./tabulated-density.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/**
 * A distribution function that is linear between given points: JCGM 101, 6.5 uses such a table to represent an output
 * that becomes an input. No values occur where it is flat.
 *
 * @param values strictly rising
 * @param probabilities rising from exactly 0 to exactly 1, not necessarily strictly
 */
export function piecewiseLinearDistribution(values: readonly number[], probabilities: readonly number[]): Distribution {
  const n = values.length;
  const x = Float64Array.from(values);
  const F = Float64Array.from(probabilities);
  const ends = F.subarray(1);
  const place = guideTable(ends);
  const within = (i: number, p: number): number => {
    const share = (p - F[i]!) / (F[i + 1]! - F[i]!);
    const width = x[i + 1]! - x[i]!;
    return share <= 0.5 ? x[i]! + width * share : x[i + 1]! - (width * (F[i + 1]! - p)) / (F[i + 1]! - F[i]!);
  };
  const shift = x[0]!;
  let mean = 0;
  for (let i = 1; i < n; i++) mean += (F[i]! - F[i - 1]!) * ((x[i]! + x[i - 1]!) / 2 - shift);
  mean += shift;
  let variance = 0;
  for (let i = 1; i < n; i++) {
    const offset = (x[i]! + x[i - 1]!) / 2 - mean;
    const width = x[i]! - x[i - 1]!;
    variance += (F[i]! - F[i - 1]!) * (offset * offset + (width * width) / 12);
  }
  return {
    mean,
    standardDeviation: Math.sqrt(variance),
    support: [x[leastNotBelow(F, Number.MIN_VALUE) - 1]!, x[leastNotBelow(F, 1)]!],
    density(at) {
      if (at < x[0]! || at > x[n - 1]!) return 0;
      const i = Math.max(1, leastNotBelow(x, at));
      return (F[i]! - F[i - 1]!) / (x[i]! - x[i - 1]!);
    },
    distributionFunction(at) {
      if (at <= x[0]!) return 0;
      if (at >= x[n - 1]!) return 1;
      const i = leastNotBelow(x, at);
      return F[i - 1]! + ((F[i]! - F[i - 1]!) * (at - x[i - 1]!)) / (x[i]! - x[i - 1]!);
    },
    quantile(p) {
      if (p <= 0) return x[leastNotBelow(F, Number.MIN_VALUE) - 1]!;
      return within(leastNotBelow(ends, p), p);
    },
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = within(place(out[i]!), out[i]!);
    },
  };
}

/** A distribution function known at points, such as quantiles given in a report. */
export const tabulatedDistribution = defineDistribution({
  kind: "tabulated-distribution",
  statement: statementOf("tabulated-distribution", {
    values: z.array(number()).min(2).meta(inUnit("Values of the quantity, rising")),
    probabilities: z
      .array(number().gte(0).lte(1))
      .min(2)
      .meta(
        ofOne(
          "Probability that the quantity is at most each value: from 0 at the first to 1 at the last, linear between them",
        ),
      ),
  }),
  read({ values, probabilities }, place) {
    checkEqualLengths(place, values, "probabilities", probabilities, "values");
    checkStrictlyRising(values, `${place}.values`);
    const last = probabilities.length - 1;
    if (probabilities[0] !== 0)
      refuse(`${place}.probabilities.0`, probabilities[0], "0: no probability lies below the first value");
    if (probabilities[last] !== 1)
      refuse(`${place}.probabilities.${last}`, probabilities[last], "1: no probability lies above the last value");
    for (let i = 1; i <= last; i++) {
      const before = probabilities[i - 1]!;
      if (!(probabilities[i]! >= before))
        refuse(`${place}.probabilities.${i}`, probabilities[i], `a number not less than the one before it (${before})`);
    }
    const distribution = piecewiseLinearDistribution(values, probabilities);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
  },
});
