import { kernelOfThread } from "../random/block-generator.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { addByKernel } from "./add-block-by-kernel.ts";
import { CELLS, DENSITY_WINDOWS, lastV, middleOf, type EndDesign, type PairedDesign } from "./paired-design.ts";
import type { EndSums, PairedSums } from "./paired-sums.ts";
import { partBelow } from "./window.ts";

/**
 * Adds a block of trials, by the kernel where it can, otherwise by the plain loops: identical bits.
 *
 * @param linearised z
 * @param values of the model, of the same trials
 */
export function addBlock(sums: PairedSums, design: PairedDesign, linearised: Float64Array, values: Float64Array): void {
  const kernel = kernelOfThread();
  if (kernel === null || !addByKernel(kernel, sums, design, linearised, values))
    addByLoops(sums, design, linearised, values);
}

/** Trials of a block about either endpoint or beyond it. */
const outer = new Uint16Array(BLOCK_TRIALS);

/** The plain loops: the reference for the kernel. */
export function addByLoops(
  sums: PairedSums,
  design: PairedDesign,
  linearised: Float64Array,
  values: Float64Array,
): void {
  const { origin, unit, ends } = design;
  const count = values.length;
  const { middleZ, inZ, middleV, inV } = middleOf(design);
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

function addToEnd(
  sums: EndSums,
  end: EndDesign,
  outers: number,
  linearised: Float64Array,
  values: Float64Array,
  { origin, unit }: PairedDesign,
): void {
  const { sign, linearised: centreZ, linearisedHalfWidth, model: centreV, modelHalfWidth, cellsFrom, cellWidth } = end;
  const { parts, cells } = sums;
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
        cells[2 * cell]! += 1;
        cells[2 * cell + 1]! += place - cell;
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
  sums.below += below;
  [a1, a2, b1, b2, ab, fourth, inside].forEach((sum, k) => (parts[k]! += sum));
}
