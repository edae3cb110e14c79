import type { Quantity } from "../../engine/index.ts";

/** A value in another unit: times the factor, plus the offset; a difference of values takes the factor alone. */
export interface Conversion {
  readonly unit: string;
  readonly factor: number;
  readonly offset: number;
}

/** 0 °C in kelvin, exactly (SI Brochure, 9th edition, 2.3.1). */
const ICE_POINT = 273.15;

/**
 * The units a reader may choose for a quantity, its own first; one alone where there is no choice. What is
 * declared as a temperature in °C may be read in kelvin, from another zero; a difference of temperatures in kelvin or
 * millikelvin, from the same zero; what is declared as neither stays as it is.
 */
export function unitsFor(quantity: Quantity): readonly Conversion[] {
  const own = { unit: quantity.unit, factor: 1, offset: 0 };
  const at = (unit: string, factor: number, offset = 0): Conversion => ({ unit, factor, offset });
  switch (quantity.unit) {
    case "°C":
      if (quantity.difference === undefined) return [own];
      return quantity.difference ? [own, at("mK", 1000), at("K", 1)] : [own, at("K", 1, ICE_POINT)];
    case "K":
      return [own, at("mK", 1000)];
    case "mK":
      return [own, at("K", 0.001)];
    case "Ω":
      return [own, at("mΩ", 1000)];
    default:
      return [own];
  }
}

/** How the quantity is turned to a unit, or `null` where that is its own or not on offer. */
export const conversionTo = (quantity: Quantity, unit: string): Conversion | null =>
  unit === quantity.unit ? null : (unitsFor(quantity).find((offer) => offer.unit === unit) ?? null);
