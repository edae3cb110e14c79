/** Numbers from 0 to 1, the same for the same seed (mulberry32, a common public-domain generator). */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let x = Math.imul(state ^ (state >>> 15), 1 | state);
    x = (x + Math.imul(x ^ (x >>> 7), 61 | x)) ^ x;
    return ((x ^ (x >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Chance, from one seed. */
export interface Chance {
  /** True so often, of 1. */
  often(share: number): boolean;
  /** A whole number from 0 to below `most`. */
  below(most: number): number;
  pick<T>(choices: readonly T[]): T;
}

export function chanceFrom(seed: number): Chance {
  const next = numbers(seed);
  const below = (most: number): number => Math.floor(next() * most);
  return { often: (share) => next() < share, below, pick: (choices) => choices[below(choices.length)]! };
}
