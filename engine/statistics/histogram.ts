import type { Histogram } from "../record/record.ts";
import type { Sample } from "./sample.ts";

/**
 * A histogram with `bins` equal bins over the middle of a sample: all but the outermost 1 in 10⁴ at each end, so that
 * one stray trial of a heavy tail does not squeeze the picture. What lies outside is counted.
 */
export function histogramOf(sample: Sample, bins: number): Histogram {
  const rank = Math.max(1, Math.round(sample.count * 1e-4));
  const from = sample.orderStatistic(rank);
  const to = sample.orderStatistic(sample.count - rank + 1);
  const low = from;
  const width = to > from ? (to - from) / bins : 0;
  if (width === 0 || low + width === low) {
    // All values (nearly) equal: one bin holds them.
    const above = sample.count - sample.countUpTo(to);
    const upTo = sample.countUpTo(to);
    // A bin of a width that a picture can divide by.
    const own = Math.abs(from) * Number.EPSILON;
    return { low: from, width: own > 1e-300 ? own : Number.EPSILON, counts: [upTo], below: 0, above };
  }
  const counts: number[] = [];
  // The first bin takes its lower edge too.
  const below = rank - 1;
  let before = below;
  const edges = Array.from({ length: bins }, (_, i) => (i + 1 === bins ? to : Math.min(to, low + (i + 1) * width)));
  for (const upTo of sample.countsUpTo(edges)) {
    counts.push(Math.max(0, upTo - before));
    before = Math.max(before, upTo);
  }
  return { low, width, counts, below, above: sample.count - before };
}
