import * as z from "zod";
import type { Immutable } from "../immutable.ts";

// What several parts of a record are made of.

/** A finite number: neither NaN nor an infinity has JSON. */
export const figure = z.number();
/** Two figures: lower, upper; or x, y. */
export const pair = z.tuple([figure, figure]);
/** Points of a curve: x and the value there. */
export const points = z.array(pair);
/** Row by row. */
export const matrix = z.array(z.array(figure));
export const names = z.array(z.string());
/** Names of two quantities. */
export const between = z.tuple([z.string(), z.string()]);
/** Significant digits of u(y) taken as meaningful. */
export const digits = z.union([z.literal(1), z.literal(2)]);

/** A quantity as a person reads it. */
export const quantityFields = {
  /** Short symbol as written in the model equation, e.g. `R_X`. An underscore starts a subscript. */
  symbol: z.string(),
  /** What it is, in words. */
  meaning: z.string(),
  /** Unit as written after a number; `"1"` for a quantity of dimension one. */
  unit: z.string(),
  /**
   * Of a quantity in °C: true for a difference, correction or change of temperature, of which 1 °C is 1 K. Left out for
   * a temperature, which is counted from another zero in kelvin.
   */
  difference: z.boolean().exactOptional(),
};

export const quantitySchema = z.strictObject(quantityFields);

/** A quantity as a person reads it. */
export type Quantity = Immutable<z.output<typeof quantitySchema>>;

/** A line of the linear budget, as an input and its contribution have it. */
export const budgetLineFields = {
  estimate: figure,
  standardUncertainty: figure,
  /** `null`: infinite. */
  degreesOfFreedom: figure.nullable(),
  /** JCGM 100, 0.7: A by statistical analysis of observations, B by other means. */
  evaluation: z.enum(["A", "B"]),
};
