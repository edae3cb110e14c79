import { refuse } from "../../../engine/index.ts";
import { IEC_60751, temperatureAt } from "../../platinum/callendar-van-dusen.ts";
import { celsius, type ThermometerUnit } from "../text/units.ts";

/** What is known of a thermometer that is logged as a resistance. */
export interface ResistanceThermometer {
  /** R₀ in Ω, at 0 °C. */
  readonly nominalResistance?: number | undefined;
  /** Callendar–Van Dusen coefficients of its own certificate; without them those of IEC 60751. */
  readonly coefficients?: { readonly A: number; readonly B: number; readonly C?: number | undefined } | undefined;
}

/** @throws {InputError} a resistance without R₀ */
export function checkResistance(name: string, { nominalResistance }: ResistanceThermometer): void {
  if (nominalResistance === undefined)
    refuse(`${name}.nominalResistance`, undefined, `R₀ in Ω of ${name}, which is logged as a resistance`);
}

/**
 * Converts readings of a unit to °C; resistances with the thermometer's own coefficients if it has some, R(t) =
 * R₀·(1 + A·t + B·t² + C·(t − 100 °C)·t³), C below 0 °C only (IEC 60751:2022, 5.2, with A, B, C of the thermometer).
 *
 * The function throws {InputError} for a resistance that the thermometer does not reach.
 */
export function toCelsius(
  unit: ThermometerUnit,
  { nominalResistance, coefficients }: ResistanceThermometer,
): (value: number) => number {
  if (unit !== "Ω" || coefficients === undefined) return celsius(unit, nominalResistance);
  const { A, B, C = IEC_60751.C } = coefficients;
  return (value) => temperatureAt({ A, B, C }, nominalResistance!, value);
}
