import { decimalsFor, toDecimals } from "../record/rounding.ts";
import { momentsOf, standardDeviation } from "../statistics/moments.ts";
import type { ConditionalBin, ConditionalPicture } from "../record/sensitivity.ts";

const BINS = 25;
const POINTS = 300;
const LOW = 0.05;
const HIGH = 0.95;

/** The trials in order of one input, and the index at which each bin starts. */
export interface InputOrder {
  readonly input: Float64Array;
  readonly order: Uint32Array;
  readonly starts: readonly number[];
}

/** Sorts trials by an input and divides them into equally probable bins. Trials with equal input stay in one bin. */
export function orderBy(input: Float64Array): InputOrder {
  const order = new Uint32Array(input.length);
  for (let i = 0; i < order.length; i++) order[i] = i;
  order.sort((a, b) => input[a]! - input[b]! || a - b);
  const starts: number[] = [0];
  for (let bin = 1; bin < BINS; bin++) {
    let start = Math.round((bin * order.length) / BINS);
    while (start < order.length && start > 0 && input[order[start]!] === input[order[start - 1]!]) start += 1;
    if (start > starts.at(-1)! && start < order.length) starts.push(start);
  }
  return { input, order, starts };
}

/**
 * The picture of a measurand against an input.
 *
 * @param output the measurand in the trials of `ordered`
 * @param exists whether the measurand has a mean and a standard deviation
 */
export function conditionalPicture(
  { input, order, starts }: InputOrder,
  output: Float64Array,
  exists: { readonly mean: boolean; readonly deviation: boolean },
): ConditionalPicture {
  const bins = starts.map((start, i): ConditionalBin => {
    const trials = order.subarray(start, starts[i + 1] ?? order.length);
    const x = Float64Array.from(trials, (trial) => input[trial]!);
    const y = Float64Array.from(trials, (trial) => output[trial]!);
    const moments = momentsOf(y);
    y.sort();
    return {
      from: x[0]!,
      at: momentsOf(x).mean,
      to: x[x.length - 1]!,
      trials: x.length,
      mean: exists.mean ? moments.mean : null,
      standardError: exists.deviation ? standardDeviation(moments) / Math.sqrt(x.length) : null,
      low: y[Math.ceil(LOW * y.length) - 1]!,
      high: y[Math.ceil(HIGH * y.length) - 1]!,
    };
  });
  const stride = Math.ceil(input.length / POINTS);
  const chosen = Array.from({ length: Math.ceil(input.length / stride) }, (_, i) => i * stride);
  const x = drawable(chosen.map((trial) => input[trial]!));
  const y = drawable(chosen.map((trial) => output[trial]!));
  return { bins, points: x.map((value, i) => [value, y[i]!] as const) };
}

/** Values rounded to a ten-thousandth of their spread, finer than any screen: a record contains thousands of them. */
function drawable(values: readonly number[]): number[] {
  const spread = Math.max(...values) - Math.min(...values);
  const decimals = decimalsFor(spread, 5);
  return spread > 0 && decimals <= 100 ? values.map((value) => Number(toDecimals(value, decimals))) : [...values];
}
