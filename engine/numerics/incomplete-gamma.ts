import { poissonProbability } from "./saddle-point.ts";

/** Relative size below which a further term changes nothing. */
const NEGLIGIBLE = 2 ** -54;
const TINY = 1e-300;

/**
 * The regularised incomplete gamma functions P(a, x) and Q(a, x) = 1 − P: the distribution function of a gamma quantity
 * of shape a and scale 1, and its complement, each with a relative error of about 1e-13, however small.
 *
 * Source: M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions", 6.5.29 (series, if x < a + 1) and
 * 6.5.31 (continued fraction, otherwise), with Loader's saddle-point form for the common factor. Costs about √a steps.
 */
export function lowerGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  if (x === Infinity) return 1;
  return x < a + 1 ? series(a, x) : 1 - fraction(a, x);
}

/** Q(a, x): see `lowerGamma`. */
export function upperGamma(a: number, x: number): number {
  if (x <= 0) return 1;
  if (x === Infinity) return 0;
  return x < a + 1 ? 1 - series(a, x) : fraction(a, x);
}

function series(a: number, x: number): number {
  const factor = poissonProbability(a, x);
  if (factor === 0) return 0;
  let term = 1;
  let sum = 1;
  for (let n = 1; term > sum * NEGLIGIBLE; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return Math.min(1, factor * sum);
}

/** Lentz's evaluation of the continued fraction of Q, whose partial numerators are n(a − n). */
function fraction(a: number, x: number): number {
  const factor = poissonProbability(a, x) * a;
  if (factor === 0) return 0;
  let denominator = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / denominator;
  let value = d;
  for (let n = 1; ; n++) {
    const numerator = n * (a - n);
    denominator += 2;
    d = numerator * d + denominator;
    if (Math.abs(d) < TINY) d = TINY;
    c = denominator + numerator / c;
    if (Math.abs(c) < TINY) c = TINY;
    d = 1 / d;
    const step = c * d;
    value *= step;
    if (Math.abs(step - 1) <= 2 ** -52) return Math.min(1, factor * value);
  }
}
