import { decimalsFor, exponentOf, fixed, scientific } from "./numbers.ts";

/** A number ready for a column: the digits, which stand under each other, and what follows them. */
export interface Entry {
  readonly digits: string;
  /** Power of ten and unit. */
  readonly after: string;
}

const unitText = (power: string, unit: string): string =>
  [power, unit === "1" ? "" : unit].filter((part) => part !== "").join("\u00a0");

/** Decimal places past which a column turns to powers of ten. */
const MOST_DECIMALS = 6;

/** An estimate to the place its standard uncertainty has with two significant digits (GUM 7.2.6). */
export function estimateEntry(estimate: number, uncertainty: number, unit: string): Entry {
  if (uncertainty === 0) return { digits: plain(estimate), after: unitText("", unit) };
  const decimals = decimalsFor(uncertainty, 2);
  if (decimals <= MOST_DECIMALS) return { digits: fixed(estimate, decimals), after: unitText("", unit) };
  if (estimate === 0) return { digits: "0", after: unitText("", unit) };
  // An estimate near one keeps its many places: only numbers that begin with zeros gain by a power of ten.
  if (exponentOf(estimate, 2) >= -3) return { digits: fixed(estimate, decimals), after: unitText("", unit) };
  const { mantissa, power } = scientific(estimate, decimals + exponentOf(estimate, 2));
  return { digits: mantissa, after: unitText(power, unit) };
}

/** A number to significant digits, by powers of ten where its places would not fit a column. */
export function significantEntry(value: number, digits: number, unit: string): Entry {
  if (value === 0) return { digits: "0", after: unitText("", unit) };
  const decimals = decimalsFor(value, digits);
  if (decimals <= MOST_DECIMALS && decimals >= digits - 6) {
    return { digits: fixed(value, Math.max(0, decimals)), after: unitText("", unit) };
  }
  const { mantissa, power } = scientific(value, digits - 1);
  return { digits: mantissa, after: unitText(power, unit) };
}

/** A number with the digits it was written with. */
export function plain(value: number): string {
  const text = String(value);
  if (text.includes("e")) {
    const { mantissa, power } = scientific(value, (text.split("e")[0]!.split(".")[1] ?? "").length);
    return `${mantissa}\u00a0${power}`;
  }
  return fixed(value, (text.split(".")[1] ?? "").length);
}

/**
 * What each text lacks after its decimal sign beside the longest of them, so that a column set flush right stands on
 * its decimal signs.
 */
export function missingPlaces(texts: readonly string[]): string[] {
  const places = texts.map((text) => text.split(".")[1]?.length ?? 0);
  const most = Math.max(0, ...places);
  return places.map((own) => {
    if (own === most) return "";
    return own === 0 ? `.${"0".repeat(most)}` : "0".repeat(most - own);
  });
}
