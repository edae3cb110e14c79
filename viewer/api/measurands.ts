import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { numeral } from "./numeral.ts";

const MOST_BINS = 2000;
const BINS = `a whole number from 1 to ${MOST_BINS}`;

/** The query of `GET /api/runs/:id/measurands/:name/histogram` */
export const histogramQuery = z.object({
  bins: numeral(z.int(BINS).min(1, BINS).max(MOST_BINS, BINS)).describe("How many bins"),
});

const BETWEEN = "a number between 0 and 1, such as 0.95";

/** The query of `GET /api/runs/:id/measurands/:name/interval` */
export const intervalQuery = z.object({
  p: numeral(z.number(BETWEEN).gt(0, BETWEEN).lt(1, BETWEEN)).describe("Coverage probability"),
});

const interval = z.tuple([z.number(), z.number()]);

/** `GET /api/runs/:id/measurands/:name/interval?p=`: coverage intervals at a probability of the reader's choice. */
export const chosenInterval = z
  .strictObject({
    probability: z.number(),
    symmetric: interval.describe("Lower and upper endpoint of the probabilistically symmetric interval"),
    shortest: interval.describe("Lower and upper endpoint of the shortest interval"),
  })
  .meta({ id: "ChosenInterval" });
export type ChosenInterval = Immutable<z.output<typeof chosenInterval>>;
