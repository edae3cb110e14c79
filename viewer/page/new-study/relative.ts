import { isFilled, readNumber } from "./typed.ts";

/** Figures of an uncertainty that may be typed as a part of the estimate. */
const FIELDS: ReadonlySet<string> = new Set(["halfWidth", "standardUncertainty", "expandedUncertainty"]);

/** What a figure before each sign is divided by. */
const SIGNS: Readonly<Record<string, number>> = { "%": 100, "‰": 1000, ppm: 1_000_000 };

/** Longest text that is read as a figure. */
const LONGEST = 60;

/** Whether a unit is one of those that state a part of something. */
export const isPart = (unit: string): boolean => Object.hasOwn(SIGNS, unit.trim());

/** A figure with such a sign after it: "0.5 %", "±20 ppm". */
export interface RelativeFigure {
  readonly figure: number;
  readonly sign: string;
}

/** The figure and the sign of a text typed into a field, or `null` where the text states no part of the estimate. */
export function relativeIn(field: string, text: string): RelativeFigure | null {
  if (text.length > LONGEST) return null;
  const parts = /^(?:±\s*)?(\S.*?)\s*(%|‰|ppm)$/.exec(text.trim());
  const figure = parts === null || !FIELDS.has(field) ? null : readNumber(parts[1]!);
  return figure === null ? null : { figure, sign: parts![2]! };
}

/** A part of an estimate in the estimate's unit, to the 15 digits that a decimal figure keeps. */
export const partOf = ({ figure, sign }: RelativeFigure, estimate: number): number =>
  Number(((figure * Math.abs(estimate)) / SIGNS[sign]!).toPrecision(15));

/**
 * What a row's figure is in the unit of its estimate.
 *
 * @returns `null` where the text states no part, or where the estimate is no number other than 0
 */
export function resolvedPart(field: string, fields: Readonly<Record<string, string>>): number | null {
  const relative = relativeIn(field, fields[field] ?? "");
  const estimate = isFilled(fields["estimate"]) ? readNumber(fields["estimate"]) : null;
  return relative === null || estimate === null || estimate === 0 ? null : partOf(relative, estimate);
}
