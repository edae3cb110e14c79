import reduced from "@stdlib/math-base-special-cos";
import { REACH, sineOf } from "./circle.ts";

/** The cosine of x radians, at most 0.55 ulp off, or 0.8 ulp where circle.ts leaves it to @stdlib. Table and method there. */
export function cos(x: number): number {
  return Math.abs(x) < REACH ? sineOf(x, 1) : reduced(x);
}
