import { showInstant } from "../text/instant.ts";
import { duration } from "../check.ts";

/** Which of the times are right where the clock of a logger was set back: those before, or those after. */
export type ClockRule = "before" | "after";

/** A place of a log at which the clock went back. */
export interface ClockStep {
  /** Row of the file after which it went on from an earlier time. */
  readonly row: number;
  /** Time of the row before and of this row, s. */
  readonly from: number;
  readonly to: number;
}

/**
 * Straightens the times of a log in file order whose clock was set back: one usual interval is put in the place of each
 * step back, and the part before or after it is moved.
 *
 * @param times s, in the order of the file; they are changed in place
 * @param rule whether the times before the steps are right, or those after
 * @param interval usual interval between rows, s
 * @returns by how much the parts that were moved were moved, s, in order; none if the times increase
 */
export function straighten(times: Float64Array, rule: ClockRule, interval: number): readonly number[] {
  const shifts: number[] = [];
  let total = 0;
  let last = -Infinity;
  for (let i = 0; i < times.length; i++) {
    const written = times[i]!;
    if (i > 0 && written + total < last) {
      total = last + interval - written;
      shifts.push(total);
    }
    times[i] = written + total;
    last = times[i]!;
  }
  if (rule === "before" || total === 0) return shifts;
  for (let i = 0; i < times.length; i++) times[i]! -= total;
  return [0, ...shifts].slice(0, -1).map((shift) => shift - total);
}

/**
 * Spreads rows under one stamp evenly up to the next one: a clock that shows minutes gives several rows the same time.
 * The last stamp's rows keep the step of the stamp before.
 *
 * @param times s, never falling; they are changed in place
 * @returns how many rows were moved
 */
export function spread(times: Float64Array): number {
  let moved = 0;
  let step = 1;
  for (let start = 0; start < times.length;) {
    let end = start + 1;
    while (end < times.length && times[end] === times[start]) end++;
    const count = end - start;
    if (end < times.length) step = (times[end]! - times[start]!) / count;
    for (let i = 1; i < count; i++) times[start + i] = times[start]! + i * step;
    moved += count - 1;
    start = end;
  }
  return moved;
}

/** A step of the clock in words. */
export const describeStep = ({ row, from, to }: ClockStep): string =>
  `the clock went back by ${duration(from - to)} at row ${row}, from ${showInstant(from)} to ${showInstant(to)}`;
