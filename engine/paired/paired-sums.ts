import { CELLS, type EndDesign, type PairedDesign } from "./paired-design.ts";
import { partBelow } from "./window.ts";

/**
 * What trials and their linearised values, drawn alike, have in common, as sums that add up over batches: z and v as in
 * `EndDesign`.
 */
export interface PairedSums {
  readonly count: number;
  /** Σ z, z², z⁴, z·v, z²·v, z²·v². */
  readonly moments: Float64Array;
  readonly ends: readonly [EndSums, EndSums];
}

/** The sums about one endpoint, with a and b the parts of z and of v below it. */
export interface EndSums {
  /** Σ a, a², b, b², a·b, (b − a)⁴, and the number of v within `DENSITY_WINDOWS` windows. */
  readonly parts: Float64Array;
  /** Number of z below the cells; then of each cell the number of z, and their sum from its lower edge. */
  readonly cells: Float64Array;
}

/** The density of v is taken from a stretch of this number of windows, in which it is known better. */
export const DENSITY_WINDOWS = 4;

const MOMENTS = 6;
const PARTS = 7;
const CELL_FIELDS = 1 + 2 * CELLS;

export const noPairedSums = (): PairedSums => ({
  count: 0,
  moments: new Float64Array(MOMENTS),
  ends: [noEnd(), noEnd()],
});

const noEnd = (): EndSums => ({ parts: new Float64Array(PARTS), cells: new Float64Array(CELL_FIELDS) });

/** The sums of a batch. @param linearised z @param values of the model, of the same trials */
export function pairedSums(
  { origin, unit, ends }: PairedDesign,
  linearised: Float64Array,
  values: Float64Array,
): PairedSums {
  const count = values.length;
  const sums = { ...noPairedSums(), count };
  const [low, high] = ends.map(openEnd) as [OpenEnd, OpenEnd];
  const [lowZ, lowV] = [low.lastZ, low.lastV];
  const [highZ, highV] = [-high.lastZ, -high.lastV];
  const scale = 1 / unit;
  let [z1, z2, z4, zv, zzv, zzvv] = [0, 0, 0, 0, 0, 0];
  for (let t = 0; t < count; t++) {
    const z = linearised[t]!;
    const v = (values[t]! - origin) * scale;
    const zz = z * z;
    const zzTimesV = zz * v;
    z1 += z;
    z2 += zz;
    z4 += zz * zz;
    zv += z * v;
    zzv += zzTimesV;
    zzvv += zzTimesV * v;
    if (z < lowZ || v < lowV) addToEnd(low, sums.ends[0], z, v);
    if (z > highZ || v > highV) addToEnd(high, sums.ends[1], -z, -v);
  }
  sums.moments.set([z1, z2, z4, zv, zzv, zzvv]);
  return sums;
}

interface OpenEnd extends EndDesign {
  /** Above these nothing counts. */
  readonly lastZ: number;
  readonly lastV: number;
}

const openEnd = (design: EndDesign): OpenEnd => ({
  ...design,
  lastZ: Math.max(design.cellsFrom + CELLS * design.cellWidth, design.linearised + design.linearisedHalfWidth),
  lastV: design.model + DENSITY_WINDOWS * design.modelHalfWidth,
});

function addToEnd(design: OpenEnd, { parts, cells }: EndSums, z: number, v: number): void {
  const { cellsFrom, cellWidth, modelHalfWidth } = design;
  const a = partBelow(z, design.linearised, design.linearisedHalfWidth);
  const b = partBelow(v, design.model, modelHalfWidth);
  if (Math.abs(v - design.model) < DENSITY_WINDOWS * modelHalfWidth) parts[6]! += 1;
  parts[0]! += a;
  parts[1]! += a * a;
  parts[2]! += b;
  parts[3]! += b * b;
  parts[4]! += a * b;
  parts[5]! += (b - a) * (b - a) * (b - a) * (b - a);
  const place = (z - cellsFrom) / cellWidth;
  if (place < 0) cells[0]! += 1;
  else if (place < CELLS) {
    const cell = Math.floor(place);
    cells[1 + 2 * cell]! += 1;
    cells[2 + 2 * cell]! += z - (cellsFrom + cell * cellWidth);
  }
}

/** Adds the sums of a batch to those of the batches before it, in their place. */
export function addPaired(to: PairedSums, batch: PairedSums): PairedSums {
  add(to.moments, batch.moments);
  to.ends.forEach(({ parts, cells }, i) => {
    add(parts, batch.ends[i]!.parts);
    add(cells, batch.ends[i]!.cells);
  });
  return { ...to, count: to.count + batch.count };
}

function add(to: Float64Array, more: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] = to[i]! + more[i]!;
}

/**
 * Σ of the parts of all z below an endpoint elsewhere than the design has it, from the cells. Exact but for the two cells
 * in which the window ends.
 *
 * @returns `null` if the cells do not reach so far
 */
export function sumOfParts(
  { cellsFrom, cellWidth }: EndDesign,
  { cells }: EndSums,
  centre: number,
  halfWidth: number,
): number | null {
  if (centre - halfWidth < cellsFrom || centre + halfWidth > cellsFrom + CELLS * cellWidth) return null;
  let sum = cells[0]!;
  for (let cell = 0; cell < CELLS; cell++) {
    const n = cells[1 + 2 * cell]!;
    if (n === 0) continue;
    const from = cellsFrom + cell * cellWidth;
    if (from >= centre + halfWidth) break;
    const mean = from + cells[2 + 2 * cell]! / n;
    sum += n * partBelow(mean, centre, halfWidth);
  }
  return sum;
}
