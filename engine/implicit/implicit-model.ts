import { refuse } from "../errors.ts";
import { defineModel, type Model, type Quantity, type Values } from "../model.ts";
import { findBracket, findRoot, findRootBySlope, type Bracket } from "../numerics/root.ts";

/** A measurement model stated as h(Y, X) = 0, if Y cannot be written as a function of X (JCGM 101, 5.2; GUM 4.1.2). */
export interface ImplicitDeclaration<I extends string, O extends string, P extends string = string> extends Omit<
  Model<I, O, P>,
  "evaluate" | "measurands"
> {
  /** Exactly one measurand: Y. */
  readonly measurands: Readonly<Record<O, Quantity>>;
  /** h(y, x): continuous in y, and of opposite signs on the two sides of the root. */
  residual(y: number, x: Values<I, P>): number;
  /** ∂h/∂y, if it is known: the solver then takes Newton steps. */
  slope?(y: number, x: Values<I, P>): number;
  /** Values of y between which the root of a trial lies. Either this or `start` must be given. */
  bracket?(x: Values<I, P>): Bracket;
  /** A good first value of y for a trial; the search for a bracket starts there and takes growing steps. */
  start?(x: Values<I, P>): number;
  /** First step of that search, in the unit of Y: about the distance of the root from the start. */
  readonly step?: number;
  /** Limits of the search: h is defined between these values of y. */
  readonly limits?: Bracket;
  /** Width of the bracket at which y is accepted; by default a few units in the last place. */
  readonly tolerance?: number;
}

/** A model whose `evaluate` solves an equation, and which can explain why a trial has no solution. */
export interface ImplicitModel<I extends string, O extends string, P extends string = string> extends Model<I, O, P> {
  /** The residual at the ends of the bracket, in words: why a trial has no solution. */
  whyNoRoot(x: Readonly<Record<I, number>>): string;
}

/**
 * Declares an implicit measurement model. Every trial solves h(y, x) = 0 by a safeguarded root finder and depends on
 * the trial's inputs alone, so `evaluate` stays a pure function.
 *
 * If no change of sign of h is found, the trial gives NaN, for which the engine throws a `ModelError` with the number
 * and the inputs of the trial; `whyNoRoot(error.inputs)` then gives h at the ends of the bracket.
 *
 * @example
 * const falling = implicitModel({
 *   id: "height-from-time",
 *   title: "Height of a fall in air from its duration",
 *   measurands: { height: { symbol: "s", meaning: "height", unit: "m" } },
 *   inputs: { duration: { symbol: "t", meaning: "duration", unit: "s" } },
 *   residual: (s, { duration }) => 4.9 * duration * duration - s - 0.01 * s * s,
 *   start: ({ duration }) => 4.9 * duration * duration,
 *   step: 0.1,
 * });
 *
 * @throws {InputError} not exactly one measurand, neither bracket nor start, or both
 */
export function implicitModel<const I extends string, const O extends string, const P extends string = never>(
  // As in `defineModel`: the names come from `inputs`, and the types of the functions are checked against them.
  declaration: Omit<ImplicitDeclaration<I, O, P>, "residual" | "slope" | "bracket" | "start"> & {
    residual(y: number, x: Values<NoInfer<I>, NoInfer<P>>): number;
    slope?(y: number, x: Values<NoInfer<I>, NoInfer<P>>): number;
    bracket?(x: Values<NoInfer<I>, NoInfer<P>>): Bracket;
    start?(x: Values<NoInfer<I>, NoInfer<P>>): number;
  },
): ImplicitModel<I, O, P> {
  const { residual, slope, bracket, start, step, limits, tolerance, ...model } = declaration;
  if (Object.keys(model.measurands ?? {}).length !== 1) {
    refuse(
      "model.measurands",
      Object.keys(model.measurands ?? {}).length,
      "exactly one measurand, the Y of h(Y, X) = 0",
    );
  }
  if (typeof residual !== "function") refuse("model.residual", residual, "a function of y and the inputs");
  if ((bracket === undefined) === (start === undefined)) {
    refuse(
      "model.bracket",
      bracket === undefined ? "neither bracket nor start" : "both bracket and start",
      "exactly one of bracket and start",
    );
  }
  if (start !== undefined && !(step !== undefined && step > 0 && step < Infinity)) {
    refuse("model.step", step, "a number greater than 0 beside start");
  }
  if (limits !== undefined && !(limits.low < limits.high)) refuse("model.limits", limits, "low less than high");
  if (tolerance !== undefined && !(tolerance >= 0 && tolerance < Infinity)) {
    refuse("model.tolerance", tolerance, "a number of at least 0");
  }

  const bracketOf = (x: Values<I, P>): Bracket | null =>
    bracket === undefined ? findBracket(residual, x, start!(x), step!, limits) : bracket(x);
  const evaluate = (x: Values<I, P>): number => {
    const found = bracketOf(x);
    if (found === null) return Number.NaN;
    const { low, high } = found;
    if (slope === undefined) return findRoot(residual, x, low, high, tolerance);
    return findRootBySlope(
      residual,
      slope,
      x,
      low,
      high,
      start === undefined ? low + (high - low) / 2 : start(x),
      tolerance,
    );
  };
  // The check for functions that differ between engines reads the text of `evaluate`, which must be the author's.
  const text = [residual, slope, bracket, start]
    .filter((part) => part !== undefined)
    .map(String)
    .join("\n");
  Object.defineProperty(evaluate, "toString", { value: () => text });

  const whyNoRoot = (x: Values<I, P>): string => {
    const found = bracketOf(x);
    if (found === null) {
      return `no change of sign of h was found from the start y = ${start!(x)} (h = ${residual(start!(x), x)}) within the limits`;
    }
    const { low, high } = found;
    return `h(${low}) = ${residual(low, x)} and h(${high}) = ${residual(high, x)}; expected finite values of opposite signs`;
  };
  const built = defineModel({ ...model, evaluate: evaluate as Model<I, O, P>["evaluate"] } as Parameters<
    typeof defineModel<I, O, P>
  >[0]);
  return Object.freeze({ ...built, whyNoRoot });
}
