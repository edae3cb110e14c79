import { InputError, refuse, show, type Problem } from "../../../engine/index.ts";
import { fixedPoints, type FixedPointName } from "./fixed-points.ts";
import { referenceRatio } from "./reference-function.ts";
import type { DeviationCoefficients, SubRange } from "./sub-ranges.ts";
import { coefficientNames } from "./sub-ranges.ts";

/**
 * Solves m·x = y in place by elimination with row exchange; n is at most 7. `x` is left in `y`. Plain arithmetic on
 * arrays the caller keeps: it stands in the inner loop, once a trial.
 *
 * @param m n rows of n, one after the other; destroyed
 * @returns false if the matrix is singular
 */
export function solveInPlace(m: Float64Array, y: Float64Array, n: number): boolean {
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(m[i * n + k]!) > Math.abs(m[best * n + k]!)) best = i;
    const pivot = m[best * n + k]!;
    if (!(Math.abs(pivot) > 0)) return false;
    if (best !== k) {
      for (let j = k; j < n; j++) [m[k * n + j], m[best * n + j]] = [m[best * n + j]!, m[k * n + j]!];
      [y[k], y[best]] = [y[best]!, y[k]!];
    }
    for (let i = k + 1; i < n; i++) {
      const factor = m[i * n + k]! / pivot;
      for (let j = k + 1; j < n; j++) m[i * n + j] = m[i * n + j]! - factor * m[k * n + j]!;
      y[i] = y[i]! - factor * y[k]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) y[k] = y[k]! - m[k * n + j]! * y[j]!;
    y[k] = y[k]! / m[k * n + k]!;
  }
  return true;
}

/**
 * A solver for one sub-range, for many thermometers or trials: (W at the fixed points, W_r there) → coefficients.
 *
 * @returns a function that writes the coefficients to `out` and returns whether there are any; both arrays of ratios are
 *   in the order of the sub-range's points
 */
export function coefficientSolver(
  subRange: SubRange,
): (W: ArrayLike<number>, Wr: ArrayLike<number>, out: Float64Array) => boolean {
  const { terms, aboveAluminium } = subRange;
  const n = terms.length;
  const m = new Float64Array(n * n);
  return (W, Wr, out) => {
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < n; k++) m[i * n + k] = terms[k]!.value(W[i]!);
      out[i] = W[i]! - Wr[i]!;
    }
    if (!solveInPlace(m, out, n)) return false;
    if (!aboveAluminium) return true;
    const aluminium = W[n - 1]!;
    const silver = W[n]!;
    let rest = silver - Wr[n]!;
    for (let k = 0; k < n; k++) rest -= out[k]! * terms[k]!.value(silver);
    out[n] = rest / ((silver - aluminium) * (silver - aluminium));
    out[n + 1] = aluminium;
    return silver !== aluminium;
  };
}

/**
 * The coefficients of a thermometer from its W at the fixed points of a sub-range (Metrologia 27 (1990) 3–10, table 5).
 *
 * @param measured W = R(T₉₀)/R(273.16 K) at every fixed point of the sub-range
 * @param realised T₉₀ in K of the points whose temperature is realised rather than assigned: those near 17 K and 20.3 K
 * @throws {InputError} a point that is missing, unknown here, or has a W far from that of platinum
 */
export function deviationCoefficients(
  subRange: SubRange,
  measured: Readonly<Partial<Record<FixedPointName, number>>>,
  realised: Readonly<Partial<Record<FixedPointName, number>>> = {},
): DeviationCoefficients {
  const temperature = (name: FixedPointName): number => realised[name] ?? fixedPoints[name].temperature;
  const problems: Problem[] = [];
  for (const [name, W] of Object.entries(measured)) {
    if (!(subRange.points as readonly string[]).includes(name)) {
      problems.push({
        place: `W.${name}`,
        value: show(W),
        accepted: `nothing there: sub-range ${subRange.number} has the points ${subRange.points.join(", ")}`,
      });
    }
  }
  for (const name of subRange.points) {
    const W = measured[name];
    const Wr = referenceRatio(temperature(name));
    // A thermometer that the scale accepts is within 0.0006·|W − 1|; ten times that is no platinum thermometer.
    const slack = Math.max(0.006 * Math.abs(Wr - 1), 1e-6);
    if (W === undefined || !(Math.abs(W - Wr) <= slack)) {
      problems.push({
        place: `W.${name}`,
        value: show(W),
        accepted: `a ratio to R(273.16 K) within ${slack.toPrecision(2)} of ${Wr.toFixed(8)}, the reference function at ${temperature(name)} K`,
      });
    }
  }
  if (problems.length > 0) throw new InputError(problems);
  const out = new Float64Array(coefficientNames(subRange).length);
  const W = subRange.points.map((name) => measured[name]!);
  const Wr = subRange.points.map((name) => referenceRatio(temperature(name)));
  if (!coefficientSolver(subRange)(W, Wr, out)) refuse("W", W, "ratios at different temperatures");
  return out;
}
