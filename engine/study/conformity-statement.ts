import * as z from "zod";
import { InputError, show, type Problem } from "../errors.ts";
import type { Quantity } from "../model.ts";
import type { Immutable } from "../immutable.ts";
import { toleranceOf, toleranceSchema, type Tolerance, type ToleranceSpecification } from "../tolerance.ts";

/** A study's requirement for one measurand (JCGM 106:2012). */
export const conformitySchema = z.strictObject({
  tolerance: toleranceSchema.describe("Permissible values: an interval, one limit, or a specification of the model"),
  guardBandMultiplier: z
    .number()
    .gte(-5)
    .lte(5)
    .default(0)
    .describe(
      "r of the guard band w = r·U between tolerance and acceptance limits: 0 simple acceptance, above 0 guarded acceptance, below 0 guarded rejection",
    ),
  prior: z
    .strictObject({
      mean: z.number().describe("Mean of the items measured"),
      standardDeviation: z.number().gt(0).describe("Standard deviation of the items measured"),
      source: z.string().min(1).optional().describe("Where the figures come from, in words"),
    })
    .optional()
    .describe("What is known of the items before one is measured: a normal distribution, for the global risks"),
});

export type StatedConformity = Immutable<z.output<typeof conformitySchema>>;

/** A normal distribution of the items before they are measured. */
export interface Prior {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly source: string | null;
}

/** What conformity is judged by. */
export interface Requirement {
  readonly tolerance: Tolerance;
  /** r of w = r·U. */
  readonly guardBandMultiplier: number;
  readonly prior: Prior | null;
}

/**
 * The requirements a study states, by measurand.
 *
 * @param stated by measurand
 * @param specifications those the model knows, by name
 * @throws {InputError} every problem: a measurand that the model does not have, a specification that it does not know or
 *   that refuses its parameters; placed under `conformity`
 */
export function requirementsOf(
  stated: Readonly<Record<string, StatedConformity>>,
  measurands: Readonly<Record<string, Quantity>>,
  specifications: Readonly<Record<string, ToleranceSpecification>> = {},
): Readonly<Record<string, Requirement>> {
  const problems: Problem[] = [];
  const requirements: Record<string, Requirement> = {};
  for (const [name, { tolerance, guardBandMultiplier, prior }] of Object.entries(stated)) {
    const place = `conformity.${name}`;
    if (!Object.hasOwn(measurands, name)) {
      problems.push({
        place,
        value: show(tolerance),
        accepted: `a measurand of the model: ${Object.keys(measurands).join(", ")}`,
      });
      continue;
    }
    try {
      requirements[name] = {
        tolerance: toleranceOf(tolerance, { name, unit: measurands[name]!.unit }, specifications, `${place}.tolerance`),
        guardBandMultiplier,
        prior:
          prior === undefined
            ? null
            : { mean: prior.mean, standardDeviation: prior.standardDeviation, source: prior.source ?? null },
      };
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new InputError(problems);
  return requirements;
}
