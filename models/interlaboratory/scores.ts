/** A value with its standard uncertainty. */
export interface StatedValue {
  readonly value: number;
  readonly standardUncertainty: number;
}

/** Standard uncertainty of a difference of two values with correlation coefficient r (JCGM 100, 5.2.2). */
export const uncertaintyOfDifference = (a: number, b: number, r = 0): number =>
  Math.sqrt(Math.max(0, a * a + b * b - 2 * r * a * b));

/**
 * ζ score of a result against an assigned value (ISO 13528:2022, 9.6): their difference over its standard uncertainty.
 *
 * @param r correlation coefficient of the two; 0 only if the result is no part of the assigned value
 */
export const zetaScore = (result: StatedValue, assigned: StatedValue, r = 0): number =>
  (result.value - assigned.value) /
  uncertaintyOfDifference(result.standardUncertainty, assigned.standardUncertainty, r);

/**
 * E_n of a result against an assigned value (ISO 13528:2022, 9.7; ISO/IEC 17043:2023, annex B): their difference over its
 * expanded uncertainty. Each side has its own coverage factor; ζ is 2·E_n only if both are 2.
 */
export const normalisedError = (
  result: { readonly value: number; readonly expandedUncertainty: number },
  assigned: { readonly value: number; readonly expandedUncertainty: number },
  r = 0,
): number =>
  (result.value - assigned.value) /
  uncertaintyOfDifference(result.expandedUncertainty, assigned.expandedUncertainty, r);

/** What a ζ score means: at most 2 acceptable, 3 and more calls for action, a warning between (ISO 13528:2022, 9.4). */
export type Standing = "acceptable" | "warning" | "action";

export const standingOfZeta = (zeta: number): Standing =>
  Math.abs(zeta) <= 2 ? "acceptable" : Math.abs(zeta) < 3 ? "warning" : "action";

/** |E_n| of exactly 1 passes. */
export const passes = (normalised: number): boolean => Math.abs(normalised) <= 1;
