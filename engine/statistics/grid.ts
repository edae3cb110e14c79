/**
 * Bins of equal width over the values of a measurand; the first and the last include what lies outside. A study
 * has one grid, from its first block of trials: a value's bin is the same on every thread.
 */
export interface Grid {
  readonly bins: number;
  /** Lower edge of the first bin. */
  readonly low: number;
  readonly width: number;
  /** Bins per unit of the value; 0 if all values fall in one bin. */
  readonly density: number;
}

/** Bins that a batch is put in order by: a few trials in each, and their counts stay in a core's first cache. */
export const BATCH_BINS = 4096;
/** Margin at either end, as a fraction of the range of the sample. */
const MARGIN = 0.25;
/** Most interquartile ranges that the grid reaches beyond the quartiles, so that one stray value cannot coarsen it. */
const REACH = 24;

/** The grid for values like these. */
export function gridOver(values: Float64Array, bins = BATCH_BINS): Grid {
  const sorted = values.slice().sort();
  const n = sorted.length;
  const at = (p: number): number => sorted[Math.min(n - 1, Math.floor(p * n))]! / bins;
  // Scaled by the number of bins from the start, so that no difference of large values overflows.
  const range = at(1) - at(0);
  // If half of the values are equal, only the range shows the size of the others.
  const reach = REACH * (at(0.75) - at(0.25)) || range;
  const low = Math.max(at(0) - MARGIN * range, at(0.25) - reach);
  const high = Math.min(at(1) + MARGIN * range, at(0.75) + reach);
  return gridFrom(low * bins, high - low, bins);
}

/** The same range with `times` as many bins. */
export const finerGrid = ({ bins, low, width, density }: Grid, times: number): Grid =>
  density === 0 ? { bins, low, width, density } : gridFrom(low, width / times, bins * times);

function gridFrom(low: number, width: number, bins: number): Grid {
  const density = 1 / width;
  // Values that are equal, nearly equal or too large for a finite range: all in one bin.
  const usable =
    Number.isFinite(low) && width > 0 && Number.isFinite(density) && density > 0 && low + width * bins > low;
  return { bins, low: Number.isFinite(low) ? low : 0, width: usable ? width : 0, density: usable ? density : 0 };
}

/** The bin of a finite value, from 0. Never falls as the value rises. */
export function binOf({ bins, low, density }: Grid, value: number): number {
  const place = (value - low) * density;
  return place >= bins ? bins - 1 : place > 0 ? Math.floor(place) : 0;
}
