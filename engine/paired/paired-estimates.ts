import { normalQuantile } from "../numerics/standard-normal.ts";
import { tQuantile } from "../numerics/standard-t.ts";
import { hypot } from "../elementary/index.ts";
import type { Sample } from "../statistics/sample.ts";
import type { Moments } from "../statistics/moments.ts";
import { DENSITY_WINDOWS, type EndDesign, type PairedDesign } from "./paired-design.ts";
import { sumOfParts, type EndSums, type PairedSums } from "./paired-sums.ts";
import { centreFor, partBelow } from "./window.ts";

/** The distribution of the linearised model's deviation from the estimate, known without trials. */
export interface ExactLinearised {
  readonly mean: number;
  readonly standardDeviation: number;
  /** P(D ≤ d). */
  distributionFunction(d: number): number;
  /** P(D > d). */
  upperTail(d: number): number;
  quantile(p: number): number;
  /** The d with P(D > d) = q. */
  upperQuantile(q: number): number;
}

/** A figure and its standard error. */
export interface Known {
  readonly value: number;
  readonly standardError: number;
}

/** What trials and their linearised values together show of the full model. */
export interface PairedEstimates {
  readonly estimate: Known;
  /** `null` where the fourth moment, on which its standard error rests, is not to be had. */
  readonly standardUncertainty: Known | null;
  /** The endpoints of the probabilistically symmetric interval. */
  readonly low: Known;
  readonly high: Known;
}

/** Trials within a window without which the density there, and the standard error with it, is not known. */
const FEWEST_WITHIN = 10;
/** From this number of degrees of freedom on Student's factor is 1. */
const MANY = 1000;

/**
 * The linearised model draws with every trial, and its distribution is known: what its trials are off by, the full model's
 * are off by too, as far as the two go together. Each figure of the trials is corrected by β times what the linearised
 * trials' figure is off by, with the β that leaves the least scatter; without any relation β is 0, and the plain
 * figure with its plain standard error remains (control variates: S. S. Lavenberg, P. D. Welch, Management Science
 * 27(3), 1981, 322; for quantiles T. C. Hesterberg, B. L. Nelson, Management Science 44(9), 1998, 1295; both from memory).
 *
 * @param tail probability beyond either endpoint
 * @param fourth whether the inputs have fourth moments
 * @returns `null` where there are too few trials about an endpoint to tell, or the linearised distribution has steps there
 */
export function pairedEstimates(
  design: PairedDesign,
  sums: PairedSums,
  exact: ExactLinearised,
  plain: { readonly sample: Sample; readonly moments: Moments },
  tail: number,
  fourth: boolean,
): PairedEstimates | null {
  const [low, high] = design.ends.map((end, i) => endpoint(end, sums.ends[i]!, design.unit, exact, plain.sample, tail));
  if (low == null || high == null) return null;
  return { ...momentsOfModel(design, sums, exact, plain.moments, fourth), low, high };
}

/** y and u(y), in the measurand's unit. */
function momentsOfModel(
  { origin, unit }: PairedDesign,
  { count, moments: [z1, z2, z4, zv, zzv, zzvv] }: PairedSums,
  exact: ExactLinearised,
  plain: Moments,
  fourth: boolean,
): Pick<PairedEstimates, "estimate" | "standardUncertainty"> {
  const mean = (plain.mean - origin) / unit;
  const scale = plain.scale / unit;
  const v2 = (plain.m2 / count) * scale * scale;
  const zMean = z1! / count;
  const zVariance = z2! / count - zMean * zMean;
  const covariance = zv! / count - zMean * mean;
  const β = zVariance > 0 ? covariance / zVariance : 0;
  const estimate: Known = {
    value: origin + unit * (mean - β * zMean),
    standardError: unit * Math.sqrt(Math.max(0, v2 - β * covariance) / count),
  };
  if (!fourth) return { estimate, standardUncertainty: null };
  // Squares of deviations: of z from its mean, which is known, and of v from the corrected mean, which lies `off` its own.
  const off = β * zMean;
  const centre = mean - off;
  const own = (exact.standardDeviation / unit) * (exact.standardDeviation / unit);
  const squares = z2! / count;
  const squaresVariance = z4! / count - squares * squares;
  const v3 = (plain.m3 / count) * scale * scale * scale;
  const v4 = (plain.m4 / count) * scale * scale * scale * scale;
  const modelSquares = v2 + off * off;
  const fourths = v4 + 4 * off * v3 + 6 * off * off * v2 + off * off * off * off;
  const together = (zzvv! - 2 * centre * zzv! + centre * centre * z2!) / count - squares * modelSquares;
  const γ = squaresVariance > 0 ? together / squaresVariance : 0;
  const variance = modelSquares - γ * (squares - own);
  if (!(variance > 0)) return { estimate, standardUncertainty: null };
  const u = Math.sqrt(variance);
  const scatter = Math.sqrt(Math.max(0, fourths - modelSquares * modelSquares - γ * together) / count);
  return { estimate, standardUncertainty: { value: unit * u, standardError: (unit * scatter) / (2 * u) } };
}

