import { z } from "zod";

/** Values that a query may name once or several times: one alone is no list there. */
export const several = <T extends z.ZodType>(list: T): z.ZodPreprocess<T> =>
  z.preprocess((value) => (value === undefined ? [] : Array.isArray(value) ? value : [value]), list);
