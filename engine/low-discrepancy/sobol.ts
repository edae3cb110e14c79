import { directionNumbers } from "./direction-numbers.ts";

/** Greatest number of dimensions for which there are direction numbers. */
export const LARGEST_DIMENSION = directionNumbers.length + 1;

/** Binary digits of a coordinate. Points 0 … 2^m − 1 differ only in the first m, so 32 digits suffice for 2³² points. */
const DIGITS = 32;

/** Writes the coordinates of points `first` … `first + count − 1`, as integers: 2³² times the coordinate. */
export type SobolCoordinates = (first: number, out: Uint32Array, count: number) => void;

/**
 * One coordinate of Sobol' points, which fill the unit cube evenly: among the first 2^m, every interval
 * [i/2^m, (i + 1)/2^m) of a coordinate contains exactly one, and boxes over several coordinates nearly so.
 *
 * The points are in Gray code order, in which each follows from the previous one by a single exclusive or. Any 2^m
 * points that start at a multiple of 2^m are the points of the plain order, permuted.
 *
 * Sources: I. M. Sobol', USSR Comput. Math. Math. Phys. 7(4), 86–112 (1967); Gray code: I. A. Antonov and V. M. Saleev,
 * ibid. 19(1), 252–256 (1979); direction numbers: Joe and Kuo (direction-numbers.ts).
 *
 * @param dimension from 0 to LARGEST_DIMENSION − 1
 */
export function sobolCoordinates(dimension: number): SobolCoordinates {
  const directions = directionsOf(dimension);
  return (first, out, count) => {
    let x = 0;
    const gray = (first ^ (first >>> 1)) >>> 0;
    for (let k = 0; k < DIGITS; k++) if (((gray >>> k) & 1) === 1) x ^= directions[k]!;
    for (let i = 0; i < count; i++) {
      out[i] = x;
      const next = first + i + 1;
      // The Gray codes of neighbours differ in the lowest set bit of the greater index; at 2³² there is none.
      x ^= directions[(31 - Math.clz32(next & -next)) & 31]!;
    }
  };
}

/** Direction number k as an integer: bit 31 stands for ½. */
function directionsOf(dimension: number): Uint32Array {
  const directions = new Uint32Array(DIGITS);
  if (dimension === 0) {
    for (let k = 0; k < DIGITS; k++) directions[k] = 1 << (31 - k);
    return directions;
  }
  const { coefficients, initial } = directionNumbers[dimension - 1]!;
  const degree = initial.length;
  for (let k = 0; k < DIGITS; k++) {
    if (k < degree) {
      directions[k] = initial[k]! << (31 - k);
      continue;
    }
    let v = directions[k - degree]! ^ (directions[k - degree]! >>> degree);
    for (let i = 1; i < degree; i++) if (((coefficients >>> (degree - 1 - i)) & 1) === 1) v ^= directions[k - i]!;
    directions[k] = v;
  }
  return directions;
}