function endpoint(
  design: EndDesign,
  sums: EndSums,
  unit: number,
  exact: ExactLinearised,
  sample: Sample,
  tail: number,
): Known | null {
  const { sign, linearisedHalfWidth: halfWidth, modelHalfWidth, cellsFrom, cellWidth } = design;
  const count = sample.count;
  // As a lower endpoint, in units of u(y) from the linearised mean.
  const quantile = (sign * ((sign === 1 ? exact.quantile(tail) : exact.upperQuantile(tail)) - exact.mean)) / unit;
  const F = (z: number): number => {
    const d = exact.mean + sign * z * unit;
    return sign === 1 ? exact.distributionFunction(d) : exact.upperTail(d);
  };
  // A window on a step of the distribution function does not show the step's place.
  const [below, above] = [tail - F(quantile - halfWidth), F(quantile + halfWidth) - tail];
  const [a, aa, b, bb, ab, fourth, inside] = sums.parts;
  if (!(below < 2 * above && above < 2 * below) || inside! < FEWEST_WITHIN) return null;
  const aVariance = aa! / count - (a! / count) * (a! / count);
  const bVariance = bb! / count - (b! / count) * (b! / count);
  const covariance = ab! / count - (a! / count) * (b! / count);
  const β = aVariance > 0 ? covariance / aVariance : 0;
  /** The model value that as many trials lie below as linearised values below a place between two cells. */
  const modelAt = (cell: number): number | null => {
    const found = sumOfParts(design, sums, cell);
    if (found === null) return null;
    const about = meanOf(F, cellsFrom + cell * cellWidth, halfWidth);
    return centreOfParts(sample, sign, count * about + β * (found - count * about), modelHalfWidth * unit);
  };
  const place = (quantile - cellsFrom) / cellWidth;
  const cell = Math.floor(place);
  const half = Math.round(halfWidth / cellWidth);
  const [before, after] = [modelAt(cell), modelAt(cell + 1)];
  if (before === null || after === null) return null;
  // Over a window the model's bend shows as a sixth of its second difference: an error that no scatter shows.
  const bend = ((modelAt(cell - half) ?? before) + (modelAt(cell + half) ?? before) - 2 * before) / 6;
  const scatter = Math.sqrt(Math.max(0, bVariance - β * covariance) / count);
  const density = inside! / (count * 2 * DENSITY_WINDOWS * modelHalfWidth);
  return {
    value: before + (place - cell) * (after - before),
    standardError: hypot(((unit * scatter) / density) * wideningFor(aa! + bb! - 2 * ab!, fourth!), bend),
  };
}

/**
 * What a standard error is widened by since it rests on few trials that differ: as Student's t is beside the normal, with
 * ν from the scatter of the squares that it is made from (JCGM 100, G.4.2, equation G.3).
 */
function wideningFor(squares: number, fourths: number): number {
  if (!(fourths > 0)) return 1;
  const ν = Math.max(2, (2 * squares * squares) / fourths);
  return ν > MANY ? 1 : tQuantile(0.975, ν) / normalQuantile(0.975);
}

/** Intervals of Simpson's rule over a window, in which a distribution function that is smooth there is close to a parabola. */
const PIECES = 8;

/** Mean of a function over a window. */
function meanOf(F: (z: number) => number, centre: number, halfWidth: number): number {
  let sum = 0;
  for (let i = 0; i <= PIECES; i++)
    sum += (i === 0 || i === PIECES ? 1 : i % 2 === 1 ? 4 : 2) * F(centre - halfWidth + (2 * halfWidth * i) / PIECES);
  return sum / (3 * PIECES);
}

/** Times that the stretch of values looked through is doubled. */
const DOUBLINGS = 8;

/** The centre of the window for which the parts of a sample's values beyond it sum to `target`; `null` if there is none. */
function centreOfParts(sample: Sample, sign: 1 | -1, target: number, halfWidth: number): number | null {
  const rank = Math.max(1, Math.min(sample.count, Math.round(target)));
  const start = sample.orderStatistic(sign === 1 ? rank : sample.count + 1 - rank);
  for (let reach = halfWidth, i = 0; i < DOUBLINGS; i++, reach *= 2) {
    const { before, values, counts } = sample.within(start - reach - halfWidth, start + reach + halfWidth);
    const inside = counts === null ? values.length : counts.reduce((sum, n) => sum + n, 0);
    const beyond = sign === 1 ? before : sample.count - before - inside;
    const sumAt = (place: number): number => {
      let sum = beyond;
      for (let t = 0; t < values.length; t++)
        sum += (counts === null ? 1 : counts[t]!) * partBelow(sign * values[t]!, place, halfWidth);
      return sum;
    };
    const [low, high] = [sign * start - reach, sign * start + reach];
    if (sumAt(low) <= target && sumAt(high) >= target) return sign * centreFor(sumAt, target, low, high);
  }
  return null;
}
