import { binnedRun, roomForStarts, type BinnedRun, type Room } from "./binned-run.ts";
import type { Grid } from "./grid.ts";
import {
  BINNED,
  COUNTS,
  MOST_BINS,
  MOST_VALUES,
  summariesOfThread,
  VALUES,
  type Summaries,
} from "./kernel/summaries.ts";
import { momentsFromSums, momentsOf, type Moments } from "./moments.ts";

/** What is kept of a batch's values of one measurand. */
export interface BinnedSummary {
  readonly run: BinnedRun;
  readonly moments: Moments;
}

/**
 * A batch of finite values in the order of their bins, and its moments: together, since additions of moments wait for one
 * another, and a core finds bins meanwhile. Plain loops do it where there is no WebAssembly, and for an odd number of values.
 *
 * @param places buffer for the bin of each value, at least as long as `values`
 * @param room memory for the run
 */
export function binnedSummary(values: Float64Array, grid: Grid, places: Uint16Array, room: Room): BinnedSummary {
  const kernel =
    values.length % 2 === 0 && values.length <= MOST_VALUES && grid.bins <= MOST_BINS ? summariesOfThread() : null;
  if (kernel !== null && values.length > 0) return summaryByKernel(kernel, values, grid, room);
  return { run: binnedRun(values, grid, places, room), moments: momentsOf(values) };
}

function summaryByKernel(kernel: Summaries, values: Float64Array, grid: Grid, room: Room): BinnedSummary {
  const { bins, low, density } = grid;
  const count = values.length;
  const { buffer } = kernel.memory;
  const counts = new Uint16Array(buffer, COUNTS, bins + 2);
  counts.fill(0);
  new Float64Array(buffer, VALUES, count).set(values);
  const shift = values[0]!;
  const mean = shift + kernel.bin(count, low, density, bins - 1, shift) / count;
  kernel.arrange(count, bins, mean);
  const starts = roomForStarts(bins, count, room).subarray(0, bins + 1);
  starts.set(counts.subarray(0, bins + 1));
  const place = room(8 * count);
  const binned = new Float64Array(place.buffer, place.offset, count);
  binned.set(new Float64Array(buffer, BINNED, count));
  return { run: { values: binned, starts }, moments: momentsFromSums(values, mean, new Float64Array(buffer, 0, 4)) };
}
