import { CELLS, type EndDesign } from "./paired-design.ts";

/**
 * What trials and their linearised values, drawn alike, have in common, as sums that add up over batches: z and v as in
 * `EndDesign`.
 */
export interface PairedSums {
  count: number;
  /** Σ z, z², z⁴, z·v, z²·v, z²·v². */
  readonly moments: Float64Array;
  readonly ends: readonly [EndSums, EndSums];
}

/** The sums about one endpoint, with a and b the parts of z and of v below it. */
export interface EndSums {
  /** Σ a, a², b, b², a·b, (b − a)⁴, and the number of v within `DENSITY_WINDOWS` windows. */
  readonly parts: Float64Array;
  /** Number of z below the cells. */
  below: number;
  /** Of each cell the number of z, and the sum of their distances from its lower edge, in cells. */
  readonly cells: Float64Array;
}

/** Sums of `moments` and of `parts`. */
export const MOMENTS = 6;
export const PARTS = 7;

export const noPairedSums = (): PairedSums => ({
  count: 0,
  moments: new Float64Array(MOMENTS),
  ends: [noEnd(), noEnd()],
});

const noEnd = (): EndSums => ({ parts: new Float64Array(PARTS), below: 0, cells: new Float64Array(2 * CELLS) });

/** Adds the sums of a batch. Batches come in order: float sums depend on it. */
export function addPaired(into: PairedSums, batch: PairedSums): void {
  into.count += batch.count;
  addTo(into.moments, batch.moments);
  into.ends.forEach((end, which) => {
    const more = batch.ends[which]!;
    addTo(end.parts, more.parts);
    end.below += more.below;
    addTo(end.cells, more.cells);
  });
}

function addTo(sums: Float64Array, more: Float64Array): void {
  for (let i = 0; i < sums.length; i++) sums[i]! += more[i]!;
}

/** The sums as they are now, in arrays of their own. */
export function copyOfPaired(sums: PairedSums): PairedSums {
  const copy = noPairedSums();
  addPaired(copy, sums);
  return copy;
}

/**
 * Σ of the parts of all z below a window that ends between cells.
 *
 * @param centre number of cells below the window's centre
 * @returns `null` if the cells do not reach so far
 */
export function sumOfParts(
  { linearisedHalfWidth, cellWidth }: EndDesign,
  { below, cells }: EndSums,
  centre: number,
): number | null {
  const half = Math.round(linearisedHalfWidth / cellWidth);
  if (!(centre - half >= 0 && centre + half <= CELLS)) return null;
  let sum = below;
  for (let cell = 0; cell < centre + half; cell++) {
    const n = cells[2 * cell]!;
    // Of values from the centre − half to the centre + half, the part falls from 1 to 0.
    sum += cell < centre - half ? n : ((centre + half - cell) * n - cells[2 * cell + 1]!) / (2 * half);
  }
  return sum;
}
