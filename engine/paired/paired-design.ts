import { centreFor, sumBelow } from "./window.ts";

/**
 * Where one endpoint is looked for: fixed by the study's first blocks, the same on every thread. Values are those of
 * z = (linearised value − its mean)/u and v = (model value − `origin`)/u, for the upper endpoint both with a minus, so that
 * either endpoint is a lower one.
 */
export interface EndDesign {
  readonly sign: 1 | -1;
  /** Centre of the window of linearised values, between two cells. */
  readonly linearised: number;
  /** Centre of the window of model values that counts as many. */
  readonly model: number;
  /** Half-widths of the two windows: the same in standard errors of the endpoint of either; the first in whole cells. */
  readonly linearisedHalfWidth: number;
  readonly modelHalfWidth: number;
  /** The linearised values about the endpoint are counted in cells from here on. */
  readonly cellsFrom: number;
  readonly cellWidth: number;
}

export interface PairedDesign {
  /** Mean of the first blocks' model values. */
  readonly origin: number;
  /** u(y) of the linear budget. */
  readonly unit: number;
  readonly ends: readonly [EndDesign, EndDesign];
}

/** Cells about an endpoint. */
export const CELLS = 256;
/** The density of v is taken from a stretch of this number of windows, in which it is known better. */
export const DENSITY_WINDOWS = 4;
/** Standard errors of an endpoint, as the first blocks know it, that the cells reach to either side. */
const REACH = 6;
/**
 * Half-width of a window in standard errors that an endpoint has from all trials. Wider ones would leave less scatter where
 * the two models are nearly alike, and shift the endpoint by more than that where the model bends.
 */
const WINDOW = 2;
/** Multiple of an endpoint's rank that the match lies below. */
const FAR = 8;
/** Half-width of the windows by which the first blocks' values are matched. */
const WIDE = 3;
/** Fewest trials of the first blocks beyond an endpoint. */
export const FEWEST_BEYOND = 25;

/**
 * @param linearised z of the first blocks' trials
 * @param values the model's values of the same trials
 * @param tail probability beyond either endpoint
 * @param trials number of trials that the run is expected to have
 * @returns `null` if the values about an endpoint are equal, so that it has no standard error
 */
export function pairedDesign(
  linearised: Float64Array,
  values: Float64Array,
  unit: number,
  tail: number,
  trials: number,
): PairedDesign | null {
  const count = values.length;
  let sum = 0;
  for (let t = 0; t < count; t++) sum += values[t]! - values[0]!;
  const origin = values[0]! + sum / count;
  const scaled = values.map((value) => (value - origin) / unit);
  if (!scaled.every(Number.isFinite)) return null;
  const [z, v] = [linearised.toSorted(), scaled.sort()];
  const low = endDesign(1, z, v, tail, trials);
  const high = endDesign(-1, turned(z), turned(v), tail, trials);
  return low === null || high === null ? null : { origin, unit, ends: [low, high] };
}

/** Sorted values with a minus, sorted. */
const turned = (sorted: Float64Array): Float64Array => sorted.map((value) => -value).toReversed();

function endDesign(
  sign: 1 | -1,
  linearised: Float64Array,
  values: Float64Array,
  tail: number,
  trials: number,
): EndDesign | null {
  const count = values.length;
  const rank = Math.max(1, Math.round(tail * count));
  const error = rankError(linearised, rank);
  const modelError = rankError(values, rank);
  if (!(error > 0 && modelError > 0)) return null;
  const centre = linearised[rank - 1]!;
  const cellWidth = (2 * REACH * error) / CELLS;
  // Whole cells, so that what lies in the window is known from them.
  const wanted = (WINDOW * error * Math.sqrt(Math.min(1, count / trials))) / cellWidth;
  const linearisedHalfWidth = Math.max(1, Math.round(wanted)) * cellWidth;
  // So wide that no single trial of the first blocks shifts the match.
  const model = centreFor(
    (at) => sumBelow(values, at, WIDE * modelError),
    sumBelow(linearised, centre, WIDE * error),
    values[0]! - WIDE * modelError,
    values[Math.min(count, FAR * rank) - 1]! + WIDE * modelError,
  );
  return {
    sign,
    linearised: centre,
    model,
    linearisedHalfWidth,
    modelHalfWidth: (linearisedHalfWidth / error) * modelError,
    cellsFrom: centre - (CELLS / 2) * cellWidth,
    cellWidth,
  };
}

/** Standard error of the value of a rank, from those two standard deviations of the rank to either side. */
function rankError(sorted: Float64Array, rank: number): number {
  const deviation = Math.sqrt(rank * (1 - rank / sorted.length));
  const reach = Math.max(1, Math.round(2 * deviation));
  const from = Math.max(0, rank - 1 - reach);
  const to = Math.min(sorted.length - 1, rank - 1 + reach);
  return ((sorted[to]! - sorted[from]!) * deviation) / (to - from);
}

/** Where a trial counts about neither endpoint: one comparison of a square for z and one for v, and not two for each. */
export interface Middle {
  /** A trial counts about an endpoint only if (z − middleZ)² > inZ or (v − middleV)² > inV. */
  readonly middleZ: number;
  readonly inZ: number;
  readonly middleV: number;
  readonly inV: number;
}

export function middleOf({ ends }: PairedDesign): Middle {
  const [lowZ, highZ] = [lastZ(ends[0]), -lastZ(ends[1])];
  const [lowV, highV] = [lastV(ends[0]), -lastV(ends[1])];
  return {
    middleZ: (lowZ + highZ) / 2,
    inZ: highZ > lowZ ? square((highZ - lowZ) / 2) : -1,
    middleV: (lowV + highV) / 2,
    inV: highV > lowV ? square((highV - lowV) / 2) : -1,
  };
}

const square = (x: number): number => x * x;

/** Above these nothing counts about an endpoint. */
const lastZ = ({ cellsFrom, cellWidth }: EndDesign): number => cellsFrom + CELLS * cellWidth;
export const lastV = (end: EndDesign): number => end.model + DENSITY_WINDOWS * end.modelHalfWidth;
