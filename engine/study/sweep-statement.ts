import * as z from "zod";
import { statementSchema } from "../distributions/index.ts";

/** A study's result over a range: the inputs that differ at each point. */
export const sweepSchema = z.strictObject({
  quantity: z.string().min(1).describe("What is swept, in words: bath temperature"),
  unit: z.string().min(1).describe("Its unit"),
  points: z
    .array(
      z.strictObject({
        at: z.number().describe("The swept quantity at this point"),
        inputs: z.record(z.string(), statementSchema).describe("Inputs that differ here from the study's own"),
      }),
    )
    .min(2)
    .max(50),
});
