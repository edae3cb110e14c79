import { z } from "zod";
import { numeral } from "./numeral.ts";

const MOST = 1000;
const LIMIT = `a whole number from 1 to ${MOST}`;

/** The query of a list that can be read in parts. */
export const listQuery = z.object({
  limit: numeral(z.int(LIMIT).min(1, LIMIT).max(MOST, LIMIT)).optional().describe("Most that are answered with"),
  after: z
    .string("the id of one that is on the list")
    .optional()
    .describe("Id of the last one before; without it, from the beginning"),
});
