import { elementary, refuse, type Statement } from "../../../engine/index.ts";
import { figure, millikelvin, type Check } from "../check.ts";
import { tQuantile } from "../readings/quantiles.ts";
import { limitsStatement, type LimitsDistribution } from "../survey/statement.ts";
import { depthCheck } from "./withdrawal.ts";

/** A reading at one depth, less that of a thermometer that stays. */
export interface DepthReading {
  /** mm. */
  readonly depth: number;
  /** K, or °C: only differences between depths matter. */
  readonly reading: number;
}

/** What a fit over depths is judged by: the depth of use, and the error that is acceptable there. */
export interface StemConductionOptions {
  /** Depth the probe will be used at, mm. */
  readonly planned: number;
  /** Largest error acceptable there, K. */
  readonly limit: number;
}

/** reading(L) = limiting + amplitude·exp(−L/ℓ), fitted. */
export interface StemConductionFit {
  /** Conduction length ℓ, mm. */
  readonly conductionLength: number;
  /** Reading at infinite depth. */
  readonly limiting: number;
  /** Amplitude referred to the mean depth of the readings, K. */
  readonly amplitude: number;
  readonly meanDepth: number;
  /** Deviation about the curve, K; `null` for three depths, which leave none. */
  readonly residualDeviation: number | null;
  readonly degreesOfFreedom: number;
  /** Error of the reading at each depth given, K. */
  readonly errors: readonly number[];
  readonly plannedDepth: number;
  /** Error at the planned depth, K, and its standard uncertainty from the scatter (`null` for three depths). */
  readonly plannedError: number;
  readonly plannedStandardUncertainty: number | null;
  /** Depth at which the error falls to the limit, mm. */
  readonly sufficientDepth: number;
  readonly enough: boolean;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/** Range of conduction lengths searched, mm: it includes those of every probe, with a wide margin. */
const SHORTEST = 0.5;
const LONGEST = 2000;
const GRID = 400;

/**
 * Fits the exponential law of stem conduction to readings at three or more depths by least squares: for every ℓ the
 * limiting reading and the amplitude are linear; ℓ is searched on a logarithmic grid and refined by golden section.
 *
 * Source: the law of a long fin, Nicholas and White, Traceable Temperatures; subject of the CCT Guide to the Realization of
 * the ITS-90, Platinum Resistance Thermometry, 5.2.1.
 *
 * @throws {InputError} fewer than three different depths, or readings that no exponential describes
 */
export function fitStemConduction(
  readings: readonly DepthReading[],
  { planned, limit }: StemConductionOptions,
): StemConductionFit {
  readings.forEach(({ depth, reading }, i) => {
    if (!(depth > 0 && Number.isFinite(depth)))
      refuse(`immersion.depths.${i}.depth`, depth, "a depth greater than 0 mm");
    if (!Number.isFinite(reading)) refuse(`immersion.depths.${i}.reading`, reading, "a finite reading");
  });
  const different = new Set(readings.map(({ depth }) => depth)).size;
  if (different < 3)
    refuse(
      "immersion.depths",
      `${different} different depths`,
      "at least 3 different depths: three figures are fitted",
    );
  if (!(planned > 0)) refuse("immersion.planned", planned, "a depth greater than 0 mm");
  if (!(limit > 0)) refuse("immersion.limit", limit, "an error greater than 0 K");

  const n = readings.length;
  const meanDepth = readings.reduce((sum, { depth }) => sum + depth, 0) / n;
  const step = elementary.ln(LONGEST / SHORTEST) / GRID;
  let best = 0;
  let least = Infinity;
  for (let i = 0; i <= GRID; i++) {
    const { squares } = linearPart(readings, meanDepth, SHORTEST * elementary.exp(i * step));
    if (squares < least) {
      least = squares;
      best = i;
    }
  }
  const flat = readings.every(({ reading }) => reading === readings[0]!.reading);
  if (flat || best === 0 || best === GRID) {
    refuse(
      "immersion.depths",
      flat
        ? "readings that do not change with depth"
        : `readings that change by ${millikelvin(readings.at(-1)!.reading - readings[0]!.reading)}`,
      "readings that fall off exponentially with depth; if they do not change, use the withdrawal check instead",
    );
  }
  const conductionLength = refine(
    readings,
    meanDepth,
    SHORTEST * elementary.exp((best - 1) * step),
    SHORTEST * elementary.exp((best + 1) * step),
  );
  const { limiting, amplitude, squares } = linearPart(readings, meanDepth, conductionLength);
  const errorAt = (depth: number): number => amplitude * elementary.exp((meanDepth - depth) / conductionLength);
  const degreesOfFreedom = n - 3;
  const residualDeviation = degreesOfFreedom === 0 ? null : Math.sqrt(squares / degreesOfFreedom);
  const plannedError = errorAt(planned);
  const plannedStandardUncertainty =
    residualDeviation === null
      ? null
      : residualDeviation * errorSpread(readings, meanDepth, conductionLength, amplitude, planned);
  const sufficientDepth = meanDepth + conductionLength * elementary.ln(Math.abs(amplitude) / limit);
  const margin =
    plannedStandardUncertainty === null ? 0 : tQuantile(0.975, degreesOfFreedom) * plannedStandardUncertainty;
  const enough = Math.abs(plannedError) + margin <= limit;
  return {
    conductionLength,
    limiting,
    amplitude,
    meanDepth,
    residualDeviation,
    degreesOfFreedom,
    errors: readings.map(({ depth }) => errorAt(depth)),
    plannedDepth: planned,
    plannedError,
    plannedStandardUncertainty,
    sufficientDepth,
    enough,
    checks: [
      {
        check: `error of stem conduction at ${figure(planned)} mm no more than ${millikelvin(limit)}, its 95 % uncertainty included`,
        passed: enough,
        found: `${millikelvin(plannedError)}${margin > 0 ? ` ± ${millikelvin(margin)}` : ""}`,
      },
      depthCheck(planned),
    ],
    reasoning: [
      `exponential through ${n} depths: conduction length ${figure(conductionLength)} mm, error ${millikelvin(plannedError)} at the planned ${figure(planned)} mm`,
      `the error falls to ${millikelvin(limit)} at ${figure(Math.max(0, sufficientDepth))} mm`,
      residualDeviation === null
        ? "three depths determine the curve exactly: a fourth would test it"
        : `readings scatter about the curve by ${millikelvin(residualDeviation)}`,
    ],
  };
}

/** Limits for the planned depth as an input quantity: the fitted error with its 95 % uncertainty. @throws {InputError} */
export function stemConductionStatement(
  fit: StemConductionFit,
  distribution: LimitsDistribution = "rectangular",
): Statement {
  const { plannedError, plannedStandardUncertainty, degreesOfFreedom, plannedDepth, conductionLength } = fit;
  const margin =
    plannedStandardUncertainty === null ? 0 : tQuantile(0.975, degreesOfFreedom) * plannedStandardUncertainty;
  const source = `exponential fit of stem conduction, ${figure(conductionLength)} mm conduction length, at ${figure(plannedDepth)} mm depth`;
  return limitsStatement(distribution, 0, Math.abs(plannedError) + margin, source, "immersion.halfWidth");
}

function linearPart(readings: readonly DepthReading[], meanDepth: number, length: number) {
  const n = readings.length;
  const shift = readings[0]!.reading;
  const x = readings.map(({ depth }) => elementary.exp((meanDepth - depth) / length));
  const y = readings.map(({ reading }) => reading - shift);
  const xMean = x.reduce((sum, value) => sum + value, 0) / n;
  const yMean = y.reduce((sum, value) => sum + value, 0) / n;
  let xx = 0;
  let xy = 0;
  for (let i = 0; i < n; i++) {
    xx += (x[i]! - xMean) * (x[i]! - xMean);
    xy += (x[i]! - xMean) * (y[i]! - yMean);
  }
  const amplitude = xy / xx;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const residual = y[i]! - yMean - amplitude * (x[i]! - xMean);
    squares += residual * residual;
  }
  return { amplitude, limiting: shift + yMean - amplitude * xMean, squares };
}

