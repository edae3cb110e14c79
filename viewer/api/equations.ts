import { z } from "zod";
import { quantitySchema } from "../../engine/internal.ts";
import type { EquationReading, Expression } from "../../models/index.ts";

/** `POST /api/equations`: has a typed equation read and checked, without a study around it. */
export const equationRequest = z
  .object(
    {
      equation: z.string("the equation as a text").describe("Equations in plain algebra, one a line"),
      quantities: z
        .record(z.string(), z.unknown(), "an object with a field for each quantity")
        .default({})
        .describe("Symbol, meaning, unit and difference of quantities, by name"),
      title: z.string("a text: the title of the model that is saved").default(""),
    },
    "a JSON object with an equation",
  )
  .meta({ id: "EquationRequest" });
export type EquationRequest = z.input<typeof equationRequest>;

const place = z
  .strictObject({ from: z.int(), to: z.int() })
  .meta({ id: "PlaceInText", description: "Characters of the text, from the first to the one after the last" });

const expression: z.ZodType<Expression> = z
  .lazy(() =>
    z.discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("number"), value: z.number(), place }),
      z.strictObject({ kind: z.literal("quantity"), name: z.string(), place }),
      z.strictObject({ kind: z.literal("negative"), of: expression, place }),
      z.strictObject({
        kind: z.literal("operation"),
        operator: z.enum(["+", "-", "*", "/", "^"]),
        left: expression,
        right: expression,
        place,
      }),
      z.strictObject({ kind: z.literal("call"), name: z.string(), operands: z.array(expression), place }),
    ]),
  )
  .meta({ id: "Expression" });

const quantities = z.record(z.string(), quantitySchema);

export const equationAnswer = z
  .strictObject({
    problems: z
      .array(z.strictObject({ place, got: z.string(), expected: z.string() }))
      .describe("What is wrong, each with its place in the text; none if the equation can be run"),
    read: z
      .strictObject({
        equations: z.array(z.strictObject({ name: z.string(), namePlace: place, expression })),
        texts: z.array(z.string()).describe("Each equation in plain text, with the symbols of its quantities"),
        inputs: quantities,
        measurands: quantities,
        symbols: z.record(z.string(), z.string()).describe("Symbols of all quantities by name"),
        withoutUnit: z.array(z.string()).describe("Symbols of inputs and results without a stated unit"),
        typescript: z
          .strictObject({ file: z.string(), text: z.string() })
          .describe("The same model as a TypeScript file"),
      })
      .nullable()
      .describe("What was read, or null if something is wrong"),
  })
  .meta({ id: "EquationAnswer" });
export type EquationAnswer = EquationReading;

/** `GET /api/equations/functions`: what an equation may call. */
export const functionList = z.array(
  z
    .strictObject({
      name: z.string(),
      usage: z.string().describe("How it is written"),
      meaning: z.string().describe("What it gives"),
    })
    .meta({ id: "EquationFunction" }),
);
export type FunctionList = readonly Readonly<z.output<typeof functionList>[number]>[];
