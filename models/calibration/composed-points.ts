import * as z from "zod";
import { refuse, type Quantity } from "../../engine/index.ts";
import { isQuantityName, readBySchema, type Immutable } from "../../engine/internal.ts";
import { HIGHEST, LOWEST } from "../platinum/iec60751.ts";
import { pointModelOf, type Observation, type PointModel } from "./point-model.ts";
import { subRangeOf } from "../platinum/its90/sub-ranges.ts";
import { SUB_RANGES } from "./document.ts";
import { copierOf, type Assignment } from "./written-out.ts";

type Values = Readonly<Record<string, number>>;

const pointSchema = z.strictObject({
  name: z.string().min(1).describe("Name of the point within the study, such as p1"),
  nominal: z.number().gte(LOWEST).lte(HIGHEST).describe("Nominal temperature, °C"),
  inputs: z
    .record(z.string(), z.string())
    .describe("Which input of the study each input of the point's model is: points that name the same one share it"),
  exchanged: z
    .boolean()
    .default(false)
    .describe(
      "Whether instrument and reference had exchanged their places: differences between the places change sign",
    ),
});

const fitSchema = z.strictObject({
  nominalResistance: z.number().gt(0).describe("R_0 that errors refer to, Ω"),
  subRange: z
    .enum(SUB_RANGES)
    .optional()
    .describe(
      "Sub-range of ITS-90 whose deviation function is fitted in place of the form of IEC 60751; R_0 is then R(0.01 °C)",
    ),
  fitC: z.boolean().default(false).describe("Whether C is fitted; otherwise it is that of IEC 60751"),
  covariance: z
    .array(z.array(z.number()))
    .optional()
    .describe("Joint covariance of the points, Ω², whose inverse weighs them; without it all count alike"),
});

/** Parameters of a study of several points. */
export const composedSchema = z.strictObject({
  instrument: z.string().min(1),
  pointModel: z.string().default("bath-comparison"),
  pointParameters: z.record(z.string(), z.json()).default({}),
  points: z.array(pointSchema).min(1).max(60),
  fit: fitSchema.nullable().default(null),
});

export type ComposedParameters = Immutable<z.output<typeof composedSchema>>;
export type ComposedPoint = ComposedParameters["points"][number];

/** Differences between two places of a bath: they change sign if the thermometers change places. */
const BETWEEN_PLACES: ReadonlySet<string> = new Set(["bathAxial", "bathRadial"]);

/** One model at several points, with the inputs that they share. */
export interface ComposedPoints {
  readonly parameters: ComposedParameters;
  readonly point: PointModel;
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly optionalInputs: Readonly<Record<string, Quantity>>;
  /** For each point, where the inputs of its model come from. */
  readonly assignments: readonly (readonly Assignment[])[];
  /** Error and temperature of point i in one trial. */
  observe(x: Values, i: number, out: Observation): void;
  /** Error of point i in one trial, identical bit for bit to that of the point's model by itself. */
  error(x: Values, i: number): number;
}

/** @throws {InputError} parameters that cannot be used, placed under `parameters` */
export function composePoints(stated: Readonly<Record<string, unknown>>): ComposedPoints {
  const parameters = readBySchema(composedSchema, stated, "parameters");
  const { pointModel, pointParameters, fit } = parameters;
  const subRange = fit?.subRange === undefined ? null : subRangeOf(fit.subRange);
  const point = pointModelOf(pointModel, pointParameters, subRange);
  const { inputs: needed, optionalInputs: optional = {} } = point.model;
  parameters.points.forEach((given, i) => checkPoint(given, i, parameters, needed, optional));
  const own = [...Object.keys(needed), ...Object.keys(optional)];
  const wired = (field: string): boolean => parameters.points.some(({ inputs }) => Object.hasOwn(inputs, field));
  // An optional input that no point names may still be stated, once for all points.
  const everywhere = Object.keys(optional).filter((field) => !wired(field));
  const assignments = parameters.points.map(({ inputs, exchanged }) =>
    own.map((field): Assignment => ({
      field,
      from: inputs[field] ?? (everywhere.includes(field) ? field : null),
      sure: Object.hasOwn(inputs, field),
      turned: exchanged && BETWEEN_PLACES.has(field),
    })),
  );
  const copy = assignments.map(copierOf);
  const x: Record<string, number> = Object.fromEntries(own.map((field) => [field, 0.5]));
  return {
    parameters,
    point,
    assignments,
    inputs: inputsOf(parameters.points, { ...needed, ...optional }),
    optionalInputs: Object.fromEntries(everywhere.map((field) => [field, optional[field]!])),
    observe(given, i, out) {
      copy[i]!(given, x);
      point.observe(x, out);
    },
    error(given, i) {
      copy[i]!(given, x);
      return point.error(x);
    },
  };
}

