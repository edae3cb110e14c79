import { refuse, type Statement } from "../../../engine/index.ts";
import type { LimitsDistribution } from "../survey/statement.ts";
import type { ImmersionDescription } from "./description.ts";
import {
  fitStemConduction,
  stemConductionStatement,
  type DepthReading,
  type StemConductionFit,
} from "./stem-conduction.ts";
import { evaluateWithdrawal, withdrawalStatement, type WithdrawalEvaluation } from "./withdrawal.ts";

/**
 * What an immersion check found: from the withdrawal, and from the fit over depths; `null` for what was not measured,
 * at most one of the two.
 */
export interface ImmersionEvaluation {
  readonly title: string;
  readonly withdrawal: WithdrawalEvaluation | null;
  readonly fit: StemConductionFit | null;
}

/** Evaluates what was measured: a withdrawal, a fit over depths, or both. @throws {InputError} */
export function evaluateImmersion(description: ImmersionDescription): ImmersionEvaluation {
  const { withdrawal, depths, planned, limit, title } = description;
  if (withdrawal === undefined && depths === undefined)
    refuse("immersion", "neither", "a withdrawal, or readings at three or more depths");
  const fit = depths === undefined ? null : fitStemConduction(depthReadings(depths), { planned, limit });
  if (withdrawal === undefined) return { title, withdrawal: null, fit };
  // The readings over depth give the decay length that one withdrawal lacks.
  const known = withdrawal.again !== undefined || withdrawal.conductionLength !== undefined;
  const length = fit === null || known ? {} : { conductionLength: fit.conductionLength };
  return { title, withdrawal: evaluateWithdrawal({ ...withdrawal, ...length, limit }), fit };
}

/** The readings over depth, each less that of the thermometer that stays. @throws {InputError} some with it, some without */
export function depthReadings(depths: NonNullable<ImmersionDescription["depths"]>): readonly DepthReading[] {
  const lacking = depths.findIndex(({ reference }) => reference === undefined);
  if (lacking >= 0 && depths.some(({ reference }) => reference !== undefined))
    refuse(
      `depths.${lacking}.reference`,
      undefined,
      "a reading of the thermometer that stays at every depth, or at none",
    );
  return depths.map(({ depth, reading, reference = 0 }) => ({ depth, reading: reading - reference }));
}

/** Stem conduction as an input quantity: by the fit if there is one, else by the withdrawal. @throws {InputError} */
export function immersionStatement(
  evaluation: ImmersionEvaluation,
  description: ImmersionDescription,
  distribution: LimitsDistribution = "rectangular",
): Statement {
  if (evaluation.fit !== null) return stemConductionStatement(evaluation.fit, distribution);
  return withdrawalStatement(
    evaluation.withdrawal!,
    { ...description.withdrawal!, limit: description.limit },
    distribution,
  );
}
