import type { Atoms } from "../distributions/distribution.ts";
import type { Lattice } from "./lattice.ts";
import type { Part } from "./linear-term.ts";

/** Weights of one term at the points of a lattice, point 0 first, negative ones from the end. */
export interface CellWeights {
  readonly weights: Float64Array;
  /** Probability beyond the reach on either side, put at the outermost points. */
  readonly cut: readonly [below: number, above: number];
}

/** Steps that the length `smoothOver` must have for a density to be sampled at the points alone. */
const SAMPLED = 6;
/** A narrower analytic density is sampled at finer points up to this many of these lengths, and cell by cell beyond. */
const NEAR = 16;
/** Cells from an end of the support in which a density may be infinite or jump. */
const AT_ENDS = 8;
/** Parts of a step. A term whose standard deviation is below this is known by its mean and variance alone. */
const NARROW = 1 / 64;
/** The place of mass within a cell matters above this probability. */
const PLACED = 1e-13;
/** Gauss–Legendre on [0, 1]: two nodes of equal weight, exact for cubics; three nodes and weights, exact for the fifth degree. */
const TWO = [0.21132486540518713, 0.7886751345948129] as const;
const THREE = [
  [0.1127016653792583, 5 / 18],
  [0.5, 8 / 18],
  [0.8872983346207417, 5 / 18],
] as const;

/**
 * A term on a lattice. The probability of each cell goes to its point and the two neighbours, so that its mean and its
 * second moment are kept: the transform of the weights is that of the distribution to the fourth power of step times
 * frequency, however rough the density is, and the mean and the variance are exact.
 *
 * Where the density is analytic and wide enough, its values at the points do the same to the last digit.
 */
export function cellWeights(part: Part, lattice: Lattice): CellWeights {
  if (part.atoms !== null) return ofAtoms(part.atoms, lattice);
  const { step } = lattice;
  const weights = new Float64Array(lattice.cells);
  if (part.standardDeviation < NARROW * step) {
    const [mean, deviation] = [part.mean / step, part.standardDeviation / step];
    add(weights, 0, { mass: 1, first: mean, second: mean * mean + deviation * deviation });
    return { weights, cut: [0, 0] };
  }
  if (part.smoothOver > 0) return sampled(part, lattice, weights);
  const [first, last] = placesOf(part, lattice);
  for (let k = first; k <= last; k++) add(weights, k, roughCell(part, k, step));
  return { weights, cut: cutOff(part, weights, lattice, null) };
}

/** The outermost points of a term: those of its support, or of the reach. */
function placesOf({ support }: Part, { step, reach }: Lattice): readonly [number, number] {
  const last = Math.round(reach / step);
  return [Math.max(-last, Math.round(support[0] / step)), Math.min(last, Math.round(support[1] / step))];
}

/** A term whose density is analytic, by its density alone. */
function sampled(part: Part, lattice: Lattice, weights: Float64Array): CellWeights {
  const { step } = lattice;
  const { density, smoothOver } = part;
  const mask = lattice.cells - 1;
  const [first, last] = placesOf(part, lattice);
  let sum = 0;
  if (smoothOver >= SAMPLED * step) {
    const most = Math.max(-first, last);
    const values = part.densities(step, most);
    for (let k = first; k <= last; k++) sum += weights[k & mask] = step * values[k + most]!;
    return { weights, cut: cutOff(part, weights, lattice, 1 - sum) };
  }
  const near = Math.min(last, Math.max(1, Math.ceil((NEAR * smoothOver) / step)));
  const points = Math.ceil((SAMPLED * step) / smoothOver);
  for (let k = -near; k <= near; k++) {
    const cell = { mass: 0, first: 0, second: 0 };
    for (let j = 0; j < points; j++) {
      const offset = (j + 0.5) / points - 0.5;
      const mass = (step / points) * density((k + offset) * step);
      cell.mass += mass;
      cell.first += mass * offset;
      cell.second += mass * offset * offset;
    }
    sum += cell.mass;
    add(weights, k, cell);
  }
  for (const side of [-1, 1]) {
    let [inner, here] = [density(side * near * step), density(side * (near + 1) * step)];
    for (let k = near + 1; k <= last; k++) {
      const outer = density(side * (k + 1) * step);
      const mass = (step * (inner + 22 * here + outer)) / 24;
      sum += mass;
      add(weights, side * k, { mass, first: (side * step * (outer - inner)) / 24, second: mass / 12 });
      [inner, here] = [here, outer];
    }
  }
  return { weights, cut: cutOff(part, weights, lattice, 1 - sum) };
}

