/**
 * The first derivative of `f` at `x`: Ridders' extrapolation of central differences to step zero, which finds the
 * step at which truncation and rounding errors balance. For smooth functions, such as models, the relative error is
 * about 1e-11 and expected to stay below 1e-9.
 *
 * Source: C. J. F. Ridders, "Accurate computation of F′(x) and F′(x)F″(x)", Adv. Eng. Software 4(2), 1982.
 *
 * @param scale a width over which `f` is known to be defined, such as the standard uncertainty of x
 * @returns the derivative and an estimate of its absolute error; NaN if `f` is not finite around `x`
 */
export function derivative(
  f: (x: number) => number,
  x: number,
  scale: number,
): { readonly value: number; readonly error: number } {
  // Wider steps suffer less from rounding; extrapolation removes their truncation. Start as wide as x allows and keep
  // the best of a few starts, since a model may be undefined (or not smooth) far from x.
  const widest = Math.max(scale, Math.abs(x) * 2 ** -6);
  let best = { value: Number.NaN, error: Number.POSITIVE_INFINITY };
  // From an infinite step no division leads to a finite one.
  if (!Number.isFinite(widest)) return best;
  for (let step = widest; step >= scale * 2 ** -10 && step > Math.abs(x) * 2 ** -40; step /= 8) {
    const found = ridders(f, x, step);
    if (found.error < best.error) best = found;
  }
  return best;
}

const ROWS = 10;
const SHRINK = 1.4;

function ridders(f: (x: number) => number, x: number, start: number): { value: number; error: number } {
  let best = { value: Number.NaN, error: Number.POSITIVE_INFINITY };
  let previous: number[] = [];
  let step = start;
  for (let row = 0; row < ROWS; row++, step /= SHRINK) {
    // A step for which x + step and x − step are exact.
    const up = x + step;
    const down = x - step;
    const current = [(f(up) - f(down)) / (up - down)];
    if (!Number.isFinite(current[0])) {
      previous = [];
      continue;
    }
    if (previous.length > 0) {
      let factor = SHRINK * SHRINK;
      for (let order = 1; order <= previous.length && order <= row; order++, factor *= SHRINK * SHRINK) {
        const finer = (current[order - 1]! * factor - previous[order - 1]!) / (factor - 1);
        current.push(finer);
        const error = Math.max(Math.abs(finer - current[order - 1]!), Math.abs(finer - previous[order - 1]!));
        if (error <= best.error) best = { value: finer, error };
      }
      const last = current.length - 1;
      // Rounding now exceeds truncation, so higher orders would be worse.
      if (Math.abs(current[last]! - previous[last - 1]!) >= 2 * best.error) break;
    }
    previous = current;
  }
  return best;
}
