import { line, sum } from "d3";
import type { Histogram } from "../../../engine/index.ts";
import { axisLeft, scaleOver, type Scale } from "./axis.ts";
import { svg } from "./node.ts";

/** Ticks wished for on the density axis. */
export const DENSITY_TICKS = 4;

/** Height of the density of each bin: trials over all trials and the bin's width. */
export const densities = ({ counts, width }: Histogram, trials: number): number[] =>
  counts.map((count) => count / (trials * width));

/**
 * The bins within one length of an interval either side of it, where there are so many further out that they would
 * take three quarters of the picture; what is left out counts as below or above.
 */
export function middleOf(histogram: Histogram, [from, to]: readonly [number, number]): Histogram {
  const { low, width, counts } = histogram;
  const length = to - from;
  if (!(length > 0) || width * counts.length <= 4 * length) return histogram;
  const [first, last] = [Math.floor((from - length - low) / width), Math.ceil((to + length - low) / width)];
  return binsWithin(histogram, [low + first * width, low + last * width]);
}

/** Neighbouring bins put together, so that there are `bins`, which divides their number. */
export function mergedBins(histogram: Histogram, bins: number): Histogram {
  const each = histogram.counts.length / bins;
  if (!Number.isInteger(each) || each === 1) return histogram;
  const counts = Array.from({ length: bins }, (_, i) => sum(histogram.counts.slice(i * each, (i + 1) * each)));
  return { ...histogram, width: histogram.width * each, counts };
}

/** The bins that lie within a range; the others count as below or above. */
export function binsWithin(histogram: Histogram, [from, to]: readonly [number, number]): Histogram {
  const { low, width, counts, below, above } = histogram;
  const first = Math.min(counts.length, Math.max(0, Math.ceil((from - low) / width - 1e-9)));
  const last = Math.max(first, Math.min(counts.length, Math.floor((to - low) / width + 1e-9)));
  return {
    low: low + first * width,
    width,
    counts: counts.slice(first, last),
    below: below + sum(counts.slice(0, first)),
    above: above + sum(counts.slice(last)),
  };
}

/** What a picture of two densities is drawn from. */
export interface DensityPlot {
  readonly histogram: Histogram;
  readonly trials: number;
  readonly curve: readonly (readonly [number, number])[];
  readonly x: Scale;
  readonly top: number;
  readonly bottom: number;
}

/** The vertical scale that holds the bars and the curve, from zero. */
export function densityScale({ histogram, trials, curve, top, bottom }: Omit<DensityPlot, "x">): Scale {
  const most = Math.max(0, ...densities(histogram, trials), ...curve.map(([, density]) => density));
  return scaleOver([0, most > 0 ? most * 1.06 : 1], [bottom, top]);
}

/** Bars of the trials as one filled outline, the budget's curve dashed above them. */
export function densityMarks(plot: DensityPlot, y: Scale): SVGGElement {
  const { histogram, trials, curve, x, bottom } = plot;
  const { low, width } = histogram;
  const steps = densities(histogram, trials).map(
    (density, i) => `V${y(density).toFixed(1)}H${x(low + (i + 1) * width).toFixed(1)}`,
  );
  const outline = `M${x(low).toFixed(1)} ${bottom}${steps.join("")}V${bottom}`;
  const [from, to] = x.domain() as [number, number];
  const path = line<readonly [number, number]>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1)(curve.filter(([value]) => value >= from && value <= to));
  return svg(
    "g",
    {},
    axisLeft(y, x.range()[0]!, x.range()[1]!, DENSITY_TICKS),
    svg("path", { class: "trials-area", d: `${outline}Z` }),
    svg("path", { class: "trials-line", d: outline }),
    path === null ? null : svg("path", { class: "linear-line", d: path }),
  );
}
