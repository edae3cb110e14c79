import type { Grid } from "./grid.ts";

/** Where results are written: memory of at least `bytes` bytes from `offset`, a multiple of 8, on, whatever it holds. */
export type Room = (bytes: number) => { readonly buffer: ArrayBufferLike; readonly offset: number };

/** Memory of this thread's own. */
export const ownRoom: Room = (bytes) => ({ buffer: new ArrayBuffer(bytes), offset: 0 });

/** Values in the order of the bins of a grid, each bin's in any order, and where each bin begins among them. */
export interface BinnedRun {
  readonly values: Float64Array;
  /** `starts[b]` values lie in bins before b; one more entry than bins. */
  readonly starts: Uint16Array | Uint32Array;
}

/** How wide a count of the run's values must be. */
const countBytes = (count: number): 2 | 4 => (count < 2 ** 16 ? 2 : 4);

/** Bytes that a run of `count` values takes of a room, each of its arrays from a multiple of 8 on. */
export const runBytes = (bins: number, count: number): number =>
  8 * Math.ceil((countBytes(count) * (bins + 2)) / 8) + 8 * count;

/**
 * Puts finite values in the order of their bins. No value is compared with another: with about one a bin that is 9 ns a
 * value where sorting takes 65, and the few bins that are asked for are sorted then.
 *
 * @param grid of 2¹⁶ bins at most
 * @param places space for a bin number a value, at least as long as `values`
 * @param room where the run is written
 */
export function binnedRun(
  values: Float64Array,
  { bins, low, density }: Grid,
  places: Uint16Array,
  room: Room = ownRoom,
): BinnedRun {
  const count = values.length;
  // Counted two places up: once summed, place b + 1 is where bin b begins, and filling moves it to where b + 1 does.
  const width = countBytes(count);
  const counts = room(width * (bins + 2));
  const starts =
    width === 2
      ? new Uint16Array(counts.buffer, counts.offset, bins + 2)
      : new Uint32Array(counts.buffer, counts.offset, bins + 2);
  starts.fill(0);
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
  const { buffer, offset } = room(8 * count);
  const binned = new Float64Array(buffer, offset, count);
  for (let i = 0; i < count; i++) {
    const slot = places[i]! + 1;
    const at = starts[slot]!;
    starts[slot] = at + 1;
    binned[at] = values[i]! + 0; // one zero: −0 and 0 have no order
  }
  return { values: binned, starts: starts.subarray(0, bins + 1) };
}
