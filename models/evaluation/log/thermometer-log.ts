import { refuse } from "../../../engine/index.ts";
import { showInstant } from "../text/instant.ts";

/** Readings of one thermometer, in order of time. */
export interface ThermometerLog {
  readonly thermometer: string;
  /** Seconds, strictly increasing. */
  readonly times: Float64Array;
  /** °C, as many as times. */
  readonly values: Float64Array;
}

/** An interval without samples, longer than the log's usual interval explains. */
export interface Gap {
  readonly from: number;
  readonly to: number;
}

export interface Sampling {
  readonly samples: number;
  readonly from: number;
  readonly to: number;
  /** Median interval between samples, s. */
  readonly interval: number;
  /** What counts as a gap, s. */
  readonly maximumGap: number;
  readonly gaps: readonly Gap[];
}

/**
 * A log made from any two lists of numbers.
 *
 * @throws {InputError} lists of unequal length, values that are not finite, or times that do not increase
 */
export function thermometerLog(
  thermometer: string,
  times: ArrayLike<number>,
  values: ArrayLike<number>,
): ThermometerLog {
  if (times.length !== values.length)
    refuse(`log.${thermometer}`, `${times.length} times, ${values.length} values`, "as many times as values");
  for (let i = 0; i < times.length; i++) {
    if (!Number.isFinite(times[i])) refuse(`log.${thermometer}.times.${i}`, times[i], "a finite number of seconds");
    if (!Number.isFinite(values[i])) refuse(`log.${thermometer}.values.${i}`, values[i], "a finite temperature");
    if (i > 0 && !(times[i]! > times[i - 1]!))
      refuse(`log.${thermometer}.times.${i}`, times[i], `a time after ${times[i - 1]}`);
  }
  return { thermometer, times: Float64Array.from(times), values: Float64Array.from(values) };
}

/** The part of a log from one moment to another, both included. Shares the log's memory. */
export function between(log: ThermometerLog, from: number, to: number): ThermometerLog {
  const start = firstAtOrAfter(log.times, from);
  const end = firstAfter(log.times, to);
  return {
    thermometer: log.thermometer,
    times: log.times.subarray(start, end),
    values: log.values.subarray(start, end),
  };
}

/** Rhythm and gaps of a log. @throws {InputError} fewer than two samples */
export function samplingOf(log: ThermometerLog, maximumGap?: number): Sampling {
  const { times, thermometer } = log;
  const n = times.length;
  if (n < 2) return refuse(`log.${thermometer}`, `${n} samples`, "at least 2 samples");
  const intervals = new Float64Array(n - 1);
  for (let i = 1; i < n; i++) intervals[i - 1] = times[i]! - times[i - 1]!;
  const interval = intervals.slice().sort()[Math.floor((n - 1) / 2)]!;
  const limit = maximumGap ?? 2.5 * interval;
  const gaps: Gap[] = [];
  for (let i = 1; i < n; i++) if (intervals[i - 1]! > limit) gaps.push({ from: times[i - 1]!, to: times[i]! });
  return { samples: n, from: times[0]!, to: times[n - 1]!, interval, maximumGap: limit, gaps };
}

/** A log cut at its gaps. */
export function stretches(log: ThermometerLog, { gaps, from, to }: Sampling): readonly ThermometerLog[] {
  const starts = [from, ...gaps.map((gap) => gap.to)];
  const ends = [...gaps.map((gap) => gap.from), to];
  return starts.map((start, i) => between(log, start, ends[i]!));
}

/** Gaps in words. */
export const describeGap = ({ from, to }: Gap): string => `nothing between ${showInstant(from)} and ${showInstant(to)}`;

export function firstAtOrAfter(times: Float64Array, moment: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < moment) low = middle + 1;
    else high = middle;
  }
  return low;
}

function firstAfter(times: Float64Array, moment: number): number {
  const at = firstAtOrAfter(times, moment);
  return at < times.length && times[at] === moment ? at + 1 : at;
}
