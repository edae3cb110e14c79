/**
 * Numerical integration for tests, independent of the engine's own: adaptive Gauss–Kronrod in the middle, the double
 * exponential rule (Takahasi & Mori 1974) where an integrand may be infinite at an end or the end is infinite.
 */

// Piessens et al., QUADPACK (1983): nodes and weights of the 7/15-point Gauss–Kronrod pair.
const KRONROD = [
  [0.9914553711208126, 0.0229353220105292, 0],
  [0.9491079123427585, 0.0630920926299786, 0.1294849661688697],
  [0.8648644233597691, 0.1047900103222502, 0],
  [0.7415311855993945, 0.1406532597159259, 0.2797053914892767],
  [0.5860872354676911, 0.1690047266392679, 0],
  [0.4058451513773972, 0.1903505780647854, 0.3818300505051189],
  [0.2077849550078985, 0.2044329400752989, 0],
] as const;

/** ∫ f over [a, b], halving each part where the two rules disagree by more than `tolerance`, at most 36 times over. */
export function integrate(f: (x: number) => number, a: number, b: number, tolerance: number, depth = 36): number {
  const half = (b - a) / 2;
  const middle = a + half;
  const centre = f(middle);
  let kronrod = 0.2094821410847278 * centre;
  let gauss = 0.4179591836734694 * centre;
  for (const [node, k, g] of KRONROD) {
    const pair = f(middle - half * node) + f(middle + half * node);
    kronrod += k * pair;
    gauss += g * pair;
  }
  if (depth === 0 || Math.abs(kronrod - gauss) * half <= tolerance || middle === a || middle === b)
    return kronrod * half;
  return integrate(f, a, middle, tolerance, depth - 1) + integrate(f, middle, b, tolerance, depth - 1);
}

/** ∫ f over [end, end + length] (length may be negative), where f may be infinite at `end`. */
export function integrateFromEnd(f: (x: number) => number, end: number, length: number): number {
  const STEP = 1 / 32;
  let sum = 0;
  for (let i = -6.5 / STEP; i <= 6.5 / STEP; i++) {
    const t = i * STEP;
    const u = (Math.PI / 2) * Math.sinh(t);
    // The share of the way, small where it is near the end, without cancellation.
    const share = 1 / (1 + Math.exp(-2 * u));
    const weight = ((Math.PI / 2) * Math.cosh(t) * share) / (1 + Math.exp(2 * u));
    const value = f(end + length * share) * weight * 2;
    if (Number.isFinite(value)) sum += value;
  }
  return sum * STEP * Math.abs(length);
}

/** ∫ f from `start` outwards without end, for f that falls at least as a power below −1; `scale` is a typical length. */
export function integrateOutwards(f: (x: number) => number, start: number, scale: number, sign: 1 | -1): number {
  // x = start + scale·(1/s − 1), s from 1 to 0.
  return integrateFromEnd((s) => (f(start + sign * scale * (1 / s - 1)) * scale) / (s * s), 0, 1);
}
