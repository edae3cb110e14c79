import * as z from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { studySchema } from "../../engine/internal.ts";

const { trials, seed } = studySchema.shape;

const axisSchema = z
  .strictObject({
    quantity: z.string().min(1).describe("What is swept, in words: bath temperature"),
    unit: z.string().min(1).describe("Its unit"),
    values: z.array(z.number()).min(1).max(200).optional().describe("Its values"),
    from: z.number().optional(),
    to: z.number().optional(),
    count: z.int().min(2).max(200).optional().describe("Number of values from `from` to `to`, evenly spaced"),
  })
  .refine(
    ({ values, from, to, count }) =>
      values === undefined
        ? from !== undefined && to !== undefined && count !== undefined && from < to
        : from === undefined && to === undefined && count === undefined,
    { message: "either values, or from, to (greater) and count" },
  );

/** A figure of a statement that depends on what is swept. */
const dependentFigureSchema = z.union([
  z.number(),
  z.strictObject({
    table: z
      .array(z.tuple([z.number(), z.number()]))
      .min(2)
      .max(200)
      .describe("Pairs of the swept quantity and the figure; straight lines between them, nothing beyond"),
    along: z.enum(["first", "second"]).default("first"),
  }),
  z.strictObject({
    function: z
      .string()
      .min(1)
      .max(400)
      .describe("Expression in t, the first swept quantity, and s, the second: 0.002 + 3e-5*t"),
  }),
  z.strictObject({ resistance: z.number().gt(0).describe("R_0 in Ω: the resistance by IEC 60751 at t in °C") }),
]);

/** A statement in which any figure may depend on what is swept. */
const dependentSchema = z.looseObject({ distribution: z.string().min(1) });

const rangeSchema = z
  .strictObject({
    name: z.string().min(1).max(60).describe("Bath or fluid, as it is called in the laboratory"),
    from: z.number(),
    to: z.number(),
    bath: z.record(z.string(), z.json()).optional().describe("Fluid and safety of the bath, as in a study"),
    survey: z.string().min(1).optional().describe("File of the survey's description, beside this document"),
    inputs: z.record(z.string(), dependentSchema).default({}).describe("Input quantities in this part of the range"),
  })
  .refine(({ from, to }) => from < to, { message: "from less than to" });

/** A study over one or two quantities: what it depends on along the way, and the baths and fluids of each part. */
export const sweepDocumentSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1).optional(),
  study: z
    .union([z.string().min(1), z.record(z.string(), z.json())])
    .describe("The study, or its file beside this document"),
  over: z.array(axisSchema).min(1).max(2).describe("What is swept: one quantity, or two on a grid"),
  inputs: z
    .record(z.string(), dependentSchema)
    .default({})
    .describe("Input quantities that depend on what is swept, over the whole range"),
  certificate: z
    .strictObject({
      file: z.string().min(1).describe("Certificate of the reference, beside this document"),
      on: z.string().optional().describe("Day of use, YYYY-MM-DD"),
      drift: z.enum(["bounds", "rate"]).optional(),
    })
    .optional(),
  ranges: z.array(rangeSchema).max(20).default([]).describe("Baths or fluids, each with the part it serves"),
  trials: trials.optional(),
  seed: seed.optional(),
});

export type SweepDocument = Immutable<z.output<typeof sweepDocumentSchema>>;
export type SweepRange = SweepDocument["ranges"][number];
export type SweepAxis = SweepDocument["over"][number];
export { dependentFigureSchema };
