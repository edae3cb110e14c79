import { z } from "zod";

/** A number in a query, where everything is text: what is no number is refused in the words of the schema. */
export const numeral = <T extends z.ZodType>(number: T): z.ZodPreprocess<T> =>
  z.preprocess((text) => (typeof text === "string" && text.trim() !== "" ? Number(text) : text), number);
