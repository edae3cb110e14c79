import * as z from "zod";
import type { Substream } from "../random/stream.ts";
import { evidenceSchema } from "./evidence.ts";
import type { DistributionName } from "./titles.ts";

/**
 * A probability distribution as Supplement 1 uses it: it describes what is known of a quantity, and draws from it.
 * Parameters are checked when it is made; its functions do not check them again.
 */
export interface Distribution {
  /** Expectation, or `null` if none exists (Cauchy). */
  readonly mean: number | null;
  /** Standard deviation: `Infinity` if the second moment diverges, `null` if even the mean does not exist. */
  readonly standardDeviation: number | null;
  /** Moments of an order below this exist, as a t with ν degrees of freedom has those below ν. Left out where all do. */
  readonly momentsBelow?: number;
  /** Smallest closed interval that contains all probability; its endpoints may be infinite. */
  readonly support: readonly [number, number];
  /** Set if the quantity takes discrete values only. */
  readonly discrete?: true;
  /** The values of a discrete quantity with their probabilities; values of less than 2^-70 of the greatest may be left out. */
  atoms?(): Atoms;
  /** Set if the distribution is normal. */
  readonly normal?: true;
  /**
   * Set if the density is analytic on the whole line and falls off on either side of its middle: a length such that sums
   * over points a sixth of it apart are integrals to the last digit (Poisson's summation formula).
   */
  readonly smoothOver?: number;
  /** Probability density at x (for a discrete quantity, the probability of x). */
  density(x: number): number;
  /** P(X ≤ x). */
  distributionFunction(x: number): number;
  /** P(X > x), if it is known to more digits than 1 − P(X ≤ x) has. */
  upperTail?(x: number): number;
  /** Least x with P(X ≤ x) ≥ p, for p in [0, 1]. */
  quantile(p: number): number;
  /**
   * Writes `count` ≤ BLOCK_TRIALS independent draws to `out`. Equal substreams give equal draws, and draw i depends
   * only on the numbers at index i of its channels.
   */
  sample(from: Substream, out: Float64Array, count: number): void;
}

/** Values of a discrete quantity in rising order, with their probabilities. */
export interface Atoms {
  readonly values: Float64Array;
  readonly probabilities: Float64Array;
}

/** What the linear budget uses of an input quantity (JCGM 100, 4.1.5 and 4.3). */
export interface BudgetLine {
  readonly estimate: number;
  readonly standardUncertainty: number;
  /** Infinity where the standard uncertainty is taken as exactly known (JCGM 100, G.4.3). */
  readonly degreesOfFreedom: number;
  /** JCGM 100, 0.7: A by statistical analysis of observations, B by other means. */
  readonly evaluation: "A" | "B";
}

/**
 * An input quantity as both methods use it. They can differ by definition: for few readings the budget takes s/√n with
 * n − 1 degrees of freedom, Supplement 1 a wider t distribution.
 */
export interface InputKnowledge {
  readonly distribution: Distribution;
  readonly budget: BudgetLine;
}

/** What conversions of a statement's unit need to know of its quantity. */
export interface StatedQuantity {
  readonly unit: string;
  /** A difference of temperatures, in °C. */
  readonly difference?: boolean;
}

/** A way to state an input quantity: the fields a laboratory gives, and what they mean. */
export interface DistributionKind<K extends DistributionName = DistributionName, S extends z.ZodType = z.ZodType> {
  readonly kind: K;
  readonly statement: S;
  /**
   * @param quantity whose unit the statement is in, if it is known: statements inside it may then have other units
   * @throws {InputError} fields that contradict one another, reported under `place`
   */
  read(statement: z.output<S>, place: string, quantity?: StatedQuantity): InputKnowledge;
}

/** Gives a kind's `read` the type of its own statement. */
export const defineDistribution = <const K extends DistributionName, S extends z.ZodType>(
  kind: DistributionKind<K, S>,
): DistributionKind<K, S> => kind;

/** The schema of a statement: the kind's own fields, the source of its figures, and evidence if there is any. */
export const statementOf = <const K extends DistributionName, F extends z.ZodRawShape>(kind: K, fields: F) =>
  z.strictObject({
    distribution: z.literal(kind),
    ...fields,
    unit: z
      .string()
      .min(1)
      .max(40)
      .optional()
      .describe("Unit of the figures, where it is not that of the model's input: converted, or refused"),
    source: z.string().min(1).optional().describe("Where the figures come from, in words"),
    evidence: evidenceSchema.optional().describe("The raw data from which the figures were evaluated"),
  });

/** A finite number. */
export const number = (): z.ZodNumber => z.number();
/** A finite number greater than 0. */
export const positive = (): z.ZodNumber => z.number().gt(0);

/** A type B line of the budget, exactly known unless degrees of freedom are given. */
export const typeB = (estimate: number, standardUncertainty: number, degreesOfFreedom = Infinity): BudgetLine => ({
  estimate,
  standardUncertainty,
  degreesOfFreedom,
  evaluation: "B",
});
