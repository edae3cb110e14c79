import { refuse, type Statement } from "../../../engine/index.ts";

/** Differences of temperatures near 100 °C carry digits that mean nothing from the twelfth on, and clutter a study. */
const withoutDust = (value: number): number => Number(value.toPrecision(12));

/** How a quantity known by limits may be stated. */
export type LimitsDistribution = "rectangular" | "triangular" | "arcsine";

/**
 * A quantity known by limits as a study states it.
 *
 * @param place for the message, if the half-width is 0: nothing is known to be exactly uniform or steady
 * @throws {InputError} a half-width that is not greater than 0
 */
export function limitsStatement(
  distribution: LimitsDistribution,
  estimate: number,
  halfWidth: number,
  source: string,
  place: string,
): Statement {
  if (!(halfWidth > 0 && Number.isFinite(halfWidth))) {
    refuse(
      place,
      halfWidth,
      "a half-width greater than 0: if readings do not differ, state their resolution as an input of its own",
    );
  }
  return { distribution, estimate: withoutDust(estimate), halfWidth: withoutDust(halfWidth), source };
}
