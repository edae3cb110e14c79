/** Steps as fractions of the scale, small enough for a smooth function to be nearly linear. */
const STEPS = [2 ** -4, 2 ** -6, 2 ** -8] as const;
/** Rounding error of differences of a function, relative to its value. */
const ROUNDING = 16 * 2 ** -52;

/**
 * The difference between the slopes of `f` on the two sides of `x`, if it does not vanish with the step: at a kink or a
 * step of the function. For a continuous slope the difference falls by a factor 4 from each step to the next.
 *
 * @param scale width of the neighbourhood examined, such as the standard uncertainty of x
 * @returns 0 if `f` is smooth, or not finite there
 */
export function slopeJump(f: (x: number) => number, x: number, scale: number): number {
  const centre = f(x);
  const jumps = STEPS.map((part) => {
    const [up, down] = [x + part * scale, x - part * scale];
    return Math.abs((f(up) - centre) / (up - x) - (centre - f(down)) / (x - down));
  });
  const [wide, middle, narrow] = jumps as [number, number, number];
  const stays = middle > 0.5 * wide && narrow > 0.5 * middle;
  return stays && Number.isFinite(narrow) && narrow > (ROUNDING * Math.abs(centre)) / (STEPS[2] * scale) ? narrow : 0;
}
