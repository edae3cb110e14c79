/** High 32 bits of the 64-bit product of two unsigned 32-bit integers. */
function multiplyHigh(a: number, b: number): number {
  const aHigh = a >>> 16;
  const aLow = a & 0xffff;
  const bHigh = b >>> 16;
  const bLow = b & 0xffff;
  const low = aLow * bLow;
  const middle1 = aHigh * bLow + (low >>> 16);
  const middle2 = aLow * bHigh + (middle1 & 0xffff);
  // Sums stay below 2^53, so plain numbers carry them exactly; division by 2^16 is exact too.
  return (aHigh * bHigh + Math.floor(middle1 / 65536) + Math.floor(middle2 / 65536)) >>> 0;
}

/**
 * Philox4x32-10: a bijection of a 128-bit counter under a 64-bit key, ten rounds. Writes four 32-bit words.
 *
 * It derives starting states without common structure from (seed, input, block), and keeps no state.
 *
 * Source: Salmon, Moraes, Dror, Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC11 (2011); passes the complete
 * BigCrush battery as published there. Tested against the known answers distributed with that paper.
 */
export function philox4x32(
  out: Uint32Array,
  key0: number,
  key1: number,
  c0: number,
  c1: number,
  c2: number,
  c3: number,
): void {
  let k0 = key0 | 0;
  let k1 = key1 | 0;
  let x0 = c0 >>> 0;
  let x1 = c1 >>> 0;
  let x2 = c2 >>> 0;
  let x3 = c3 >>> 0;
  for (let round = 0; round < 10; round++) {
    const high0 = multiplyHigh(0xd2511f53, x0);
    const low0 = Math.imul(0xd2511f53, x0);
    const high1 = multiplyHigh(0xcd9e8d57, x2);
    const low1 = Math.imul(0xcd9e8d57, x2);
    x0 = (high1 ^ x1 ^ k0) >>> 0;
    x1 = low1 >>> 0;
    x2 = (high0 ^ x3 ^ k1) >>> 0;
    x3 = low0 >>> 0;
    k0 = (k0 + 0x9e3779b9) | 0;
    k1 = (k1 + 0xbb67ae85) | 0;
  }
  out[0] = x0;
  out[1] = x1;
  out[2] = x2;
  out[3] = x3;
}
