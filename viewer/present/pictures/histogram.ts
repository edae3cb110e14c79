import { sum } from "d3";
import type { Histogram } from "../../../engine/index.ts";

/** Height of the density of each bin: trials over all trials and the bin's width. */
export const densities = ({ counts, width }: Histogram, trials: number): number[] =>
  counts.map((count) => count / (trials * width));

/**
 * The bins within one length of an interval either side of it, if there are enough further out that they would
 * take three quarters of the picture; what is left out counts as below or above.
 */
export function middleOf(histogram: Histogram, [from, to]: readonly [number, number]): Histogram {
  const { low, width, counts } = histogram;
  const length = to - from;
  if (!(length > 0) || width * counts.length <= 4 * length) return histogram;
  const [first, last] = [Math.floor((from - length - low) / width), Math.ceil((to + length - low) / width)];
  return binsWithin(histogram, [low + first * width, low + last * width]);
}

/** Neighbouring bins put together, so that there are `bins`, which divides their number. */
export function mergedBins(histogram: Histogram, bins: number): Histogram {
  const each = histogram.counts.length / bins;
  if (!Number.isInteger(each) || each === 1) return histogram;
  const counts = Array.from({ length: bins }, (_, i) => sum(histogram.counts.slice(i * each, (i + 1) * each)));
  return { ...histogram, width: histogram.width * each, counts };
}

/** The bins that lie within a range; the others count as below or above. */
export function binsWithin(histogram: Histogram, [from, to]: readonly [number, number]): Histogram {
  const { low, width, counts, below, above } = histogram;
  const first = Math.min(counts.length, Math.max(0, Math.ceil((from - low) / width - 1e-9)));
  const last = Math.max(first, Math.min(counts.length, Math.floor((to - low) / width + 1e-9)));
  return {
    low: low + first * width,
    width,
    counts: counts.slice(first, last),
    below: below + sum(counts.slice(0, first)),
    above: above + sum(counts.slice(last)),
  };
}
