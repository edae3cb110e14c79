import * as z from "zod";
import { statementSchema } from "../distributions/index.ts";

/** Most points of one sweep: a grid of two quantities. */
export const MOST_SWEEP_POINTS = 10_000;

/** A study's result over a range, or over a grid of two quantities: the inputs that differ at each point. */
export const sweepSchema = z.strictObject({
  quantity: z.string().min(1).describe("What is swept, in words: bath temperature"),
  unit: z.string().min(1).describe("Its unit"),
  second: z
    .strictObject({ quantity: z.string().min(1), unit: z.string().min(1) })
    .exactOptional()
    .describe("The second quantity of a grid"),
  points: z
    .array(
      z.strictObject({
        at: z.number().describe("The swept quantity at this point"),
        second: z.number().exactOptional().describe("The second quantity at this point"),
        part: z
          .string()
          .min(1)
          .exactOptional()
          .describe("Part of the range that the point belongs to: its bath, its fluid"),
        inputs: z.record(z.string(), statementSchema).describe("Inputs that differ here from the study's own"),
      }),
    )
    .min(2)
    .max(MOST_SWEEP_POINTS),
});
