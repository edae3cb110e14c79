import { refuse } from "../../../engine/index.ts";

/**
 * R(273.16 K) in use from that of the calibration and its relative change since, Ω. A change that is pure strain or
 * oxide scales every resistance alike, so W in use is R/(R_tp·(1 + d)).
 */
export const driftedTriplePoint = (calibrated: number, relativeChange: number): number =>
  calibrated * (1 + relativeChange);

/**
 * Relative change of R(273.16 K) at a time between two measurements of it, by a straight line.
 *
 * @param elapsed years from the first to the moment in question
 * @param interval years between the two
 * @throws {InputError} a resistance or interval not greater than 0, a moment outside the interval
 */
export function interpolatedDrift(first: number, second: number, interval: number, elapsed: number): number {
  if (!(first > 0 && first < Infinity)) refuse("first", first, "a resistance greater than 0 Ω");
  if (!(second > 0 && second < Infinity)) refuse("second", second, "a resistance greater than 0 Ω");
  if (!(interval > 0 && interval < Infinity)) refuse("interval", interval, "a time greater than 0");
  if (!(elapsed >= 0 && elapsed <= interval)) {
    refuse("elapsed", elapsed, `a time from 0 to ${interval}, between the two measurements`);
  }
  return ((second / first - 1) * elapsed) / interval;
}
