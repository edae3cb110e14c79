/** An interval of Y with h of opposite signs at its ends. */
export interface Bracket {
  readonly low: number;
  readonly high: number;
}

/** Steps after which halving leaves 2⁻²⁰⁰ of a bracket: reached only by roots that near to 0. */
const MOST_STEPS = 200;
/** Widenings of the first step before the search for a bracket stops: the last is 1.6⁶⁰ ≈ 2·10¹² times the first. */
const MOST_WIDENINGS = 60;
const GOLDEN = 1.6;

/**
 * A root of h(·, x) between two values at which its signs differ, to the last bit or two of y, by Chandrupatla's method
 * (T. R. Chandrupatla, Adv. Eng. Software 28(3), 1997, 145–149): inverse quadratic interpolation if it is safe,
 * otherwise bisection. Uses only + − × ÷, hence identical bits on every machine. It cannot leave the bracket.
 *
 * @param x passed to `h` unchanged, so that no function need be made for each trial
 * @param tolerance absolute width of the bracket at which y is accepted; by default four units in the last place
 * @returns NaN if h has one sign at both ends, or is not finite there or in between
 */
export function findRoot<X>(h: (y: number, x: X) => number, x: X, low: number, high: number, tolerance = 0): number {
  let a = high;
  let b = low;
  let c = high;
  let fa = h(a, x);
  let fb = h(b, x);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 !== fb < 0) || !finite(fa) || !finite(fb)) return Number.NaN;
  let fc = fa;
  let share = 0.5;
  for (let step = 0; step < MOST_STEPS; step++) {
    const y = a + share * (b - a);
    const f = h(y, x);
    if (!finite(f)) return Number.NaN;
    if (f < 0 === fa < 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = y;
    fa = f;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const width = Math.abs(b - a);
    const close = 2 * 2 ** -52 * Math.abs(best) + 0.5 * tolerance + 2 ** -1074;
    if (fa === 0 || width <= 2 * close) return best;
    share = nextShare(a, b, c, fa, fb, fc);
    // A step from either end is at least as long as the accepted width.
    const least = close / width;
    share = Math.min(1 - least, Math.max(least, share));
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}

/** Inverse quadratic interpolation through three points if it passes Chandrupatla's test, otherwise the middle. */
function nextShare(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const ξ = (a - b) / (c - b);
  const φ = (fa - fb) / (fc - fb);
  if (!(φ * φ < ξ && (1 - φ) * (1 - φ) < 1 - ξ)) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}

/**
 * A root of h(·, x) by Newton steps from a good start, inside a bracket that every step narrows. A step that would leave
 * the bracket, or gains too little, is replaced by bisection.
 *
 * @param slope ∂h/∂y
 * @returns NaN as `findRoot`
 */
export function findRootBySlope<X>(
  h: (y: number, x: X) => number,
  slope: (y: number, x: X) => number,
  x: X,
  low: number,
  high: number,
  start: number,
  tolerance = 0,
): number {
  const atLow = h(low, x);
  const atHigh = h(high, x);
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow < 0 !== atHigh < 0) || !finite(atLow) || !finite(atHigh)) return Number.NaN;
  let [below, above] = atLow < 0 ? [low, high] : [high, low];
  let y = start >= Math.min(low, high) && start <= Math.max(low, high) ? start : low + (high - low) / 2;
  let moved = Math.abs(high - low);
  let movedBefore = moved;
  for (let step = 0; step < MOST_STEPS; step++) {
    const f = h(y, x);
    if (!finite(f)) return Number.NaN;
    if (f === 0) return y;
    if (f < 0) below = y;
    else above = y;
    const newton = y - f / slope(y, x);
    const inside = newton >= Math.min(below, above) && newton <= Math.max(below, above);
    const quick = inside && Math.abs(newton - y) < 0.5 * movedBefore;
    const next = quick ? newton : below + (above - below) / 2;
    movedBefore = moved;
    moved = Math.abs(next - y);
    if (moved <= 2 * 2 ** -52 * Math.abs(next) + tolerance) return next;
    y = next;
  }
  return y;
}

/**
 * Searches for a bracket from a start, by steps to both sides that grow by a factor 1.6, up to limits.
 *
 * @param step first step, greater than 0: about the distance of the root
 * @returns `null` if no change of sign is found within the limits
 */
export function findBracket<X>(
  h: (y: number, x: X) => number,
  x: X,
  start: number,
  step: number,
  limits: Bracket = { low: -Infinity, high: Infinity },
): Bracket | null {
  let low = clamp(start, limits);
  let high = low;
  let atLow = h(low, x);
  let atHigh = atLow;
  if (atLow === 0) return { low, high };
  let width = step;
  for (let i = 0; i < MOST_WIDENINGS; i++, width *= GOLDEN) {
    const down = clamp(low - width, limits);
    const up = clamp(high + width, limits);
    if (down === low && up === high) return null;
    const atDown = down === low ? atLow : h(down, x);
    if (finite(atDown) && finite(atLow) && atDown < 0 !== atLow < 0) return { low: down, high: low };
    const atUp = up === high ? atHigh : h(up, x);
    if (finite(atUp) && finite(atHigh) && atUp < 0 !== atHigh < 0) return { low: high, high: up };
    if (finite(atDown)) [low, atLow] = [down, atDown];
    if (finite(atUp)) [high, atHigh] = [up, atUp];
  }
  return null;
}

const clamp = (y: number, { low, high }: Bracket): number => Math.min(high, Math.max(low, y));
const finite = (f: number): boolean => f - f === 0;
