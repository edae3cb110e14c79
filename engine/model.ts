import type { ToleranceSpecification } from "./conformity/tolerance.ts";
import { refuse } from "./errors.ts";
import type { Quantity } from "./record/parts.ts";

export type { Quantity };

/**
 * A calibration curve whose parameters are the model's measurands: the relation between an indication and the value
 * that belongs to it (VIM, 4.31; JCGM 100, H.3).
 */
export interface CalibrationCurve<I extends string = string, O extends string = string> {
  /** What the curve is read at, and the range it is stated for. */
  readonly argument: Quantity & { readonly from: number; readonly to: number };
  /** What is read from it. */
  readonly value: Quantity;
  /** The curve's value; pure, and finite over the whole range. */
  evaluate(measurands: Readonly<Record<O, number>>, argument: number): number;
  /** How many parameters were fitted to the observed points, where the record is to judge the fit. */
  readonly parameters?: number;
  /** The points the curve was fitted to, argument and value, from the inputs' values. */
  observed?(x: Readonly<Record<I, number>>): readonly (readonly [argument: number, value: number])[];
}

/** What may hurt a person who makes a measurement, as sentences. */
export interface Safety {
  /** What does not look right in what the study states. */
  readonly warnings: readonly string[];
  /** What is always to be kept in mind. */
  readonly cautions: readonly string[];
}

/** What `evaluate` may return: every measurand by name, or the bare number where there is only one. */
export type Outputs<O extends string> =
  | Readonly<Record<O, number>>
  | ([O] extends [UnionToIntersection<O>] ? number : never);

type UnionToIntersection<U> = (U extends unknown ? (x: U) => void : never) extends (x: infer I) => void ? I : never;

/**
 * A measurement model Y = f(X₁, …, X_N) (JCGM 101, 5.2): named input quantities, named measurands, and the function.
 *
 * `I` and `O` are the names, known to the compiler: a study that misses an input, or an `evaluate` that reads one not
 * declared, does not compile.
 */
export interface Model<I extends string = string, O extends string = string> {
  /** Identifier in kebab-case, unique among registered models. */
  readonly id: string;
  readonly title: string;
  /** The model equation in words and symbols, for people. */
  readonly equation?: string;
  /** Where the model comes from: a document and clause, or `common practice`. */
  readonly source?: string;
  /** What may hurt a person who makes this measurement. Shown with every result. */
  readonly cautions?: readonly string[];
  /**
   * Judges what a study states under `bath`. Its cautions take the place of `cautions`.
   *
   * @throws {InputError} fields that cannot be used; places start with `bath.`
   */
  safety?(bath: Readonly<Record<string, unknown>>): Safety;
  /** Tolerances a study can name rather than spell out, such as a class of a standard at a temperature. */
  readonly toleranceSpecifications?: Readonly<Record<string, ToleranceSpecification>>;
  readonly inputs: Readonly<Record<I, Quantity>>;
  /**
   * Inputs that a study may leave out. `evaluate` then does not get them and takes them as zero, which must be neutral;
   * the record says which were left out, and why, where the study states it under `negligible`.
   */
  readonly optionalInputs?: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<O, Quantity>>;
  /** The curve that the measurands are parameters of, where they are. */
  readonly calibrationCurve?: CalibrationCurve<I, O>;
  /** Why a trial has no result, where the model can tell: an implicit model says what it found at the bracket's ends. */
  whyNoRoot?(x: Readonly<Record<I, number>>): string;
  /**
   * The model itself: a pure function of one trial's input values. Use `elementary` rather than `Math.log` and the
   * like where the record must re-run to the bit in another JavaScript engine.
   */
  evaluate(x: Readonly<Record<I, number>>): Outputs<O>;
}

/**
 * A model whose inputs are only known once a study states its parameters (the terms of a table, the number of points
 * of a fit).
 */
export interface ModelFamily {
  readonly id: string;
  readonly title: string;
  readonly source?: string;
  /** One sentence a parameter, for people. */
  readonly parameters: Readonly<Record<string, string>>;
  /** @throws {InputError} naming the parameter that cannot be used; places start with `parameters.` */
  build(parameters: Readonly<Record<string, unknown>>): Model;
}

/** Every input that a study may state, the optional ones after those it must. */
export const everyInput = (model: Pick<Model, "inputs" | "optionalInputs">): Readonly<Record<string, Quantity>> => ({
  ...model.inputs,
  ...model.optionalInputs,
});

const NAME = /^[A-Za-z][A-Za-z0-9_]{0,63}$/;
const NAME_ACCEPTED = "a name of letters, digits and _ that starts with a letter, 64 characters at most";
const RESERVED = new Set(["constructor", "prototype", "__proto__", "hasOwnProperty", "toString", "valueOf"]);

/** True where `name` can name an input quantity or a measurand. */
export const isQuantityName = (name: string): boolean => NAME.test(name) && !RESERVED.has(name);

/**
 * Declares a measurement model.
 *
 * @example
 * const density = defineModel({
 *   id: "density",
 *   title: "Density of a body",
 *   measurands: { density: { symbol: "ρ", meaning: "density of the body", unit: "kg/m³" } },
 *   inputs: {
 *     mass: { symbol: "m", meaning: "mass", unit: "kg" },
 *     volume: { symbol: "V", meaning: "volume", unit: "m³" },
 *   },
 *   evaluate: ({ mass, volume }) => mass / volume,
 * });
 *
 * @throws {InputError} a name that cannot be used, no input or measurand at all, or a calibration curve without a range
 */
export function defineModel<const I extends string, const O extends string>(
  // Names come from the declarations alone: what `evaluate` reads and returns is then checked against them.
  model: Omit<Model<I, O>, "evaluate" | "calibrationCurve"> & {
    evaluate(x: Readonly<Record<NoInfer<I>, number>>): Outputs<NoInfer<O>>;
    readonly calibrationCurve?: CalibrationCurve<NoInfer<I>, NoInfer<O>>;
  },
): Model<I, O> {
  if (typeof model.id !== "string" || !/^[a-z0-9]+(-[a-z0-9]+)*$/.test(model.id)) {
    refuse("model.id", model.id, "lower-case words joined by hyphens");
  }
  if (typeof model.evaluate !== "function") refuse("model.evaluate", model.evaluate, "a function of the inputs");
  for (const name of Object.keys(model.optionalInputs ?? {})) {
    if (!isQuantityName(name) || Object.hasOwn(model.inputs, name))
      refuse("model.optionalInputs", name, `${NAME_ACCEPTED}, and no input that must be stated`);
  }
  for (const part of ["inputs", "measurands"] as const) {
    const names = Object.keys(model[part] ?? {});
    if (names.length === 0) refuse(`model.${part}`, "none", "at least one named quantity");
    for (const name of names) if (!isQuantityName(name)) refuse(`model.${part}`, name, NAME_ACCEPTED);
  }
  if (model.calibrationCurve !== undefined) {
    const { from, to } = model.calibrationCurve.argument;
    if (!(from < to && Number.isFinite(to - from))) {
      refuse("model.calibrationCurve.argument", `from ${from} to ${to}`, "two finite numbers, from less than to");
    }
  }
  return Object.freeze(model) as Model<I, O>;
}
