import type { ReportedRecord } from "../../engine/index.ts";
import type { CalibratedPoint } from "./calibrated-point.ts";
import { differenceOf } from "./repeats.ts";

/** R(0 °C) by one point, Ω. */
export interface ZeroResistance {
  /** Number of the point. */
  readonly number: number;
  readonly resistance: number;
  readonly standardUncertainty: number;
}

/**
 * The resistance of an instrument at 0 °C before and after the other points: what heating and cooling did to it. The change
 * is free of what both points share, so that its uncertainty is far smaller than that of either.
 */
export interface ZeroChange {
  readonly before: ZeroResistance;
  readonly after: ZeroResistance;
  /** After less before, Ω and °C, with standard uncertainties. */
  readonly resistance: number;
  readonly resistanceUncertainty: number;
  readonly temperature: number;
  readonly temperatureUncertainty: number;
  /** |change| greater than twice its standard uncertainty (JCGM 100, 6.2: k = 2). */
  readonly differs: boolean;
}

/** Nominal temperatures no further than this from 0 °C are those of the ice point or the triple point of water, °C. */
const AT_ZERO = 0.01;
/** Step of the derivative, °C: R(t) is smooth, so that the rest is of the order of 1e-10 of it. */
const STEP = 1e-3;

/**
 * The first and the last point at 0 °C. R(0 °C) is what the instrument would have had at 0 °C with the error that it had at
 * the point: R_0·r(e), r the ratio of the scale that errors refer to.
 *
 * @param points in any order
 * @param shownRatio r(t), t in °C
 * @returns `null` without two such points, or where the scale does not reach so far
 */
export function zeroChangeOf(
  points: readonly CalibratedPoint[],
  nominalResistance: number,
  shownRatio: (t: number) => number,
  { joint }: ReportedRecord,
): ZeroChange | null {
  const at = points.filter(({ nominal }) => Math.abs(nominal) <= AT_ZERO).toSorted((a, b) => a.number - b.number);
  const [first, last] = [at[0], at.at(-1)];
  if (joint === null || first === undefined || last === undefined || first === last) return null;
  const slope = (e: number): number => (nominalResistance * (shownRatio(e + STEP) - shownRatio(e - STEP))) / (2 * STEP);
  const resistanceOf = ({ number, error, standardUncertainty }: CalibratedPoint): ZeroResistance => ({
    number,
    resistance: nominalResistance * shownRatio(error),
    standardUncertainty: slope(error) * standardUncertainty,
  });
  const [before, after] = [resistanceOf(first), resistanceOf(last)];
  const { difference, standardUncertainty, differs } = differenceOf(first, last, joint);
  const between = slope((first.error + last.error) / 2);
  const found: ZeroChange = {
    before,
    after,
    resistance: after.resistance - before.resistance,
    resistanceUncertainty: between * standardUncertainty,
    temperature: difference,
    temperatureUncertainty: standardUncertainty,
    differs,
  };
  return Number.isFinite(before.standardUncertainty + after.standardUncertainty + between) ? found : null;
}
