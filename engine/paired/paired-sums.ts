import { BLOCK_TRIALS } from "../random/block.ts";
import { CELLS, type EndDesign, type PairedDesign } from "./paired-design.ts";
import { partBelow } from "./window.ts";

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
  /** Number of z below the cells; then of each cell the number of z, and the sum of their distances from its lower edge, in cells. */
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

/** Trials of a block about either endpoint or beyond it. */
const outer = new Uint16Array(BLOCK_TRIALS);

/** Adds a block of trials. @param linearised z @param values of the model, of the same trials */
export function addBlock(sums: PairedSums, design: PairedDesign, linearised: Float64Array, values: Float64Array): void {
  const { origin, unit, ends } = design;
  const count = values.length;
  // Between these limits nothing counts about an endpoint: one comparison of a square, and not two.
  const [lowZ, highZ] = [lastZ(ends[0]), -lastZ(ends[1])];
  const [lowV, highV] = [lastV(ends[0]), -lastV(ends[1])];
  const [middleZ, middleV] = [(lowZ + highZ) / 2, (lowV + highV) / 2];
  const inZ = highZ > lowZ ? square((highZ - lowZ) / 2) : -1;
  const inV = highV > lowV ? square((highV - lowV) / 2) : -1;
  const scale = 1 / unit;
  let [z1, z2, z4, zv, zzv, zzvv] = [0, 0, 0, 0, 0, 0];
  let outers = 0;
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
    if ((z - middleZ) * (z - middleZ) > inZ || (v - middleV) * (v - middleV) > inV) outer[outers++] = t;
  }
  const { moments } = sums;
  moments[0]! += z1;
  moments[1]! += z2;
  moments[2]! += z4;
  moments[3]! += zv;
  moments[4]! += zzv;
  moments[5]! += zzvv;
  sums.count += count;
  for (let end = 0; end < 2; end++) addToEnd(sums.ends[end]!, ends[end]!, outers, linearised, values, design);
}

const square = (x: number): number => x * x;

/** Above these nothing counts. */
const lastZ = ({ cellsFrom, cellWidth }: EndDesign): number => cellsFrom + CELLS * cellWidth;
const lastV = (end: EndDesign): number => end.model + DENSITY_WINDOWS * end.modelHalfWidth;

function addToEnd(
  { parts, cells }: EndSums,
  end: EndDesign,
  outers: number,
  linearised: Float64Array,
  values: Float64Array,
  { origin, unit }: PairedDesign,
): void {
  const { sign, linearised: centreZ, linearisedHalfWidth, model: centreV, modelHalfWidth, cellsFrom, cellWidth } = end;
  const topZ = centreZ + linearisedHalfWidth;
  const topV = lastV(end);
  const bottomV = centreV - DENSITY_WINDOWS * modelHalfWidth;
  const density = 1 / cellWidth;
  const scale = sign / unit;
  let [a1, a2, b1, b2, ab, fourth, inside, below] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < outers; i++) {
    const t = outer[i]!;
    const z = sign * linearised[t]!;
    const v = (values[t]! - origin) * scale;
    const place = (z - cellsFrom) * density;
    if (place < CELLS) {
      if (place < 0) below += 1;
      else {
        const cell = place | 0;
        cells[1 + 2 * cell]! += 1;
        cells[2 + 2 * cell]! += place - cell;
      }
    } else if (v >= topV) continue;
    if (z >= topZ && v >= topV) continue;
    const a = partBelow(z, centreZ, linearisedHalfWidth);
    const b = partBelow(v, centreV, modelHalfWidth);
    const d = (b - a) * (b - a);
    a1 += a;
    a2 += a * a;
    b1 += b;
    b2 += b * b;
    ab += a * b;
    fourth += d * d;
    if (v > bottomV && v < topV) inside += 1;
  }
  cells[0]! += below;
  [a1, a2, b1, b2, ab, fourth, inside].forEach((sum, k) => (parts[k]! += sum));
}

/** The sums of batches and of one more. */
export const addPaired = (before: PairedSums, batch: PairedSums): PairedSums => ({
  count: before.count + batch.count,
  moments: together(before.moments, batch.moments),
  ends: [endsTogether(before.ends[0], batch.ends[0]), endsTogether(before.ends[1], batch.ends[1])],
});

const endsTogether = (a: EndSums, b: EndSums): EndSums => ({
  parts: together(a.parts, b.parts),
  cells: together(a.cells, b.cells),
});

const together = (a: Float64Array, b: Float64Array): Float64Array => a.map((sum, i) => sum + b[i]!);

/**
 * Σ of the parts of all z below a window that ends between cells.
 *
 * @param centre number of cells below the window's centre
 * @returns `null` if the cells do not reach so far
 */
export function sumOfParts(
  { linearisedHalfWidth, cellWidth }: EndDesign,
  { cells }: EndSums,
  centre: number,
): number | null {
  const half = Math.round(linearisedHalfWidth / cellWidth);
  if (!(centre - half >= 0 && centre + half <= CELLS)) return null;
  let sum = cells[0]!;
  for (let cell = 0; cell < centre + half; cell++) {
    const n = cells[1 + 2 * cell]!;
    // Of values from the centre − half to the centre + half, the part falls from 1 to 0.
    sum += cell < centre - half ? n : ((centre + half - cell) * n - cells[2 + 2 * cell]!) / (2 * half);
  }
  return sum;
}
