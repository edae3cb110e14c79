import { z } from "zod";
import { quantitySchema, type Immutable } from "../../engine/internal.ts";

const quantities = z.record(z.string(), quantitySchema);
const equation = z.string().nullable().describe("The model equation in words and symbols, if it is stated");
const cautions = z.array(z.string()).describe("What may hurt a person who makes such a measurement");

/** A registered model as a list shows it. */
export const listedModel = z
  .strictObject({
    id: z.string(),
    title: z.string(),
    equation,
    source: z.string().nullable().describe("Where the model comes from"),
    cautions,
    family: z.boolean().describe("Whether its inputs are known only once a study states its parameters"),
    parameters: z.record(z.string(), z.string()).exactOptional().describe("One sentence a parameter"),
    example: z.record(z.string(), z.unknown()).exactOptional().describe("Parameters of a family, as an example"),
    inputs: quantities.exactOptional(),
    optionalInputs: quantities.exactOptional(),
    measurands: quantities.exactOptional(),
  })
  .meta({ id: "ListedModel" });
export type ListedModel = Immutable<z.output<typeof listedModel>>;

/** `GET /api/models` */
export const modelList = z.array(listedModel);
export type ModelList = Immutable<z.output<typeof modelList>>;

/** `POST /api/models/:id` */
export const modelRequest = z
  .object(
    { parameters: z.record(z.string(), z.unknown(), "an object with a field for each parameter").default({}) },
    "a JSON object with parameters",
  )
  .meta({ id: "ModelRequest" });
export type ModelRequest = z.input<typeof modelRequest>;

/** What a model asks for and gives, once its parameters are known. */
export const modelDescription = z
  .strictObject({
    id: z.string(),
    equation,
    cautions,
    inputs: quantities,
    optionalInputs: quantities.describe("Inputs that a study may leave out; they count as zero"),
    measurands: quantities,
    calibrationCurve: z
      .strictObject({
        argument: z.strictObject({ symbol: z.string(), unit: z.string(), from: z.number(), to: z.number() }),
        value: z.strictObject({ symbol: z.string(), unit: z.string() }),
      })
      .nullable()
      .describe("The curve that every record of the model has, over which range"),
  })
  .meta({ id: "ModelDescription" });
export type ModelDescription = Immutable<z.output<typeof modelDescription>>;
