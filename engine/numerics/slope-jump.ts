/** Steps, as parts of the scale: narrow enough for a smooth function to look straight. */
const STEPS = [2 ** -4, 2 ** -6, 2 ** -8] as const;
/** What differences of a function may be off by in the last place of its value. */
const ROUNDING = 16 * 2 ** -52;

/**
 * By how much the slopes of `f` on the two sides of `x` differ, where that does not vanish with the step: at a kink, or
 * at a step of the function. For a function with a continuous slope the difference falls fourfold from step to step.
 *
 * @param scale a width over which `f` is looked at, such as the standard uncertainty of x
 * @returns 0 for a smooth function, and for one that is not finite there
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
