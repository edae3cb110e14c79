/** The mark between whole and fraction. */
export type DecimalMark = "." | ",";

const POINT = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?$/i;
const COMMA = /^[+-]?(?:\d+(?:,\d*)?|,\d+)(?:e[+-]?\d+)?$/i;

/**
 * Reads a decimal number strictly: no thousands separators, nothing before or after. A true minus sign (U+2212) counts
 * as a minus.
 *
 * @returns the number and the mark it was written with (`null` for whole numbers), or `null` for anything else
 */
export function parseDecimal(text: string): { readonly value: number; readonly mark: DecimalMark | null } | null {
  const plain = text.trim().replace("−", "-");
  if (POINT.test(plain)) {
    const value = Number(plain);
    return Number.isFinite(value) ? { value, mark: plain.includes(".") ? "." : null } : null;
  }
  if (COMMA.test(plain)) {
    const value = Number(plain.replace(",", "."));
    return Number.isFinite(value) ? { value, mark: "," } : null;
  }
  return null;
}

/** Decimal places a number was written with: trailing zeros count, since they state how far it was read. */
export function decimalsWritten(text: string): number {
  const parts = /^[+-]?\d*(?:[.,](\d*))?(?:e([+-]?\d+))?$/i.exec(text.trim().replace("−", "-"));
  if (parts === null) return 0;
  return Math.max(0, (parts[1] ?? "").length - Number(parts[2] ?? 0));
}
