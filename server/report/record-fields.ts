import * as z from "zod";

/** A finite number: what a record writes for any figure that exists. */
export const figure = z.number();
export const whole = z.int().gte(0, { error: "a whole number, 0 or greater" });
export const positive = z.int().gte(1, { error: "a whole number greater than 0" });
export const text = z.string().min(1, { error: "a text that is not empty" });

export const pairOf = <S extends z.ZodType>(schema: S): z.ZodTuple<[S, S]> => z.tuple([schema, schema]);

/** The names of a few things, for a message. */
export const names = (among: Readonly<Record<string, unknown>>): string => {
  const all = Object.keys(among);
  return all.length > 12 ? `${all.slice(0, 12).join(", ")} …` : all.join(", ");
};
