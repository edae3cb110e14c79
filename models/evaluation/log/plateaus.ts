import { firstAtOrAfter, samplingOf, type ThermometerLog } from "./thermometer-log.ts";

/** A stretch of a log through which nothing seems to have been moved, s. */
export interface Plateau {
  readonly from: number;
  readonly to: number;
}

/** Points a log is looked at in, at most. */
const MOST_POINTS = 20_000;
/** Samples either side that a level is judged from. */
const SIDE = 12;
/** How far beyond the usual step from reading to reading a movement stands (common practice). */
const JUMP = 10;
/** How far beyond its scatter a level must change. */
const LEVEL = 8;

/**
 * Proposes where nothing moved: a thermometer that is moved in a bath jumps in its own readings, or changes its level
 * against the others. A proposal for a person to mend, and nothing more.
 *
 * @param shortest plateaus that are shorter are left out, s
 */
export function plateaus(logs: readonly ThermometerLog[], shortest = 300): readonly Plateau[] {
  const usable = logs.filter(({ times }) => times.length > 4 * SIDE);
  if (usable.length === 0) return [];
  const start = Math.max(...usable.map(({ times }) => times[0]!));
  const end = Math.min(...usable.map(({ times }) => times.at(-1)!));
  const { interval, gaps } = samplingOf(usable[0]!);
  const step = Math.max(interval, (end - start) / MOST_POINTS);
  const moments = Float64Array.from(
    { length: Math.floor((end - start) / step + 1e-9) + 1 },
    (_, i) => start + i * step,
  );
  if (!(moments.length > 4 * SIDE)) return [];
  const values = usable.map((log) => at(log, moments));
  const mean = moments.map((_, i) => values.reduce((sum, own) => sum + own[i]!, 0) / values.length);
  const against = values.length === 1 ? [] : values.map((own) => own.map((value, i) => value - mean[i]!));
  const moved = new Set<number>();
  for (const own of values) for (const i of jumps(own)) moved.add(i);
  for (const own of against) for (const i of [...jumps(own), ...levelChanges(own)]) moved.add(i);
  for (const { to } of gaps) moved.add(firstAtOrAfter(moments, to));
  return between(
    [...moved].toSorted((a, b) => a - b),
    moments,
    shortest,
  );
}

/** Readings at given moments: the latest at each. */
function at({ times, values }: ThermometerLog, moments: Float64Array): Float64Array {
  let k = 0;
  return moments.map((moment) => {
    while (k + 1 < times.length && times[k + 1]! <= moment) k++;
    return values[k]!;
  });
}

/** The usual size of the step from one value to the next: the median, which a few movements do not change. */
function usualStep(values: Float64Array): number {
  const steps = Float64Array.from(values.subarray(1), (value, i) => Math.abs(value - values[i]!)).sort();
  return Math.max(steps[Math.floor(steps.length / 2)]!, 1e-6);
}

function jumps(values: Float64Array): number[] {
  const limit = JUMP * usualStep(values);
  const found: number[] = [];
  for (let i = 3; i < values.length; i++) {
    const before = median(values.subarray(Math.max(0, i - 5), i));
    if (Math.abs(values[i]! - before) > limit && Math.abs(values[i]! - values[i - 1]!) > limit / 2) found.push(i);
  }
  return found;
}

/** Places where the level of one side departs from that of the other, each at its sharpest. */
function levelChanges(values: Float64Array): number[] {
  // Scatter of a median of n: 1.2533·σ/√n; the median step of white noise is 0.954·σ.
  const limit = (LEVEL * usualStep(values) * 1.2533 * Math.SQRT2) / (0.954 * Math.sqrt(SIDE));
  const found: number[] = [];
  let best = 0;
  let sharpest = -1;
  for (let i = SIDE; i + SIDE <= values.length; i++) {
    const change = Math.abs(median(values.subarray(i, i + SIDE)) - median(values.subarray(i - SIDE, i)));
    if (change > limit) {
      if (change > best) [best, sharpest] = [change, i];
    } else if (sharpest >= 0) {
      found.push(sharpest);
      [best, sharpest] = [0, -1];
    }
  }
  if (sharpest >= 0) found.push(sharpest);
  return found;
}

function median(values: Float64Array): number {
  const sorted = values.slice().sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Plateaus from the first sign of one movement to that of the next: signs close together belong to one movement. */
function between(signs: readonly number[], moments: Float64Array, shortest: number): Plateau[] {
  const starts = signs.filter((sign, i) => i === 0 || moments[sign]! - moments[signs[i - 1]!]! > shortest / 2);
  return [0, ...starts].flatMap((from, k) => {
    const to = (starts[k] ?? moments.length) - 1;
    return to > from && moments[to]! - moments[from]! >= shortest ? [{ from: moments[from]!, to: moments[to]! }] : [];
  });
}
