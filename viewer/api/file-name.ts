import { z } from "zod";

const NAME = "the name of a file, of 1 to 200 characters and without a folder";

/** The name of a file that a request sends: evidence of a study names it. */
export const fileName = z.string(NAME).regex(/^[^/\\\p{Cc}]{1,200}$/u, NAME);
