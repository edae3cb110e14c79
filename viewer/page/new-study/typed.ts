import { parseDecimal } from "../../../models/evaluation/text/decimal.ts";

/** A number as people type it, with a decimal point or comma, either minus sign, and spaces between groups; else `null`. */
export const readNumber = (text: string): number | null =>
  parseDecimal(text.replaceAll(/[\s\u2009\u202f\u00a0]/g, ""))?.value ?? null;

/** The number, or the text for a check to name. */
export const numberOr = (text: string): number | string => readNumber(text) ?? text.trim();

/**
 * The parts of a list of numbers: parted by semicolons, spaces, tabs or lines, or by a comma before a space. A comma inside
 * a part is a decimal comma, unless the part has points as well ("1.5,1.6").
 */
export const partsOf = (text: string): string[] =>
  text
    .split(/;|,?\s+/)
    .flatMap((part) => (part.includes(".") && part.includes(",") ? part.split(",") : [part]))
    .map((part) => part.trim().replace(/,$/, ""))
    .filter((part) => part !== "");

/** The numbers of a list; what is none stays a text, for a check to name. */
export const numbersOr = (text: string): (number | string)[] => partsOf(text).map(numberOr);

/** A list of numbers as the form shows it. */
export const listText = (values: readonly unknown[]): string => values.map(String).join("; ");

/** What can be read as JSON as what it is; any other text as it is. */
export function jsonOr(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return text.trim();
  }
}

export const isFilled = (text: string | undefined): text is string => text !== undefined && text.trim() !== "";

/** A figure of a spreadsheet's cell, "±2,5 mK" in its two parts; `null` if it is none. */
export function figureWithUnit(text: string): { readonly figure: string; readonly unit: string } | null {
  const parts = /^(?:±|\+\/-)?\s*([+\-−]?[\d.,]+(?:e[+-]?\d+)?)\s*([^\d\s.,;].*)?$/iu.exec(text.trim());
  if (parts === null || readNumber(parts[1]!) === null) return null;
  return { figure: parts[1]!, unit: (parts[2] ?? "").trim() };
}
