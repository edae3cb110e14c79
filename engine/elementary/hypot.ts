import { SPLIT } from "./binary.ts";

/**
 * √(x² + y²), at most 0.52 ulp off (1 ulp below 2^-1022), without intermediate overflow; ∞ if either is ∞, even if the
 * other is NaN.
 *
 * The root is corrected by the error of its square; the squares are exact, in two parts (C. F. Borges, Algorithm 1014:
 * An improved algorithm for hypot(x, y), ACM TOMS 47(1), 2021, article 9; T. J. Dekker, Numerische Mathematik 18, 1971).
 */
export function hypot(x: number, y: number): number {
  const larger = Math.max(Math.abs(x), Math.abs(y));
  const smaller = Math.min(Math.abs(x), Math.abs(y));
  if (!(larger < 2 ** 500 && smaller > 2 ** -450)) return edge(x, y, larger, smaller);
  const first = larger * larger;
  const second = smaller * smaller;
  const sum = first + second;
  const root = Math.sqrt(sum);
  const lh = larger * SPLIT - (larger * SPLIT - larger);
  const ll = larger - lh;
  const sh = smaller * SPLIT - (smaller * SPLIT - smaller);
  const sl = smaller - sh;
  const rh = root * SPLIT - (root * SPLIT - root);
  const rl = root - rh;
  const square = root * root;
  const firstLow = lh * lh - first + 2 * lh * ll + ll * ll;
  const secondLow = sh * sh - second + 2 * sh * sl + sl * sl;
  const squareLow = rh * rh - square + 2 * rh * rl + rl * rl;
  const lack = sum - square + (first - sum + second + (firstLow + secondLow - squareLow));
  return root + lack / (2 * root);
}

/** NaN, infinities, and sizes whose squares leave the range of doubles. */
function edge(x: number, y: number, larger: number, smaller: number): number {
  if (Math.abs(x) === Infinity || Math.abs(y) === Infinity) return Infinity;
  if (larger === 0) return 0;
  // The next term of the series is below 2^-122 of the larger.
  if (!(smaller * 2 ** 30 > larger)) return larger + smaller * (smaller / larger / 2);
  const scale = larger > 1 ? 2 ** -600 : 2 ** 600;
  return hypot(larger * scale, smaller * scale) / scale;
}
