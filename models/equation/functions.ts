import { elementary } from "../../engine/index.ts";
import * as callendarVanDusen from "../platinum/callendar-van-dusen.ts";
import * as iec60751 from "../platinum/iec60751.ts";
import { temperatureOf as temperatureFromReferenceRatio } from "../platinum/its90/inverse.ts";
import { referenceRatio } from "../platinum/its90/reference-function.ts";

/** What units a function takes and gives; `dimensions.ts` applies the rules. */
export type UnitRule =
  | "of a number"
  | "keeps the unit"
  | "square root"
  | "cube root"
  | "sign"
  | "temperature of a resistance"
  | "resistance of a temperature"
  | "temperature of a ratio"
  | "ratio of a temperature";

const { temperatureFrom, ratioAt } = callendarVanDusen;
const KELVIN = 273.15;
const inRange = (t: number): boolean => t >= iec60751.LOWEST && t <= iec60751.HIGHEST;

/** t in °C from R and R₀: by IEC 60751, or with coefficients of one's own; without C from 0 °C up only (clause 4). */
function temperatureOfResistance(R: number, R0: number, A?: number, B?: number, C?: number): number {
  if (A === undefined) return iec60751.temperatureOf(R / R0);
  const x = R / R0 - 1;
  return C === undefined && x < 0 ? Number.NaN : temperatureFrom(x, A, B!, C ?? 0);
}

/** R in the unit of R₀ from t in °C, as `temperatureOfResistance`. */
function resistanceOfTemperature(t: number, R0: number, A?: number, B?: number, C?: number): number {
  if (!inRange(t) || (A !== undefined && C === undefined && t < 0)) return Number.NaN;
  return R0 * (A === undefined ? iec60751.resistanceRatio(t) : ratioAt({ A, B: B!, C: C ?? 0 }, t));
}

/**
 * The functions that an equation may call, as a model in TypeScript calls them too: those of ISO 80000-2 under its
 * names, and the platinum conversions. Their values are identical, bit for bit, in every JavaScript engine; NaN where a function is not defined.
 */
export const algebra = Object.freeze({
  exp: elementary.exp,
  ln: elementary.ln,
  lg: elementary.log10,
  sin: elementary.sin,
  cos: elementary.cos,
  tan: elementary.tan,
  arcsin: elementary.asin,
  arccos: elementary.acos,
  arctan: elementary.atan,
  sinh: elementary.sinh,
  cosh: elementary.cosh,
  tanh: elementary.tanh,
  sqrt: Math.sqrt,
  cbrt: elementary.cbrt,
  /** A power, written a^b; whole powers up to 4 are products. */
  pow: elementary.pow,
  square: (v: number): number => v * v,
  cube: (v: number): number => v * v * v,
  fourth: (v: number): number => v * v * v * v,
  abs: Math.abs,
  sgn: Math.sign,
  min: (a: number, b: number): number => Math.min(a, b),
  max: (a: number, b: number): number => Math.max(a, b),
  t: temperatureOfResistance,
  R: resistanceOfTemperature,
  /** T₉₀ in °C from the reference ratio W_r, and back (ITS-90, equations 9 and 10). */
  t_90: (Wr: number): number => temperatureFromReferenceRatio(Wr) - KELVIN,
  W_r: (t: number): number => referenceRatio(t + KELVIN),
});

export type FunctionName = keyof typeof algebra;

/** What the reader of an equation knows of a function. */
export interface EquationFunction {
  readonly name: FunctionName;
  /** How many values it takes. */
  readonly operands: readonly number[];
  /** How it is written, for messages and lists. */
  readonly usage: string;
  /** What it gives, for lists. */
  readonly meaning: string;
  readonly units: UnitRule;
}

const one = (name: FunctionName, meaning: string, units: UnitRule = "of a number"): EquationFunction => ({
  name,
  operands: [1],
  usage: `${name}(x)`,
  meaning,
  units,
});
const two = (name: FunctionName, meaning: string): EquationFunction => ({
  name,
  operands: [2],
  usage: `${name}(a, b)`,
  meaning,
  units: "keeps the unit",
});
const platinum = (
  name: FunctionName,
  argument: string,
  range: string,
  meaning: string,
  units: UnitRule,
): EquationFunction => ({
  name,
  meaning,
  operands: [2, 4, 5],
  usage: `${name}(${argument}, R_0) by IEC 60751, or with the thermometer's own coefficients ${name}(${argument}, R_0, A, B) ${range}, ${name}(${argument}, R_0, A, B, C)`,
  units,
});

/** Every function by name, in the order in which lists show them. */
export const equationFunctions: ReadonlyMap<string, EquationFunction> = new Map(
  [
    platinum(
      "t",
      "R",
      "from 0 °C up",
      "temperature in °C of a platinum thermometer from its resistance R and its resistance R_0 at 0 °C",
      "temperature of a resistance",
    ),
    platinum(
      "R",
      "t",
      "from 0 °C up",
      "resistance of a platinum thermometer at t in °C, from its resistance R_0 at 0 °C",
      "resistance of a temperature",
    ),
    {
      ...one("t_90", "temperature in °C of a reference ratio of the ITS-90", "temperature of a ratio"),
      usage: "t_90(W_r)",
    },
    { ...one("W_r", "reference ratio of the ITS-90 at t in °C", "ratio of a temperature"), usage: "W_r(t)" },
    one("exp", "exponential, e to the power x"),
    one("ln", "natural logarithm"),
    one("lg", "decimal logarithm"),
    one("sqrt", "square root; also √x", "square root"),
    one("cbrt", "cube root", "cube root"),
    one("abs", "absolute value; also |x|", "keeps the unit"),
    one("sgn", "sign: −1, 0 or 1", "sign"),
    two("min", "the smaller of the two"),
    two("max", "the greater of the two"),
    one("sin", "sine, x in radians"),
    one("cos", "cosine, x in radians"),
    one("tan", "tangent, x in radians"),
    one("arcsin", "inverse sine, in radians"),
    one("arccos", "inverse cosine, in radians"),
    one("arctan", "inverse tangent, in radians"),
    one("sinh", "hyperbolic sine"),
    one("cosh", "hyperbolic cosine"),
    one("tanh", "hyperbolic tangent"),
  ].map((entry) => [entry.name, entry]),
);

/** Names that people type for a function that has another name here. */
export const otherNames: ReadonlyMap<string, string> = new Map([
  ["log", "ln or lg"],
  ["log10", "lg"],
  ["asin", "arcsin"],
  ["acos", "arccos"],
  ["atan", "arctan"],
  ["pow", "a^b"],
  ["power", "a^b"],
  ["root", "sqrt"],
  ["sign", "sgn"],
]);
