import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure, names, pair, points } from "./parts.ts";

const distributionSchema = z.strictObject({
  kind: z.literal("distribution"),
  /** f at the estimates plus Σ c_i·(E(X_i) − x_i). */
  estimate: figure,
  /** √(Σ c_i²·Var(X_i)) with the covariances: that of the stated distributions, of a t greater than the budget's. */
  standardUncertainty: figure,
  intervals: z.strictObject({ symmetric: pair, shortest: pair }),
  /** Most that the endpoints of the symmetric interval are off. */
  error: pair,
  /**
   * The factor k for which y ± k·u(y), with the budget's u(y), holds the linearised measurand with the coverage
   * probability; `null` if u(y) is 0.
   */
  coverageFactor: figure.nullable(),
  /** The input, or the inputs drawn together, whose distribution moves that factor most; `null` if all are normal. */
  decisive: z
    .strictObject({
      inputs: names.min(1),
      /** The factor if they were normal, with the budget's standard uncertainty. */
      coverageFactor: figure,
    })
    .nullable(),
  /** Cells of the lattice; `null` if the distribution is known in closed form. */
  cells: z.int().positive().nullable(),
  /** x and density; empty if only discrete values occur. */
  curve: points,
});

const unavailableSchema = z.strictObject({
  kind: z.literal("unavailable"),
  because: z.enum([
    "nothingVaries",
    /** Inputs without a standard deviation. */
    "noStandardDeviation",
    /** Inputs that depend on one another by a Gaussian copula of other shapes. */
    "copula",
    /** The endpoints are not known to δ/1000. */
    "accuracy",
  ]),
  /** The inputs it is about. */
  inputs: names,
  /** The error that was reached, if that is why. */
  error: figure.exactOptional(),
});

/** Its sentence stands beside either. */
const spoken = { sentence: z.string() };

export const linearisedSchema = z.discriminatedUnion("kind", [
  distributionSchema.extend(spoken),
  unavailableSchema.extend(spoken),
]);

/**
 * The linearised model with the stated distributions: the exact distribution of y + Σ c_i·(X_i − x_i), by convolution, or why
 * it is not to be had. It bends the truth once, by linearising; the linear budget does so twice.
 */
export type LinearisedRecord = Immutable<z.output<typeof linearisedSchema>>;
export type LinearisedFigures = Immutable<z.output<typeof distributionSchema> | z.output<typeof unavailableSchema>>;
