/** Values of a density at k·step for k = −last … last, in this order. */
export type SampledDensity = (step: number, last: number) => Float64Array;

/**
 * Keeps the values of the finest lattice asked for. Steps are powers of two, so that a coarser lattice's points are among
 * a finer one's, to the bit, and a finer lattice needs every second value only.
 */
export function sampledDensity(density: (d: number) => number): SampledDensity {
  let known = { step: Infinity, last: -1, values: new Float64Array(0) };
  return (step, last) => {
    const ratio = step / known.step;
    const values = new Float64Array(2 * last + 1);
    for (let k = -last; k <= last; k++) {
      const at = k * ratio;
      const among = at >= -known.last && at <= known.last && Math.floor(at) === at;
      values[k + last] = among ? known.values[at + known.last]! : density(k * step);
    }
    if (step < known.step || (step === known.step && last > known.last)) known = { step, last, values };
    return values;
  };
}
