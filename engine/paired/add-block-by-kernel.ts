import { BLOCK_TRIALS } from "../random/block.ts";
import type { Kernel } from "../random/kernel/kernel.ts";
import { CELLS, DENSITY_WINDOWS, lastV, middleOf, type PairedDesign } from "./paired-design.ts";
import { MOMENTS, PARTS, type PairedSums } from "./paired-sums.ts";

/*
 * Places in the kernel's memory, in doubles of the room for notes on unfinished draws, none of which are left between
 * fills: sums; then the cells about an endpoint, two doubles each, with one before them for what lies below and one behind
 * them for what lies above; then the indices of the trials that count, as words, and room for those that count for one
 * endpoint.
 */
const CELLS_AT = 8;
const NOTES_AT = CELLS_AT + 2 * (CELLS + 2);
const KEPT_AT = NOTES_AT + BLOCK_TRIALS / 2 + 1;

/** The order of the kernel's sums about an endpoint in `EndSums.parts`. */
const PLACES = [0, 2, 1, 3, 4, 5, 6] as const;

/**
 * Adds a block of trials by the kernel. Every sum has its trials one after the other, as in the plain loops.
 *
 * @returns whether it could: the linearised values must lie in the kernel's memory, and an odd block, which only ends a
 *   run, goes by the loops
 */
export function addByKernel(
  kernel: Kernel,
  sums: PairedSums,
  design: PairedDesign,
  linearised: Float64Array,
  values: Float64Array,
): boolean {
  const z = kernel.addressOf(linearised);
  const count = values.length;
  if (z < 0 || count % 2 !== 0 || count > BLOCK_TRIALS) return false;
  kernel.scratchColumn(count).set(values);
  const v = kernel.scratch;
  const doubles = kernel.noteDoubles;
  const at = doubles.byteOffset;
  const cells = cellsIn(doubles);
  const notes = at + 8 * NOTES_AT;
  const { origin, unit } = design;
  const { middleZ, inZ, middleV, inV } = middleOf(design);
  const last = kernel.pairedSums(z, v, count, at, notes, origin, 1 / unit, middleZ, inZ, middleV, inV);
  for (let k = 0; k < MOMENTS; k++) sums.moments[k]! += doubles[k]!;
  sums.count += count;
  for (let which = 0; which < 2; which++) {
    const end = design.ends[which]!;
    const about = sums.ends[which]!;
    const {
      sign,
      linearised: centreZ,
      linearisedHalfWidth,
      model: centreV,
      modelHalfWidth,
      cellsFrom,
      cellWidth,
    } = end;
    doubles[CELLS_AT] = 0;
    doubles.set(about.cells, CELLS_AT + 2);
    kernel.pairedEnd(
      notes,
      last,
      at + 8 * KEPT_AT,
      z,
      v,
      at,
      at + 8 * (CELLS_AT + 2),
      CELLS,
      sign,
      origin,
      sign / unit,
      centreZ + linearisedHalfWidth,
      2 * linearisedHalfWidth,
      centreV + modelHalfWidth,
      2 * modelHalfWidth,
      cellsFrom,
      1 / cellWidth,
      centreV - DENSITY_WINDOWS * modelHalfWidth,
      lastV(end),
    );
    about.below += doubles[CELLS_AT]!;
    about.cells.set(cells);
    for (let k = 0; k < PARTS; k++) about.parts[PLACES[k]!]! += doubles[k]!;
  }
  return true;
}

/** The cells about an endpoint as a view of the kernel's memory, made once. */
function cellsIn(doubles: Float64Array): Float64Array {
  if (lastCells.in !== doubles)
    lastCells = { in: doubles, cells: doubles.subarray(CELLS_AT + 2, CELLS_AT + 2 + 2 * CELLS) };
  return lastCells.cells;
}

let lastCells: { readonly in: Float64Array; readonly cells: Float64Array } = {
  in: new Float64Array(0),
  cells: new Float64Array(0),
};
