/** A distribution of the deviation of the measurand from its estimate, as a linear sum has it. */
export interface SumDistribution {
  readonly mean: number;
  readonly standardDeviation: number;
  /** Probability density; `null` where the sum takes discrete values only. */
  density(d: number): number;
  /** P(D ≤ d). */
  distributionFunction(d: number): number;
  /** P(D > d), with its own digits. */
  upperTail(d: number): number;
  /** Least d with P(D ≤ d) ≥ p, for p in (0, 1). */
  quantile(p: number): number;
  /** The d with P(D > d) = q: `quantile(1 − q)` with its own digits. */
  upperQuantile(q: number): number;
  /** Set if it takes discrete values only. */
  readonly discrete: boolean;
}

/** The distribution of a sum that was computed in a unit of this many of the measurand's. */
export function inUnit(of: SumDistribution, unit: number): SumDistribution {
  if (unit === 1) return of;
  return {
    mean: of.mean * unit,
    standardDeviation: of.standardDeviation * unit,
    discrete: of.discrete,
    density: (d) => of.density(d / unit) / unit,
    distributionFunction: (d) => of.distributionFunction(d / unit),
    upperTail: (d) => of.upperTail(d / unit),
    quantile: (p) => of.quantile(p) * unit,
    upperQuantile: (q) => of.upperQuantile(q) * unit,
  };
}

/** The probabilistically symmetric interval. */
export function symmetricOf(of: SumDistribution, probability: number): readonly [number, number] {
  const tail = (1 - probability) / 2;
  return [of.quantile(tail), of.upperQuantile(tail)];
}

/** Steps in which the probability below the shortest interval is searched first. */
const STEPS = 32;
const GOLDEN = 0.6180339887498949;

/**
 * The shortest interval, by the probability below it: the best of 32 steps, then golden section. Among equally short ones
 * (a rectangular distribution) the one nearest the probabilistically symmetric.
 */
export function shortestOf(of: SumDistribution, probability: number): readonly [number, number] {
  const outside = 1 - probability;
  const at = (below: number): readonly [number, number] => [of.quantile(below), of.upperQuantile(outside - below)];
  const lengthAt = (below: number): number => {
    const [low, high] = at(below);
    return high - low;
  };
  const middle = STEPS / 2;
  let best = middle;
  let least = lengthAt(outside / 2);
  const order = Array.from({ length: middle - 1 }, (_, i) => [middle - 1 - i, middle + 1 + i]).flat();
  for (const step of order) {
    const length = lengthAt((outside * step) / STEPS);
    if (length < least * (1 - 1e-9)) [best, least] = [step, length];
  }
  let low = (outside * Math.max(best - 1, 2 ** -20)) / STEPS;
  let high = (outside * Math.min(best + 1, STEPS - 2 ** -20)) / STEPS;
  const start = (outside * best) / STEPS;
  if (of.discrete) return at(start);
  let a = high - GOLDEN * (high - low);
  let b = low + GOLDEN * (high - low);
  let [atA, atB] = [lengthAt(a), lengthAt(b)];
  while (high - low > 1e-6 * outside) {
    if (atA <= atB) {
      high = b;
      [b, atB] = [a, atA];
      a = high - GOLDEN * (high - low);
      atA = lengthAt(a);
    } else {
      low = a;
      [a, atA] = [b, atB];
      b = low + GOLDEN * (high - low);
      atB = lengthAt(b);
    }
  }
  const found = (low + high) / 2;
  return lengthAt(found) < least * (1 - 1e-12) ? at(found) : at(start);
}
