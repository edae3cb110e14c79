import * as z from "zod";
import { refuse } from "./errors.ts";
import type { Immutable } from "./immutable.ts";

/** The permissible values of a measurand (JCGM 106:2012, 3.3.4 and 3.3.5), in its unit. `null`: no limit on that side. */
export interface Tolerance {
  readonly lower: number | null;
  readonly upper: number | null;
  /** What sets the limits, in words: a class of a standard, a customer's order. */
  readonly basis: string | null;
}

/**
 * A published rule that gives tolerance limits from a few parameters. A model that knows one carries it, so that a study
 * can name the rule instead of working out the limits.
 */
export interface ToleranceSpecification {
  readonly title: string;
  /** One sentence a parameter, for people. */
  readonly parameters: Readonly<Record<string, string>>;
  /**
   * @param measurand the measurand the limits are for, and its unit
   * @throws {InputError} naming the parameter that cannot be used, placed under `place`
   */
  limits(
    parameters: Readonly<Record<string, unknown>>,
    measurand: { readonly name: string; readonly unit: string },
    place: string,
  ): Tolerance;
}

/** How a study states a tolerance: limits, or a specification that the model knows. */
export const toleranceSchema = z
  .strictObject({
    lower: z.number().optional().describe("Least permissible value, in the measurand's unit"),
    upper: z.number().optional().describe("Greatest permissible value, in the measurand's unit"),
    basis: z.string().min(1).optional().describe("What sets the limits, in words"),
    specification: z
      .string()
      .min(1)
      .optional()
      .describe("Name of a specification of the model that gives the limits, in place of lower and upper"),
    parameters: z.record(z.string(), z.json()).optional().describe("Parameters of the specification"),
  })
  .refine(
    ({ lower, upper, specification }) => (specification === undefined) !== (lower === undefined && upper === undefined),
    {
      error: "a lower limit, an upper limit or both; or else a specification",
    },
  )
  .refine(({ lower, upper }) => lower === undefined || upper === undefined || lower < upper, {
    error: "a number greater than the lower limit",
    path: ["upper"],
  })
  .refine(({ specification, parameters }) => specification !== undefined || parameters === undefined, {
    error: "nothing where no specification is named",
    path: ["parameters"],
  });

export type StatedTolerance = Immutable<z.output<typeof toleranceSchema>>;

/**
 * The limits that a stated tolerance means.
 *
 * @param specifications those the model knows, by name
 * @throws {InputError} a specification that the model does not know, or parameters that it refuses
 */
export function toleranceOf(
  stated: StatedTolerance,
  measurand: { readonly name: string; readonly unit: string },
  specifications: Readonly<Record<string, ToleranceSpecification>>,
  place: string,
): Tolerance {
  const { lower, upper, basis, specification: name, parameters } = stated;
  if (name === undefined) return { lower: lower ?? null, upper: upper ?? null, basis: basis ?? null };
  if (!Object.hasOwn(specifications, name)) {
    const known = Object.keys(specifications).join(" or ");
    refuse(
      `${place}.specification`,
      name,
      known === "" ? "nothing: this model knows no specification, so state lower and upper" : known,
    );
  }
  const found = specifications[name]!.limits(parameters ?? {}, measurand, `${place}.parameters`);
  return { ...found, basis: basis ?? found.basis };
}
