import { InputError, refuse, show, type Problem } from "../../../engine/index.ts";
import { IEC_60751, temperatureAt } from "../../platinum/callendar-van-dusen.ts";
import { coefficientNames, subRangeOf } from "../../platinum/its90/sub-ranges.ts";
import { standardTemperature } from "../../platinum/its90/thermometer.ts";
import { celsius, type ThermometerUnit } from "../text/units.ts";

/** A standard thermometer as its certificate gives it: the deviation function of a sub-range of ITS-90. */
export interface StandardCoefficients {
  /** Number of the sub-range, from "1" to "11". */
  readonly subRange: string;
  /** R(273.16 K), Ω. */
  readonly triplePointResistance: number;
  /** By their names in the deviation function: a, b, c, … */
  readonly coefficients: Readonly<Record<string, number>>;
}

/** What is known of a thermometer that is logged as a resistance. */
export interface ResistanceThermometer {
  /** R₀ in Ω, at 0 °C. */
  readonly nominalResistance?: number | undefined;
  /** Callendar–Van Dusen coefficients of its own certificate; without them those of IEC 60751. */
  readonly coefficients?: { readonly A: number; readonly B: number; readonly C?: number | undefined } | undefined;
  /** In place of both, for a standard thermometer. */
  readonly its90?: StandardCoefficients | undefined;
}

/**
 * Checks that a resistance can be converted.
 *
 * @param place where the thermometer stands, for messages
 * @throws {InputError} a resistance without R₀; a standard thermometer with another conversion beside it, or without
 *   exactly the coefficients of its sub-range
 */
export function checkResistance(place: string, thermometer: ResistanceThermometer): void {
  const { nominalResistance, coefficients, its90 } = thermometer;
  if (its90 === undefined) {
    if (nominalResistance === undefined)
      refuse(
        `${place}.nominalResistance`,
        undefined,
        `R₀ in Ω of ${place}, which is logged as a resistance, or its90 of a standard thermometer`,
      );
    return;
  }
  if (nominalResistance !== undefined || coefficients !== undefined)
    refuse(
      `${place}.its90`,
      `its90 beside ${nominalResistance === undefined ? "coefficients" : "nominalResistance"}`,
      "one conversion: R₀ with Callendar–Van Dusen coefficients, or its90",
    );
  const subRange = subRangeOf(its90.subRange, `${place}.its90.subRange`);
  const names = coefficientNames(subRange);
  const missing: Problem[] = names
    .filter((name) => !Object.hasOwn(its90.coefficients, name))
    .map((name) => ({
      place: `${place}.its90.coefficients.${name}`,
      value: show(undefined),
      accepted: `a number: sub-range ${subRange.number} has W − W_r = ${subRange.equation}`,
    }));
  const strange: Problem[] = Object.keys(its90.coefficients)
    .filter((name) => !names.includes(name))
    .map((name) => ({
      place: `${place}.its90.coefficients.${name}`,
      value: show(its90.coefficients[name]),
      accepted: `nothing: sub-range ${subRange.number} has the coefficients ${names.join(", ")}`,
    }));
  if (missing.length + strange.length > 0) throw new InputError([...missing, ...strange]);
}

/**
 * Converts readings of a unit to °C; resistances with the thermometer's own coefficients if it has some, R(t) =
 * R₀·(1 + A·t + B·t² + C·(t − 100 °C)·t³), C below 0 °C only (IEC 60751:2022, 5.2, with A, B, C of the thermometer), or
 * those of a standard thermometer by the deviation function of ITS-90.
 *
 * The function throws {InputError} for a resistance that the thermometer does not reach.
 */
export function toCelsius(
  unit: ThermometerUnit,
  { nominalResistance, coefficients, its90 }: ResistanceThermometer,
): (value: number) => number {
  if (unit === "Ω" && its90 !== undefined) {
    const subRange = subRangeOf(its90.subRange);
    const standard = {
      subRange,
      coefficients: coefficientNames(subRange).map((name) => its90.coefficients[name]!),
      triplePointResistance: its90.triplePointResistance,
    };
    return (value) => standardTemperature(standard, value);
  }
  if (unit !== "Ω" || coefficients === undefined) return celsius(unit, nominalResistance);
  const { A, B, C = IEC_60751.C } = coefficients;
  return (value) => temperatureAt({ A, B, C }, nominalResistance!, value);
}
