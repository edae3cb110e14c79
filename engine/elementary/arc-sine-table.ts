import { SPLIT } from "./binary.ts";
import { inverseTangent, nearest, PI, product, quotient, ratio, rest, squareRoot } from "./fixed-point.ts";

/**
 * The table behind `asin` and `acos`: 64 cells of [0, 1], each with middle c. For x = sin α and c = sin γ,
 * sin(α − γ) = (x² − c²)/(x·√(1 − c²) + c·√(1 − x²)). So arcsin x is arcsin c plus a small arc sine, without
 * cancellation.
 *
 * Each cell has four entries from index 4·cell: √(1 − c²), arcsin c as the nearest double, its remainder, 0.
 */
const CELLS = 64;
export const arcSineTable = new Float64Array(4 * CELLS);

const ONE = ratio(1, 1);
let angle = 0n;
let before = 0n;
for (let cell = 0; cell < CELLS; cell += 1) {
  const c = ratio(2 * cell + 1, 128);
  const root = squareRoot(ONE - product(c, c));
  const rootBefore = squareRoot(ONE - product(before, before));
  // tan(γ − γ') = (c·√(1 − c'²) − c'·√(1 − c²))/(√(1 − c²)·√(1 − c'²) + c·c')
  angle += inverseTangent(
    quotient(product(c, rootBefore) - product(before, root), product(root, rootBefore) + product(c, before)),
    -1n,
  );
  arcSineTable.set([nearest(root), nearest(angle), rest(angle, nearest(angle))], 4 * cell);
  before = c;
}

/** π/2 in two parts. */
export const RIGHT = nearest(PI / 2n);
export const RIGHT_LOW = rest(PI / 2n, RIGHT);

/** Above this, arcsin x = π/2 − 2·arcsin √((1 − x)/2) replaces the table. */
export const STEEP = 57 / 64;

/** arcsin size − arcsin c for size below STEEP; c is the middle of its cell and root = √(1 − c²). */
export function fromMiddle(size: number, cell: number, root: number): number {
  const c = (2 * cell + 1) / 128;
  const t = ((size - c) * (size + c)) / (size * root + c * Math.sqrt((1 - size) * (1 + size)));
  const square = t * t;
  // |t| < 2^-5.8, so the terms left out are below 2^-57.
  return t + t * square * (1 / 6 + square * (3 / 40 + square * (15 / 336)));
}

/** arccos size for size in [STEEP, 1]: 2·arcsin √((1 − size)/2), corrected for the rounding of the root. */
export function steep(size: number): number {
  const half = (1 - size) / 2;
  if (half === 0) return 0;
  const root = Math.sqrt(half);
  const first = root * SPLIT - (root * SPLIT - root);
  const lack = (half - first * first - (root - first) * (root + first)) / (2 * root);
  if (root < 1 / 16) return 2 * (root + (lack + cubic(root)));
  const cell = (root * 64) | 0;
  const place = 4 * cell;
  return (
    2 * (arcSineTable[place + 1]! + (arcSineTable[place + 2]! + lack + fromMiddle(root, cell, arcSineTable[place]!)))
  );
}

/** arcsin x − x for |x| < 1/16: Taylor's series to x^13. */
export function cubic(x: number): number {
  const square = x * x;
  const fourth = square * square;
  const series =
    1 / 6 +
    square * (3 / 40) +
    fourth * (15 / 336 + square * (105 / 3456) + fourth * (945 / 42240 + square * (10395 / 599040)));
  return x * square * series;
}
