import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

const NAME = "a text of at most 200 characters";
const PROBABILITY = "a number above 0 and below 1";
const FACTOR = "a number above 0 and at most 10";

const fields = {
  name: z.string(NAME).trim().max(200, NAME).describe("The laboratory's name, for the head of each sheet"),
  coverage: z.enum(["probability", "factor"], "probability or factor").describe("What the coverage is stated by"),
  probability: z.number(PROBABILITY).gt(0, PROBABILITY).lt(1, PROBABILITY),
  factor: z.number(FACTOR).gt(0, FACTOR).max(10, FACTOR),
  digits: z.union([z.literal(1), z.literal(2)], "1 or 2").describe("Significant digits of u held meaningful"),
  language: z.enum(["en", "de"], "en or de").describe("Language of the glossary and of new reports"),
  seed: z
    .enum(["same", "fresh"], "same or fresh")
    .describe("Whether each new study begins with the seed 1, or with one of its own"),
};

/** What every study of the laboratory begins with. `PUT /api/laboratory` */
export const laboratoryDefaults = z
  .strictObject(fields, "a JSON object with the laboratory's defaults")
  .meta({ id: "LaboratoryDefaults" });
export type LaboratoryDefaults = Immutable<z.output<typeof laboratoryDefaults>>;

/** `GET /api/laboratory` */
export const laboratory = z
  .strictObject({ ...fields, version: z.int().describe("0 if nobody has stated anything") })
  .meta({ id: "Laboratory" });
export type Laboratory = Immutable<z.output<typeof laboratory>>;
