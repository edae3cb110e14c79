import * as z from "zod";

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

/** A line of the linear budget, as an input and its contribution have it. */
export const budgetLineFields = {
  estimate: figure,
  standardUncertainty: figure,
  /** `null`: infinite. */
  degreesOfFreedom: figure.nullable(),
  /** JCGM 100, 0.7: A by statistical analysis of observations, B by other means. */
  evaluation: z.enum(["A", "B"]),
};
