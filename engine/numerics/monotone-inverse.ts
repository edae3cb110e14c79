/**
 * Solves F(x) = target for a rising F by Newton's method inside a bracket that only shrinks: if a step leaves the
 * bracket, or is more than half as long as the one before, the bracket is halved instead.
 *
 * If F jumps over the target or is flat at it, the result is the least x with F(x) ≥ target.
 *
 * @param slope derivative of F; 0 if there is none
 * @param low F(low) ≤ target
 * @param high F(high) ≥ target
 */
export function monotoneInverse(
  F: (x: number) => number,
  slope: (x: number) => number,
  target: number,
  low: number,
  high: number,
  start = Number.NaN,
): number {
  let x = start;
  let previous = Infinity;
  for (;;) {
    if (!(x > low && x < high)) {
      x = middle(low, high);
      if (!(x > low && x < high)) return high;
    }
    const excess = F(x) - target;
    if (excess >= 0) high = x;
    else low = x;
    const step = excess / slope(x);
    if (Math.abs(step) <= 2 ** -52 * Math.abs(x)) {
      // The far edge of a plateau meets the target too: x is the least only if F is below the target just below x.
      const nearby = x - 2 ** -40 * Math.abs(x);
      if (excess !== 0 || nearby <= low || F(nearby) < target) return x;
      high = nearby;
    }
    // A step that is NaN, from a plateau, fails the comparison too.
    if (Math.abs(step) < previous / 2) {
      x -= step;
      previous = Math.abs(step);
    } else {
      x = middle(low, high);
      previous = high - low;
    }
  }
}

/** A middle that halves exponents if the ends differ by orders of magnitude. */
function middle(low: number, high: number): number {
  if (low > 0 && high > 4 * low) return Math.sqrt(low) * Math.sqrt(high);
  if (high < 0 && low < 4 * high) return -Math.sqrt(-low) * Math.sqrt(-high);
  return low / 2 + high / 2;
}
