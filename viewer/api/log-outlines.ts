import { z } from "zod";

/** What each thermometer of a log read, drawn small: the least and the greatest value of each stretch. Times in s, °C. */
export const logOutlines = z.array(
  z.strictObject({
    thermometer: z.string(),
    times: z.array(z.number()),
    lowest: z.array(z.number()),
    highest: z.array(z.number()),
  }),
);
