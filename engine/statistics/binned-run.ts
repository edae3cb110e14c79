import type { Grid } from "./grid.ts";

/** Values in the order of the bins of a grid, each bin's in any order, and where each bin begins among them. */
export interface BinnedRun {
  readonly values: Float64Array;
  /** `starts[b]` values lie in bins before b; one more entry than bins. */
  readonly starts: Uint16Array | Uint32Array;
}

/**
 * Puts finite values in the order of their bins. No value is compared with another: with about one a bin that is 9 ns a
 * value where sorting takes 65, and the few bins that are asked for are sorted then.
 *
 * @param grid of 2¹⁶ bins at most
 * @param places room for a bin number a value, at least as long as `values`
 */
export function binnedRun(values: Float64Array, { bins, low, density }: Grid, places: Uint16Array): BinnedRun {
  const count = values.length;
  // Counted two places up: once summed, place b + 1 is where bin b begins, and filling moves it to where b + 1 does.
  const starts = count < 2 ** 16 ? new Uint16Array(bins + 2) : new Uint32Array(bins + 2);
  const last = bins - 1;
  for (let i = 0; i < count; i++) {
    const place = (values[i]! - low) * density;
    const bin = place >= last ? last : place > 0 ? place | 0 : 0;
    places[i] = bin;
    starts[bin + 2]! += 1;
  }
  let sum = 0;
  for (let b = 2; b < bins + 2; b++) {
    sum += starts[b]!;
    starts[b] = sum;
  }
  const binned = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const slot = places[i]! + 1;
    const at = starts[slot]!;
    starts[slot] = at + 1;
    binned[at] = values[i]! + 0; // one zero: −0 and 0 have no order
  }
  return { values: binned, starts: starts.subarray(0, bins + 1) };
}
