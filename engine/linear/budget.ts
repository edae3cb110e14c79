import type { Coverage } from "../coverage/coverage.ts";
import type { BudgetLine } from "../distributions/distribution.ts";
import { InputError, ModelError, show } from "../errors.ts";
import { evaluateOnce } from "../trials/evaluate-once.ts";
import type { Model } from "../model.ts";
import { derivative } from "./derivative.ts";
import { effectiveDegreesOfFreedom } from "./effective-degrees-of-freedom.ts";

/** One row of the budget: one input quantity's part in the uncertainty of one measurand. */
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
  /** Its part of u²(y), from 0 to 1. */
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
}

/**
 * The law of propagation of uncertainty for every measurand of a model.
 *
 * @param lines what the budget takes of each input, by name
 * @throws {ModelError} the model is not finite at, or around, the estimates
 */
export function linearBudget<I extends string, O extends string>(
  model: Model<I, O>,
  lines: Readonly<Record<I, BudgetLine>>,
  coverage: Coverage,
): Readonly<Record<O, LinearBudget>> {
  const names = Object.keys(model.inputs) as I[];
  const estimates = Object.fromEntries(names.map((name) => [name, lines[name].estimate])) as Record<I, number>;
  const centre = evaluateOnce(model, estimates);
  const budgets = {} as Record<O, LinearBudget>;
  for (const measurand of Object.keys(model.measurands) as O[]) {
    const parts = names.map((input) => ({
      input,
      line: lines[input],
      sensitivityCoefficient: sensitivity(model, estimates, input, lines[input].standardUncertainty, measurand),
    }));
    budgets[measurand] = combine(centre[measurand], parts, coverage, measurand);
  }
  return budgets;
}

function sensitivity<I extends string, O extends string>(
  model: Model<I, O>,
  estimates: Readonly<Record<I, number>>,
  input: I,
  standardUncertainty: number,
  measurand: O,
): number {
  const x = estimates[input];
  const at = (value: number): number => {
    const outputs = model.evaluate({ ...estimates, [input]: value } as Record<I, number>);
    return typeof outputs === "number" ? outputs : (outputs as Readonly<Record<O, number>>)[measurand];
  };
  // A constant still has a sensitivity worth showing; any step will do for it.
  const scale = standardUncertainty > 0 ? standardUncertainty : Math.max(Math.abs(x), 1) * 2 ** -12;
  const { value } = derivative(at, x, scale);
  if (Number.isFinite(value)) return value;
  throw new ModelError(
    `${measurand} has no sensitivity coefficient for ${input}: the model is not finite near ${input} = ${x}; ` +
      `accepted is a model that gives finite numbers within about one standard uncertainty of the estimates`,
    null,
    estimates,
  );
}

function combine(
  estimate: number,
  parts: readonly { input: string; line: BudgetLine; sensitivityCoefficient: number }[],
  coverage: Coverage,
  measurand: string,
): LinearBudget {
  const signed = parts.map(({ line, sensitivityCoefficient }) => sensitivityCoefficient * line.standardUncertainty);
  const largest = Math.max(...signed.map(Math.abs));
  // Scaled by the largest, so that squares neither overflow nor vanish.
  const variance = largest === 0 ? 0 : signed.reduce((sum, value) => sum + (value / largest) * (value / largest), 0);
  const standardUncertainty = largest * Math.sqrt(variance);
  if (!Number.isFinite(standardUncertainty)) {
    throw new InputError([
      { place: `measurands.${measurand}`, value: show(standardUncertainty), accepted: "inputs whose combined standard uncertainty is a finite number" },
    ]);
  }
  const ν = effectiveDegreesOfFreedom(
    standardUncertainty,
    parts.map(({ line }, i) => ({ contribution: Math.abs(signed[i]!), degreesOfFreedom: line.degreesOfFreedom })),
  );
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
      share: standardUncertainty === 0 ? 0 : (signed[i]! / standardUncertainty) * (signed[i]! / standardUncertainty),
    })),
  };
}
