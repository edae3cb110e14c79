import { refuse } from "../errors.ts";
import { guideTable } from "../random/guide-table.ts";
import { defineDistribution, positive, statementOf, typeB, type Distribution } from "./distribution.ts";
import { upperGamma } from "../numerics/incomplete-gamma.ts";
import { poissonProbability } from "../numerics/saddle-point.ts";
import { normalQuantile } from "../numerics/standard-normal.ts";
import { inUnit } from "./field-unit.ts";

/** Above this mean a count is normal to within 1e-4 standard deviations. */
const LARGEST_MEAN = 1e8;
/** Counts below this share of the greatest probability are never drawn: a uniform of 52 bits cannot reach them. */
const NEGLIGIBLE = 2 ** -70;

/** The number of independent events if `mean` are expected. */
export function poissonDistribution(mean: number): Distribution {
  const distributionFunction = (x: number): number =>
    x < 0 ? 0 : x === Infinity ? 1 : upperGamma(Math.floor(x) + 1, mean);
  const { first, cumulative } = probabilityTable(mean);
  const place = guideTable(cumulative);
  return {
    mean,
    standardDeviation: Math.sqrt(mean),
    support: [0, Infinity],
    discrete: true,
    atoms: () => ({
      values: cumulative.map((_, i) => first + i),
      probabilities: cumulative.map((_, i) => poissonProbability(first + i, mean)),
    }),
    density: (x) => (x >= 0 && Number.isInteger(x) ? poissonProbability(x, mean) : 0),
    distributionFunction,
    quantile(p) {
      if (p === 1) return Infinity;
      // Bracket from the normal approximation, widened by doubling, then bisection.
      const guess = Math.max(0, Math.floor(mean + Math.sqrt(mean) * (p > 0 ? normalQuantile(p) : 0)));
      let low = guess;
      let high = guess;
      for (let step = 1; low >= 0 && distributionFunction(low) >= p; step *= 2) {
        high = low;
        low -= step;
      }
      for (let step = 1; distributionFunction(high) < p; step *= 2) {
        low = high;
        high += step;
      }
      low = Math.max(-1, low);
      while (high - low > 1) {
        const middle = Math.floor((low + high) / 2);
        if (distributionFunction(middle) >= p) high = middle;
        else low = middle;
      }
      return high;
    },
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = first + place(out[i]!);
    },
  };
}

/** Cumulative probabilities of the counts that can be drawn, from `first` on. */
function probabilityTable(mean: number): { first: number; cumulative: Float64Array } {
  const mode = Math.floor(mean);
  const above: number[] = [];
  for (let k = mode, term = 1; term > NEGLIGIBLE; k++, term *= mean / k) above.push(term);
  const below: number[] = [];
  for (let k = mode, term = k / mean; k > 0 && term > NEGLIGIBLE; k--, term *= k / mean) below.push(term);
  const cumulative = Float64Array.from([...below.toReversed(), ...above]);
  let total = 0;
  for (const term of cumulative) total += term;
  let sum = 0;
  for (let i = 0; i < cumulative.length; i++) {
    sum += cumulative[i]!;
    cumulative[i] = sum / total;
  }
  cumulative[cumulative.length - 1] = 1;
  return { first: mode - below.length, cumulative };
}

/** A future count whose expected number is known. For a number already counted, state `gamma`. */
export const poisson = defineDistribution({
  kind: "poisson",
  statement: statementOf("poisson", { estimate: positive().meta(inUnit("Expected number of events")) }),
  read({ estimate }, place) {
    if (!(estimate >= 1e-12 && estimate <= LARGEST_MEAN)) {
      refuse(
        `${place}.estimate`,
        estimate,
        `a number from 1e-12 to ${LARGEST_MEAN}; for more events state a normal distribution`,
      );
    }
    return { distribution: poissonDistribution(estimate), budget: typeB(estimate, Math.sqrt(estimate)) };
  },
});
