import reduced from "@stdlib/math-base-special-sin";
import { REACH, sineOf } from "./circle.ts";

/** The sine of x radians, at most 0.55 ulp off, or 0.8 ulp if circle.ts uses @stdlib. Table and method: circle.ts. */
export function sin(x: number): number {
  const size = Math.abs(x);
  if (size < 2 ** -27) return x;
  return size < REACH ? sineOf(x, 0) : reduced(x);
}
