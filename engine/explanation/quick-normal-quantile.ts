import { ln } from "../elementary/index.ts";

/**
 * Quantile of the standard normal distribution to seven digits, a tenth of the work of the exact one: for Gaussian
 * twins, which stand for "about as likely", not for a tail.
 *
 * Source: M. J. Wichura, Algorithm AS 241 (PPND7), Applied Statistics 37(3), 1988; a test holds it
 * against the exact quantile.
 */
export function quickNormalQuantile(p: number): number {
  const q = p - 0.5;
  if (q <= 0.425 && q >= -0.425) {
    const r = 0.180625 - q * q;
    return (
      (q * (((59.10937472 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179)) /
      (((67.1875636 * r + 78.757757664) * r + 17.895169469) * r + 1)
    );
  }
  const root = Math.sqrt(-ln(q < 0 ? p : 1 - p));
  let x: number;
  if (root <= 5) {
    const r = root - 1.6;
    x =
      (((0.17023821103 * r + 1.3067284816) * r + 2.75681539) * r + 1.4234372777) /
      ((0.12021132975 * r + 0.7370016425) * r + 1);
  } else {
    const r = root - 5;
    x =
      (((0.017337203997 * r + 0.42868294337) * r + 3.081226386) * r + 6.657905115) /
      ((0.012258202635 * r + 0.24197894225) * r + 1);
  }
  return q < 0 ? -x : x;
}
