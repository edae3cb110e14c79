import type { Coverage } from "../coverage/coverage.ts";
import type { Correlation } from "../dependence/dependence.ts";
import type { BudgetLine } from "../distributions/distribution.ts";
import { InputError, ModelError, show } from "../errors.ts";
import { evaluateOnce, measurandsAround, thrownBy } from "../evaluator/evaluate-once.ts";
import type { Model } from "../model.ts";
import type { CorrelatedTerm } from "../record/linear.ts";
import { derivative } from "../numerics/derivative.ts";
import { slopeJump } from "../numerics/slope-jump.ts";
import { effectiveDegreesOfFreedom } from "./effective-degrees-of-freedom.ts";

/** One row of the budget: one input quantity's contribution to the uncertainty of one measurand. */
export interface Contribution {
  readonly input: string;
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  readonly evaluation: "A" | "B";
  /** c_i = ∂f/∂x_i at the estimates (JCGM 100, 5.1.3), in units of the measurand per unit of the input. */
  readonly sensitivityCoefficient: number;
  /** c_i·u(x_i), signed. */
  readonly contribution: number;
  /** Its share of u²(y), from 0 to 1. */
  readonly share: number;
}

/** The linear budget of one measurand (JCGM 100, clauses 5 and 6, annex G). */
export interface LinearBudget {
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly effectiveDegreesOfFreedom: number;
  readonly coverageFactor: number;
  readonly expandedUncertainty: number;
  readonly interval: readonly [number, number];
  readonly contributions: readonly Contribution[];
  readonly correlatedTerms: readonly CorrelatedTerm[];
  /**
   * Inputs whose sensitivity coefficient is not one number: at the estimate the model has a kink or a step, or the
   * numerical derivative is uncertain by more than a thousandth of itself.
   */
  readonly doubtful: readonly string[];
}

/** Relative error of a sensitivity coefficient that no budget's digits leave room for. */
const DOUBT = 1e-3;

/**
 * The law of propagation of uncertainty for every measurand of a model.
 *
 * @param lines the budget line of each input, by name
 * @param correlations of the inputs' values
 * @throws {ModelError} the model is not finite at, or around, the estimates
 */
export function linearBudget<I extends string, O extends string>(
  model: Model<I, O>,
  lines: Readonly<Record<I, BudgetLine>>,
  correlations: readonly Correlation[],
  coverage: Coverage,
): Readonly<Record<O, LinearBudget>> {
  const names = Object.keys(model.inputs) as I[];
  const estimates = Object.fromEntries(names.map((name) => [name, lines[name].estimate])) as Record<I, number>;
  const centre = evaluateOnce(model, estimates);
  const around = measurandsAround(model, estimates);
  const budgets = {} as Record<O, LinearBudget>;
  for (const measurand of Object.keys(model.measurands) as O[]) {
    const moved = around(measurand);
    const parts = names.map((input) => ({
      input,
      line: lines[input],
      ...sensitivity(model, estimates, input, lines[input].standardUncertainty, measurand, moved),
    }));
    budgets[measurand] = combine(centre[measurand], parts, correlations, coverage, measurand);
  }
  return budgets;
}

function sensitivity<I extends string, O extends string>(
  model: Model<I, O>,
  estimates: Readonly<Record<I, number>>,
  input: I,
  standardUncertainty: number,
  measurand: O,
  moved: (input: I, value: number) => number,
): { readonly sensitivityCoefficient: number; readonly error: number } {
  const x = estimates[input];
  const at = (value: number): number => moved(input, value);
  // A constant has a sensitivity coefficient too; any step is suitable.
  const scale = standardUncertainty > 0 ? standardUncertainty : Math.max(Math.abs(x), 1) * 2 ** -12;
  const { value, error } = derivative(at, x, scale);
  if (Number.isFinite(value))
    return {
      sensitivityCoefficient: value,
      error: standardUncertainty > 0 ? Math.max(error, slopeJump(at, x, scale)) : 0,
    };
  throw new ModelError(
    `${measurand} has no sensitivity coefficient for ${input}: the model is not finite near ${input} = ${x}` +
      `${thrownBy(model, { ...estimates, [input]: x + scale })}; ` +
      `expected a model that gives finite numbers within about one standard uncertainty of the estimates`,
    null,
    estimates,
  );
}

