/**
 * The generators once more, each written plainly from its publication and sharing no code with the engine: what the
 * engine draws is held against these, and these against the words that are published for them.
 */

const WORD = 2 ** 32;

/**
 * Philox4x32-10: four words from a counter and a key, in ten rounds.
 *
 * Source: Salmon, Moraes, Dror, Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC11 (2011), section 3.3.
 */
export function plainPhilox(counter: readonly number[], key: readonly number[]): number[] {
  let [x0, x1, x2, x3] = counter.map((word) => BigInt(word >>> 0)) as [bigint, bigint, bigint, bigint];
  let [k0, k1] = key.map((word) => BigInt(word >>> 0)) as [bigint, bigint];
  const low = 0xffffffffn;
  for (let round = 0; round < 10; round++) {
    const [a, b] = [0xd2511f53n * x0, 0xcd9e8d57n * x2];
    [x0, x1, x2, x3] = [(b >> 32n) ^ x1 ^ k0, b & low, (a >> 32n) ^ x3 ^ k1, a & low];
    [k0, k1] = [(k0 + 0x9e3779b9n) & low, (k1 + 0xbb67ae85n) & low];
  }
  return [x0, x1, x2, x3].map(Number);
}

/** C. Doty-Humphrey's sfc32 as published with PractRand 0.95: a word at each call. */
export function plainSfc32(a: number, b: number, c: number, counter: number): () => number {
  return () => {
    const result = (a + b + counter) % WORD;
    counter = (counter + 1) % WORD;
    a = (b ^ (b >>> 9)) >>> 0;
    b = (c + ((c << 3) >>> 0)) % WORD;
    c = ((((c << 21) | (c >>> 11)) >>> 0) + result) % WORD;
    return result;
  };
}

const SIZE = 624;

/**
 * Mersenne Twister MT19937: a word at each call.
 *
 * Source: Matsumoto & Nishimura, ACM TOMACS 8(1), 1998, with the initialisation of 2002 by one word or by several.
 */
export function plainTwister(seed: number | readonly number[]): () => number {
  const state = new Uint32Array(SIZE);
  const start = (word: number): void => {
    state[0] = word;
    for (let i = 1; i < SIZE; i++) state[i] = Math.imul(1812433253, state[i - 1]! ^ (state[i - 1]! >>> 30)) + i;
  };
  if (typeof seed === "number") start(seed);
  else {
    start(19650218);
    let [i, j] = [1, 0];
    const step = (): void => {
      i += 1;
      if (i < SIZE) return;
      state[0] = state[SIZE - 1]!;
      i = 1;
    };
    for (let k = Math.max(SIZE, seed.length); k > 0; k--) {
      state[i] = (state[i]! ^ Math.imul(state[i - 1]! ^ (state[i - 1]! >>> 30), 1664525)) + seed[j]! + j;
      j = (j + 1) % seed.length;
      step();
    }
    for (let k = SIZE - 1; k > 0; k--) {
      state[i] = (state[i]! ^ Math.imul(state[i - 1]! ^ (state[i - 1]! >>> 30), 1566083941)) - i;
      step();
    }
    state[0] = 0x80000000;
  }
  let at = SIZE;
  return () => {
    if (at === SIZE) {
      for (let k = 0; k < SIZE; k++) {
        const y = (state[k]! & 0x80000000) | (state[(k + 1) % SIZE]! & 0x7fffffff);
        state[k] = state[(k + 397) % SIZE]! ^ (y >>> 1) ^ (y & 1 ? 0x9908b0df : 0);
      }
      at = 0;
    }
    let y = state[at]!;
    at += 1;
    y ^= y >>> 11;
    y ^= (y << 7) & 0x9d2c5680;
    y ^= (y << 15) & 0xefc60000;
    return (y ^ (y >>> 18)) >>> 0;
  };
}

/** Two words as a uniform number: the upper 26 bits of each, and half a cell (the engine's convention). */
export const uniformOf = (high: number, low: number): number => ((high >>> 0) * 2 ** 20 + (low >>> 12) + 0.5) / 2 ** 52;
