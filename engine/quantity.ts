import * as z from "zod";
import type { Immutable } from "./immutable.ts";

/** A quantity as a person reads it. */
export const quantityFields = {
  /** Short symbol as written in the model equation, e.g. `R_X`. An underscore starts a subscript. */
  symbol: z.string(),
  /** What it is, in words. */
  meaning: z.string(),
  /** Unit as written after a number; `"1"` for a quantity of dimension one. */
  unit: z.string(),
  /**
   * Of a quantity in °C: true for a difference, correction or change of temperature, of which 1 °C is 1 K; false for a
   * temperature, which is counted from another zero in kelvin. Left out, neither is known, and it is not converted.
   */
  difference: z.boolean().exactOptional(),
};

export const quantitySchema = z.strictObject(quantityFields);

/** A quantity as a person reads it. */
export type Quantity = Immutable<z.output<typeof quantitySchema>>;