function combine(
  estimate: number,
  parts: readonly { input: string; line: BudgetLine; sensitivityCoefficient: number; error: number }[],
  correlations: readonly Correlation[],
  coverage: Coverage,
  measurand: string,
): LinearBudget {
  const signed = parts.map(({ line, sensitivityCoefficient }) => sensitivityCoefficient * line.standardUncertainty);
  const largest = Math.max(...signed.map(Math.abs));
  // Scaled by the largest, so that squares neither overflow nor vanish.
  const scaled = signed.map((value) => (largest === 0 ? 0 : value / largest));
  const place = (input: string): number => parts.findIndex((part) => part.input === input);
  const crossed = correlations.map(
    ({ between: [a, b], coefficient }) => 2 * scaled[place(a)]! * scaled[place(b)]! * coefficient,
  );
  const squares = scaled.reduce((sum, value) => sum + value * value, 0);
  // Fully correlated contributions can cancel; rounding must not make the sum negative.
  const variance = Math.max(
    0,
    crossed.reduce((sum, value) => sum + value, squares),
  );
  const standardUncertainty = largest * Math.sqrt(variance);
  const share = (part: number): number => (variance === 0 ? 0 : part / variance);
  if (!Number.isFinite(standardUncertainty)) {
    throw new InputError([
      {
        place: `measurands.${measurand}`,
        value: show(standardUncertainty),
        accepted: "inputs whose combined standard uncertainty is a finite number",
      },
    ]);
  }
  const terms = crossed.map((part) => part * largest * largest);
  // A covariance is the square of a unit, which the figures themselves may be far from leaving a double in.
  const beyond = terms.findIndex((term, i) => !Number.isFinite(term) || (term === 0 && crossed[i] !== 0));
  if (beyond >= 0) {
    throw new InputError([
      {
        place: `correlations.${beyond}`,
        value: `a part ${show(terms[beyond])} of u²(${measurand})`,
        accepted: "quantities in units in which their covariances stay within the range of double-precision numbers",
      },
    ]);
  }
  const ν = effectiveDegreesOfFreedom(independentShares(parts, signed, standardUncertainty, correlations));
  const coverageFactor = coverage.factor(ν);
  const expandedUncertainty = coverageFactor * standardUncertainty;
  return {
    estimate,
    standardUncertainty,
    effectiveDegreesOfFreedom: ν,
    coverageFactor,
    expandedUncertainty,
    interval: [estimate - expandedUncertainty, estimate + expandedUncertainty],
    contributions: parts.map(({ input, line, sensitivityCoefficient }, i) => ({
      input,
      ...line,
      sensitivityCoefficient,
      contribution: signed[i]!,
      share: share(scaled[i]! * scaled[i]!),
    })),
    correlatedTerms: correlations.map(({ between, coefficient }, i) => ({
      between,
      coefficient,
      term: terms[i]!,
      share: share(crossed[i]!),
    })),
    doubtful: parts
      .filter(({ line, sensitivityCoefficient, error }) => {
        const moved = error * line.standardUncertainty;
        return error > DOUBT * Math.abs(sensitivityCoefficient) && moved > DOUBT * DOUBT * standardUncertainty;
      })
      .map(({ input }) => input),
  };
}

/**
 * The parts of u²(y) whose estimates are independent of one another: w_i = c_i·u_i·Σ_j r_ij·c_j·u_j / u²(y) for an input
 * whose standard uncertainty was estimated by itself, and the sum of theirs for inputs that were estimated together.
 */
function independentShares(
  parts: readonly { input: string; line: BudgetLine }[],
  signed: readonly number[],
  combined: number,
  correlations: readonly Correlation[],
): { share: number; degreesOfFreedom: number }[] {
  if (combined === 0) return [];
  const place = (input: string): number => parts.findIndex((part) => part.input === input);
  /** Σ_j r_ij·c_j·u_j. */
  const along = [...signed];
  const group = parts.map((_, i) => i);
  for (const { between, coefficient, together } of correlations) {
    const [a, b] = [place(between[0]), place(between[1])];
    along[a]! += coefficient * signed[b]!;
    along[b]! += coefficient * signed[a]!;
    if (!together) continue;
    const [from, to] = [group[a]!, group[b]!];
    for (let i = 0; i < group.length; i++) if (group[i] === from) group[i] = to;
  }
  // Relative to u(y), so that the squares of tiny uncertainties do not vanish.
  const shares = signed.map((value, i) => (value / combined) * (along[i]! / combined));
  return [...new Set(group)].map((id) => {
    const members = parts.map((_, i) => i).filter((i) => group[i] === id);
    return {
      share: members.reduce((sum, i) => sum + shares[i]!, 0),
      // Estimated together, they have the same ν.
      degreesOfFreedom: parts[members[0]!]!.line.degreesOfFreedom,
    };
  });
}

/** C·U_x·Cᵀ: the covariance of all measurands by the linear route (JCGM 102, 6.2). */
export function linearCovariance(budgets: readonly LinearBudget[], correlations: readonly Correlation[]): number[][] {
  return budgets.map((a) =>
    budgets.map((b) => {
      const of = (budget: LinearBudget, input: string): number =>
        budget.contributions.find((row) => row.input === input)!.contribution;
      const own = a.contributions.reduce((sum, row, i) => sum + row.contribution * b.contributions[i]!.contribution, 0);
      return correlations.reduce(
        (sum, { between: [p, q], coefficient }) => sum + coefficient * (of(a, p) * of(b, q) + of(a, q) * of(b, p)),
        own,
      );
    }),
  );
}
