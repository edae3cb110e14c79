/** A probability with its complement, which may be too small to be one minus it. */
export interface Chance {
  readonly value: number;
  readonly rest: number;
  /** The smallest probability that differs from 0 for certain: what lies below is given as a bound. */
  readonly least?: number;
}

/** No budget knows a tail farther out: a smaller probability would describe the assumed shape alone. */
const LEAST = 1e-6;

/**
 * The smallest probability that this many trials can distinguish from 0: if none of n trials shows an event, its probability is
 * below 3/n with a confidence of 95 %, since (1 − 3/n)ⁿ is about 0.05.
 */
export const leastOfTrials = (trials: number): number => Math.max(LEAST, 3 / trials);

/** A probability as every sentence and table prints it. */
export interface PrintedChance {
  readonly percent: number;
  readonly decimals: number;
  /** On which side of the figure the probability lies, if the figure is a bound. */
  readonly bound: "below" | "above" | null;
}

/**
 * Per cent at two decimal places; three significant digits of what is left to 0 or 100 % if that is small, so that
 * two small risks can be distinguished; a bound if rounding would make the probability certain.
 */
export function printedChance({ value, rest, least = LEAST }: Chance): PrintedChance {
  const small = 100 * Math.min(value, rest);
  if (small < 100 * least) {
    const decimals = decimalsOf(100 * least, 1);
    const unit = Number(`1e-${decimals}`);
    // Rounded away from certainty; the subtrahend forgives what binary conversion adds.
    const bound = unit * Math.ceil((100 * least) / unit - 1e-9);
    return value < rest
      ? { percent: bound, decimals, bound: "below" }
      : { percent: 100 - bound, decimals, bound: "above" };
  }
  const decimals = small >= 0.1 ? 2 : decimalsOf(small, 3);
  return { percent: value < rest ? 100 * value : 100 - 100 * rest, decimals, bound: null };
}

/** Decimal places that show this many significant digits. */
const decimalsOf = (value: number, digits: number): number =>
  Math.max(0, digits - 1 - Number(value.toExponential(digits - 1).split("e")[1]));