/** A cell's probability, and its first and second moments about the cell's point in steps and squares of steps. */
interface Moments {
  readonly mass: number;
  readonly first: number;
  readonly second: number;
}

/** From the distribution function: ∫(x − c) dF and ∫(x − c)² dF by parts, over the piece of the cell within the support. */
function roughCell({ below, above, support }: Part, k: number, step: number): Moments {
  const centre = k * step;
  const left = Math.max(support[0], centre - step / 2);
  const right = Math.min(support[1], centre + step / 2);
  if (!(right > left)) return { mass: 0, first: 0, second: 0 };
  // From the side whose probabilities have the more digits.
  const atLeft = below(left);
  const upper = atLeft > 0.5;
  const start = upper ? above(left) : atLeft;
  const upTo = (x: number): number => (upper ? start - above(x) : below(x) - start);
  const mass = upTo(right);
  if (mass < PLACED) return { mass, first: 0, second: mass / 12 };
  const width = right - left;
  let area = 0;
  let leaning = 0;
  const nearLower = left - support[0] < AT_ENDS * step;
  const nearUpper = support[1] - right < AT_ENDS * step;
  if (nearLower || nearUpper) {
    const lower = nearLower && (!nearUpper || left - support[0] <= support[1] - right);
    for (const [x, weight] of nodesNear(lower ? support[0] : support[1], lower ? 1 : -1, left, right)) {
      const probability = weight * upTo(x);
      area += probability;
      leaning += probability * (x - centre);
    }
  } else {
    // Written out: most cells of most terms come here.
    const one = left + TWO[0] * width;
    const other = left + TWO[1] * width;
    const [first, second] = [0.5 * upTo(one), 0.5 * upTo(other)];
    area = first + second;
    leaning = first * (one - centre) + second * (other - centre);
  }
  const to = (right - centre) / step;
  const relative = width / step;
  return {
    mass,
    first: to * mass - relative * area,
    second: to * to * mass - 2 * relative * (leaning / step),
  };
}

/**
 * Nodes and weights over a piece of a cell near an end of the support. The variable is the root of the distance from it, in
 * which a distribution function that begins like a root (arc sine) or a power is smooth.
 */
function nodesNear(end: number, direction: 1 | -1, left: number, right: number): (readonly [number, number])[] {
  const lower = direction === 1;
  const from = Math.sqrt(lower ? left - end : end - right);
  const to = Math.sqrt(lower ? right - end : end - left);
  return THREE.map(([node, weight]) => {
    const root = from + node * (to - from);
    return [end + direction * root * root, (weight * 2 * root * (to - from)) / (right - left)];
  });
}

/** Quadratic interpolation in reverse: weights at three points with the moments of the cell. */
function add(weights: Float64Array, k: number, { mass, first, second }: Moments): void {
  const mask = weights.length - 1;
  weights[(k - 1) & mask]! += (second - first) / 2;
  weights[k & mask]! += mass - second;
  weights[(k + 1) & mask]! += (second + first) / 2;
}

/**
 * Puts what lies beyond the reach at the outermost points.
 *
 * @param missing what the weights lack of 1, where it is known; the tails share it in their proportion
 * @returns the tails
 */
function cutOff(
  { below, above, support }: Part,
  weights: Float64Array,
  { step, reach }: Lattice,
  missing: number | null,
): readonly [number, number] {
  const last = Math.round(reach / step);
  const mask = weights.length - 1;
  const edge = (last + 0.5) * step;
  const lower = support[0] < -edge ? below(-edge) : 0;
  const upper = support[1] > edge ? above(edge) : 0;
  const tails = lower + upper;
  const scale = missing === null || tails === 0 ? 1 : missing / tails;
  weights[-last & mask]! += lower * scale;
  weights[last & mask]! += upper * scale;
  return [lower, upper];
}

function ofAtoms({ values, probabilities }: Atoms, { cells, step, reach }: Lattice): CellWeights {
  const weights = new Float64Array(cells);
  const last = Math.round(reach / step);
  const cut = [0, 0] as [number, number];
  values.forEach((value, i) => {
    const mass = probabilities[i]!;
    const k = Math.round(value / step);
    if (Math.abs(k) > last) {
      weights[(k < 0 ? -last : last) & (cells - 1)]! += mass;
      cut[k < 0 ? 0 : 1] += mass;
      return;
    }
    const offset = value / step - k;
    add(weights, k, { mass, first: mass * offset, second: mass * offset * offset });
  });
  return { weights, cut };
}
