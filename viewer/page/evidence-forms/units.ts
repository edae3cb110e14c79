import { figure, text } from "../evidence/text.ts";

/** Unit of small differences of temperature in a form; files have them in K. */
export type SmallUnit = "mK" | "K";

/** Twelve digits hide what a factor of 1000 leaves behind the last one. */
const tidy = (value: number): number => Number(value.toPrecision(12));

/** A typed difference in K, or the text as it was typed. @param sign −1 turns an error into a correction */
export function inKelvin(typed: string, unit: SmallUnit, sign: 1 | -1 = 1): number | string | undefined {
  const value = figure(typed);
  return typeof value === "number" ? tidy((sign * value) / (unit === "mK" ? 1000 : 1)) + 0 : value;
}

/** A difference of a file as it is typed in the unit of the form. */
export const typedFrom = (value: unknown, unit: SmallUnit, sign: 1 | -1 = 1): string =>
  typeof value === "number" ? String(tidy(sign * value * (unit === "mK" ? 1000 : 1)) + 0) : text(value);

const PLACE = "trialband-small-unit";

/** The unit that was chosen last in this browser. */
export function rememberedUnit(): SmallUnit {
  try {
    return localStorage.getItem(PLACE) === "K" ? "K" : "mK";
  } catch {
    return "mK";
  }
}

export function rememberUnit(unit: SmallUnit): void {
  try {
    localStorage.setItem(PLACE, unit);
  } catch {
    // A browser that keeps nothing begins with mK again.
  }
}
