import { prepare, type Model, type Prepared, type Study } from "../../engine/index.ts";
import { linearisedBudget, shortestOf } from "../../engine/internal.ts";

/** What a study claims at one point, without a trial. */
export interface Predicted {
  /** Of the linear budget. */
  readonly standardUncertainty: number;
  /** Expanded uncertainty of the linear budget. */
  readonly linear: number;
  /**
   * Greatest distance of the interval from the budget's estimate, by the exact distribution of the linearised model
   * (convolution of the stated distributions); `null` where that is not to be had.
   */
  readonly distribution: number | null;
  /** The greater of both: a claim lies below neither. */
  readonly claimed: number;
}

/** Part of u(y) within a thousandth of which the endpoints must be known. */
const TOLERANCE = 0.05;

/** @throws {InputError} a statement that cannot be used */
export const predicted = (model: Model, study: Study, measurand: string): Predicted =>
  predictedOf(prepare(model, study), measurand);

/** The same of a study that is tied to its model already, with one of its inputs narrower by a factor. */
export function predictedOf(
  { linear, source: { groups }, correlations, coverage }: Prepared,
  measurand: string,
  narrower: { readonly input: string; readonly factor: number } | null = null,
): Predicted {
  const whole = linear[measurand]!;
  const rows = whole.contributions.map((row) =>
    row.input !== narrower?.input
      ? row
      : {
          ...row,
          sensitivityCoefficient: row.sensitivityCoefficient * narrower.factor,
          contribution: row.contribution * narrower.factor,
        },
  );
  const u = narrower === null ? whole.standardUncertainty : combined(rows, correlations);
  // k stays: that an input is narrower changes ν_eff too, which the distribution shows and the factor of a budget hardly.
  const expanded = narrower === null ? whole.expandedUncertainty : whole.coverageFactor * u;
  const budget = { estimate: whole.estimate, standardUncertainty: u, contributions: rows };
  const { probability, interval } = coverage;
  const asked = { probability, tolerance: TOLERANCE * u };
  const found = linearisedBudget(budget, groups, correlations, asked);
  if (found.kind === "unavailable")
    return { standardUncertainty: u, linear: expanded, distribution: null, claimed: expanded };
  const [low, high] = interval === "shortest" ? shortestOf(found.distribution, probability) : found.interval;
  const distribution = Math.max(high, -low);
  return { standardUncertainty: u, linear: expanded, distribution, claimed: Math.max(expanded, distribution) };
}

/** √(Σ_i Σ_j r_ij·a_i·a_j) (JCGM 100, equation 16). */
function combined(
  rows: readonly { readonly input: string; readonly contribution: number }[],
  correlations: Prepared["correlations"],
): number {
  const parts = new Map(rows.map(({ input, contribution }) => [input, contribution]));
  let variance = rows.reduce((sum, { contribution }) => sum + contribution * contribution, 0);
  for (const { between, coefficient } of correlations)
    variance += 2 * coefficient * (parts.get(between[0]) ?? 0) * (parts.get(between[1]) ?? 0);
  return Math.sqrt(Math.max(0, variance));
}