/**
 * Golden section on ln ℓ, then Gauss–Newton steps: near its least value the sum of squares is flat and fixes only half
 * of the digits, while the slope of the residuals fixes the rest.
 */
function refine(readings: readonly DepthReading[], meanDepth: number, shortest: number, longest: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = elementary.ln(shortest);
  let high = elementary.ln(longest);
  for (let i = 0; i < 60; i++) {
    const left = high - golden * (high - low);
    const right = low + golden * (high - low);
    const at = (logarithm: number): number => linearPart(readings, meanDepth, elementary.exp(logarithm)).squares;
    if (at(left) < at(right)) high = right;
    else low = left;
  }
  let length = elementary.exp((low + high) / 2);
  for (let i = 0; i < 20; i++) {
    const { amplitude, limiting } = linearPart(readings, meanDepth, length);
    const residuals = readings.map(
      ({ depth, reading }) => reading - limiting - amplitude * elementary.exp((meanDepth - depth) / length),
    );
    const change = solve(
      normalMatrix(readings, meanDepth, length, amplitude),
      rightSide(readings, residuals, meanDepth, length, amplitude),
    )[2]!;
    const next = length + change;
    if (!(next > shortest && next < longest)) break;
    length = next;
    if (Math.abs(change) <= 1e-15 * length) break;
  }
  return length;
}

