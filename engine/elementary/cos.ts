import reduced from "@stdlib/math-base-special-cos";
import { REACH, sineOf } from "./circle.ts";

/** The cosine of x radians, at most 0.55 ulp off, or 0.8 ulp if circle.ts uses @stdlib. Table and method: circle.ts. */
export function cos(x: number): number {
  return Math.abs(x) < REACH ? sineOf(x, 1) : reduced(x);
}
