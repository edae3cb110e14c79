import { closestName } from "./closest-name.ts";
import type { ToleranceSpecification } from "./tolerance.ts";
import { refuse } from "./errors.ts";
import type { Quantity } from "./quantity.ts";

export type { Quantity };

/**
 * A calibration curve whose parameters are the model's measurands: the relation between an indication and the
 * corresponding value (VIM, 4.31; JCGM 100, H.3).
 */
export interface CalibrationCurve<I extends string = string, O extends string = string> {
  /** The argument of the curve, and the range for which it is stated. */
  readonly argument: Quantity & { readonly from: number; readonly to: number };
  /** The value of the curve. */
  readonly value: Quantity;
  /** The curve's value; pure, and finite over the whole range. */
  evaluate(measurands: Readonly<Record<O, number>>, argument: number): number;
  /** How many parameters were fitted to the observed points, where the record is to judge the fit. */
  readonly parameters?: number;
  /** The fitted points, argument and value, from the inputs' values. */
  observed?(x: Readonly<Record<I, number>>): readonly (readonly [argument: number, value: number])[];
}

/** Hazards of a measurement, as sentences. */
export interface Safety {
  /** Warnings about the statements of the study. */
  readonly warnings: readonly string[];
  /** Hazards that always exist. */
  readonly cautions: readonly string[];
}

/** What `evaluate` may return: every measurand by name, or the bare number if there is only one. */
export type Outputs<O extends string> =
  | Readonly<Record<O, number>>
  | ([O] extends [UnionToIntersection<O>] ? number : never);

type UnionToIntersection<U> = (U extends unknown ? (x: U) => void : never) extends (x: infer I) => void ? I : never;

/**
 * A measurement model Y = f(X₁, …, X_N) (JCGM 101, 5.2): named input quantities, named measurands, and the function.
 *
 * `I`, `O` and `P` are the names of inputs, measurands and optional inputs, known to the compiler: a study that lacks an
 * input, or an `evaluate` that reads an undeclared one, does not compile.
 */
export interface Model<I extends string = string, O extends string = string, P extends string = string> {
  /** Identifier in kebab-case, unique among registered models. */
  readonly id: string;
  readonly title: string;
  /** The model equation in words and symbols, for people. */
  readonly equation?: string;
  /** Where the model comes from: a document and clause, or `common practice`. */
  readonly source?: string;
  /** Hazards of this measurement. Shown with every result. */
  readonly cautions?: readonly string[];
  /**
   * Checks a study's `bath`. Its cautions replace `cautions`.
   *
   * @throws {InputError} fields that cannot be used; places start with `bath.`
   */
  safety?(bath: Readonly<Record<string, unknown>>): Safety;
  /** Tolerances that a study can name instead of stating limits, such as a class of a standard at a temperature. */
  readonly toleranceSpecifications?: Readonly<Record<string, ToleranceSpecification>>;
  readonly inputs: Readonly<Record<I, Quantity>>;
  /**
   * Inputs that a study may leave out. `evaluate` then does not get them and takes them as zero, which must be neutral;
   * the record says which were left out, and why, where the study states it under `negligible`.
   */
  readonly optionalInputs?: Readonly<Record<P, Quantity>>;
  readonly measurands: Readonly<Record<O, Quantity>>;
  /** The curve whose parameters are the measurands, if there is one. */
  readonly calibrationCurve?: CalibrationCurve<I, O>;
  /** Why a trial has no result, if the model can state it: an implicit model gives h at the ends of the bracket. */
  whyNoRoot?(x: Readonly<Record<I, number>>): string;
  /**
   * The model itself: a pure function of one trial's input values. Use `elementary` instead of `Math.log` and the
   * like if the record must reproduce exactly, bit for bit, in another JavaScript engine.
   */
  evaluate(x: Values<I, P>): Outputs<O>;
}

/** The values of one trial: of every input, and of those optional inputs that the study states. */
export type Values<I extends string, P extends string = never> = Readonly<Record<I, number>> &
  // Where the names are not known, nothing is promised of them.
  (string extends P ? unknown : Readonly<Partial<Record<P, number>>>);

/**
 * A model whose inputs depend on parameters that a study states (the terms of a table, the number of points of a fit).
 */
export interface ModelFamily {
  readonly id: string;
  readonly title: string;
  readonly source?: string;
  /** One sentence per parameter, for readers. */
  readonly parameters: Readonly<Record<string, string>>;
  /** Parameters as an example, for who asks what the inputs are. */
  readonly example?: Readonly<Record<string, unknown>>;
  /** Models that its own are made of: a build keeps their programs. */
  readonly parts?: readonly Model[];
  /** Loads what `build` needs beyond its own code, for a family that few studies name; to be awaited before `build`. */
  readonly load?: () => Promise<void>;
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

/** Whether `name` can name an input quantity or a measurand. */
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
export function defineModel<const I extends string, const O extends string, const P extends string = never>(
  // Names come only from the declarations, and the compiler checks `evaluate` against them.
  model: Omit<Model<I, O, P>, "evaluate" | "calibrationCurve"> & {
    evaluate(x: Values<NoInfer<I>, NoInfer<P>>): Outputs<NoInfer<O>>;
    readonly calibrationCurve?: CalibrationCurve<NoInfer<I>, NoInfer<O>>;
  },
): Model<I, O, P> {
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
  for (const part of ["inputs", "optionalInputs", "measurands"] as const)
    for (const [name, quantity] of Object.entries(model[part] ?? {}))
      requireDescribed(`model.${part}.${name}`, quantity);
  if (typeof model.title !== "string") refuse("model.title", model.title, "a text");
  if (model.calibrationCurve !== undefined) {
    const { from, to } = model.calibrationCurve.argument;
    if (!(from < to && Number.isFinite(to - from))) {
      refuse("model.calibrationCurve.argument", `from ${from} to ${to}`, "two finite numbers, from less than to");
    }
  }
  return Object.freeze(model) as Model<I, O, P>;
}

const DESCRIBED = { symbol: "a text such as m", meaning: "a text such as mass", unit: "a text such as kg; 1 for none" };

/** Everything shown and checked later rests on these: a model in JavaScript may lack one, or misspell it. */
function requireDescribed(place: string, quantity: unknown): void {
  if (typeof quantity !== "object" || quantity === null)
    refuse(place, quantity, "an object with symbol, meaning and unit");
  const stated = quantity as Readonly<Record<string, unknown>>;
  for (const [field, accepted] of Object.entries(DESCRIBED)) {
    if (typeof stated[field] === "string") continue;
    const others = Object.keys(stated).filter((other) => !Object.hasOwn(DESCRIBED, other));
    const meant = closestName(field, others);
    refuse(`${place}.${field}`, stated[field], `${accepted}${meant === null ? "" : ` (is ${meant} meant?)`}`);
  }
}
