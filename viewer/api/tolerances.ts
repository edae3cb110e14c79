import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

/** `POST /api/tolerances`: asks what a tolerance class allows, before anything is run. */
export const toleranceRequest = z
  .object(
    {
      parameters: z
        .record(z.string(), z.unknown(), "an object with the class, the temperature and what else it takes")
        .describe("As a study states them under conformity for the specification iec60751"),
      unit: z.string("the unit of the measurand").describe("Unit of the measurand, which the limits are in"),
    },
    "a JSON object with parameters and unit",
  )
  .meta({ id: "ToleranceRequest" });
export type ToleranceRequest = z.input<typeof toleranceRequest>;

export const toleranceLimits = z
  .strictObject({
    lower: z.number().nullable().describe("In the unit of the measurand"),
    upper: z.number().nullable().describe("In the unit of the measurand"),
    basis: z.string().nullable(),
  })
  .meta({ id: "ToleranceLimits" });
export type ToleranceLimits = Immutable<z.output<typeof toleranceLimits>>;