/** Derivatives of the curve at a depth with respect to limiting reading, amplitude and ℓ. */
function derivatives(
  depth: number,
  meanDepth: number,
  length: number,
  amplitude: number,
): readonly [number, number, number] {
  const part = elementary.exp((meanDepth - depth) / length);
  return [1, part, (-amplitude * part * (meanDepth - depth)) / (length * length)];
}

function normalMatrix(
  readings: readonly DepthReading[],
  meanDepth: number,
  length: number,
  amplitude: number,
): number[][] {
  const matrix = [0, 1, 2].map(() => [0, 0, 0]);
  for (const { depth } of readings) {
    const d = derivatives(depth, meanDepth, length, amplitude);
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) matrix[i]![j]! += d[i]! * d[j]!;
  }
  return matrix;
}

function rightSide(
  readings: readonly DepthReading[],
  residuals: readonly number[],
  meanDepth: number,
  length: number,
  amplitude: number,
): number[] {
  const side = [0, 0, 0];
  readings.forEach(({ depth }, k) => {
    const d = derivatives(depth, meanDepth, length, amplitude);
    for (let i = 0; i < 3; i++) side[i]! += d[i]! * residuals[k]!;
  });
  return side;
}

/** Standard uncertainty of the error at a depth, per unit of residual deviation: √(gᵀ(JᵀJ)⁻¹g). */
function errorSpread(
  readings: readonly DepthReading[],
  meanDepth: number,
  length: number,
  amplitude: number,
  depth: number,
): number {
  const [, a, l] = derivatives(depth, meanDepth, length, amplitude);
  const gradient = [0, a, l];
  const solved = solve(normalMatrix(readings, meanDepth, length, amplitude), gradient);
  return Math.sqrt(
    Math.max(
      0,
      gradient.reduce((sum, value, i) => sum + value * solved[i]!, 0),
    ),
  );
}

/** Solves three linear equations by elimination with the largest pivot. */
function solve(matrix: readonly (readonly number[])[], side: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, side[i]!]);
  for (let i = 0; i < 3; i++) {
    let pivot = i;
    for (let j = i + 1; j < 3; j++) if (Math.abs(rows[j]![i]!) > Math.abs(rows[pivot]![i]!)) pivot = j;
    [rows[i], rows[pivot]] = [rows[pivot]!, rows[i]!];
    for (let j = i + 1; j < 3; j++) {
      const factor = rows[j]![i]! / rows[i]![i]!;
      for (let k = i; k < 4; k++) rows[j]![k]! -= factor * rows[i]![k]!;
    }
  }
  const solution = [0, 0, 0];
  for (let i = 2; i >= 0; i--) {
    let rest = rows[i]![3]!;
    for (let k = i + 1; k < 3; k++) rest -= rows[i]![k]! * solution[k]!;
    solution[i] = rest / rows[i]![i]!;
  }
  return solution;
}
