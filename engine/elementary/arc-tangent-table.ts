import { arcTangent, nearest, PI, rest } from "./fixed-point.ts";

/**
 * The table behind `atan` and `atan2`. The high word divides each octave from 2^-4 to 2^6 into 32
 * cells: cell = (high − FIRST) >> 15. If c is the middle of a cell, arctan x = arctan c + arctan t with
 * t = (x − c)/(1 + c·x), |t| < 2^-6.9. Each cell has four entries from index 4·cell: c, arctan c as the nearest double,
 * its remainder, 0.
 */
export const FIRST = 0x3fb00000;
const CELLS = 320;
export const arcTangentTable = new Float64Array(4 * CELLS);

let angle = 0n;
for (let cell = 0, before = 0; cell < CELLS; cell += 1) {
  const c = (2 * (cell % 32) + 65) * (1 << Math.floor(cell / 32)); // in units of 1/1024
  angle += arcTangent(1024 * (c - before), 2 ** 20 + c * before);
  arcTangentTable.set([c / 1024, nearest(angle), rest(angle, nearest(angle))], 4 * cell);
  before = c;
}

/** π/2 in two parts. */
export const RIGHT = nearest(PI / 2n);
export const RIGHT_LOW = rest(PI / 2n, RIGHT);

/** arctan x for |x| < 1/16: Taylor's series to x^13; the first term left out is below 2^-63 of x. */
export function nearZero(x: number): number {
  if (Math.abs(x) < 2 ** -28) return x;
  const square = x * x;
  const fourth = square * square;
  const series =
    -1 / 3 + square * (1 / 5) + fourth * (-1 / 7 + square * (1 / 9) + fourth * (-1 / 11 + square * (1 / 13)));
  return x + x * square * series;
}