function checkPoint(
  { name, inputs }: ComposedPoint,
  i: number,
  { points }: ComposedParameters,
  needed: Readonly<Record<string, Quantity>>,
  optional: Readonly<Record<string, Quantity>>,
): void {
  const place = `parameters.points.${i}`;
  if (!isQuantityName(name)) refuse(`${place}.name`, name, "a name of letters, digits and _ that starts with a letter");
  if (points.findIndex((other) => other.name === name) !== i)
    refuse(`${place}.name`, name, "another name for each point");
  for (const field of Object.keys(needed)) {
    if (!Object.hasOwn(inputs, field))
      refuse(`${place}.inputs.${field}`, undefined, `the input of the study that is ${needed[field]!.meaning} here`);
  }
  const from = new Map<string, string>();
  for (const [field, source] of Object.entries(inputs)) {
    if (!Object.hasOwn(needed, field) && !Object.hasOwn(optional, field))
      refuse(
        `${place}.inputs.${field}`,
        source,
        `nothing: a point has only ${[...Object.keys(needed), ...Object.keys(optional)].join(", ")}`,
      );
    if (!isQuantityName(source))
      refuse(`${place}.inputs.${field}`, source, "a name of letters, digits and _ that starts with a letter");
    if (from.has(source)) refuse(`${place}.inputs.${field}`, source, `another input than that of ${from.get(source)}`);
    from.set(source, field);
  }
}

/** The inputs of the study, each with what it is and at which points. @throws {InputError} one that is two things */
function inputsOf(
  points: readonly ComposedPoint[],
  quantities: Readonly<Record<string, Quantity>>,
): Record<string, Quantity> {
  const found: Record<string, Quantity> = {};
  for (const [field, quantity] of Object.entries(quantities)) {
    const sources = new Map<string, number[]>();
    points.forEach(({ inputs }, i) => {
      const source = inputs[field];
      if (source !== undefined) sources.set(source, [...(sources.get(source) ?? []), i]);
    });
    for (const [source, at] of sources) {
      if (Object.hasOwn(found, source))
        refuse(
          `parameters.points.${at[0]!}.inputs.${field}`,
          source,
          "a name that no other quantity has: one input of the study is one quantity",
        );
      found[source] = at.length === points.length ? quantity : { ...quantity, ...atPoints(quantity, at, points) };
    }
  }
  return found;
}

/** Symbol and meaning of a quantity at some of the points. */
function atPoints(
  { symbol, meaning }: Quantity,
  at: readonly number[],
  points: readonly ComposedPoint[],
): Pick<Quantity, "symbol" | "meaning"> {
  const first = at[0]! + 1;
  return {
    symbol: `${symbol}${symbol.includes("_") ? "," : "_"}${at.map((i) => i + 1).join(",")}`,
    meaning:
      at.length === 1
        ? `${meaning}, point ${first} at ${points[at[0]!]!.nominal} °C`
        : `${meaning}, shared by ${at.length} points, the first of them point ${first}`,
  };
}
