import { temperature } from "../../platinum/iec60751.ts";

/** Units a log may be kept in, by the ways people write them. */
const SPELLINGS: ReadonlyMap<string, ThermometerUnit> = new Map([
  ["°c", "°C"],
  ["ºc", "°C"],
  ["℃", "°C"],
  ["c", "°C"],
  ["degc", "°C"],
  ["celsius", "°C"],
  ["k", "K"],
  ["kelvin", "K"],
  ["mk", "mK"],
  ["m°c", "mK"],
  ["°f", "°F"],
  ["f", "°F"],
  ["degf", "°F"],
  ["ω", "Ω"],
  ["ohm", "Ω"],
  ["ohms", "Ω"],
]);

export type ThermometerUnit = "°C" | "K" | "mK" | "°F" | "Ω";

export const UNITS_ACCEPTED = "°C, K, mK (from a common zero), °F or Ω (with a nominalResistance)";

/** The unit meant, or `null`. The Ohm and Omega signs count as one. */
export function readUnit(text: string): ThermometerUnit | null {
  if (text.trim() === "mK") return "mK";
  if (/^mk$/i.test(text.trim())) return null; // MK and Mk are not a thermometer's unit
  return SPELLINGS.get(text.trim().toLowerCase().replace("Ω", "ω")) ?? null;
}

/**
 * Converts to °C. `mK` are taken from a zero common to all thermometers of the log: differences are then in kelvin
 * all the same.
 *
 * @param nominalResistance R₀ in Ω, for `Ω` (IEC 60751)
 * @throws {InputError} a resistance outside the range of IEC 60751
 */
export function celsius(unit: ThermometerUnit, nominalResistance: number | undefined): (value: number) => number {
  switch (unit) {
    case "°C":
      return (value) => value;
    case "K":
      return (value) => value - 273.15;
    case "mK":
      return (value) => value / 1000;
    case "°F":
      return (value) => (value - 32) / 1.8;
    case "Ω":
      return (value) => temperature(value, nominalResistance ?? 100);
  }
}

/** A heading such as `HS-11 / °C`, `HS-11 [mK]` or `HS-11 (K)`, in its two parts. */
export function splitHeading(heading: string): { readonly name: string; readonly unit: string | null } {
  const parts = /^(.*?)\s*(?:\/\s*([^/()[\]]+)|\[([^\]]+)\]|\(([^)]+)\))\s*$/.exec(heading.trim());
  if (parts === null || parts[1] === "") return { name: heading.trim(), unit: null };
  return { name: parts[1]!.trim(), unit: (parts[2] ?? parts[3] ?? parts[4])!.trim() };
}
