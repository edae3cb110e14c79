import type { MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { binsWithin, middleOf } from "../../present/pictures/histogram.ts";

/** The part of the values a picture shows: all that matters, or the surroundings of one end of the intervals. */
export type Zoom = "whole" | "low" | "high";
export const isZoom = (name: string | undefined): name is Zoom => name === "whole" || name === "low" || name === "high";

/** The measurand with those bins that a picture shows, and the values from one of its edges to the other. */
export interface Shown {
  readonly measurand: MeasurandRecord;
  readonly from: number;
  readonly to: number;
  readonly zoom: Zoom;
}

/** What to show, or `null` if all trials are practically equal. */
export function shownRange(measurand: MeasurandRecord, { coverage }: RunRecord, zoom: Zoom): Shown | null {
  const { linear, monteCarlo } = measurand;
  const interval = monteCarlo.intervals[coverage.interval];
  const ends = [...linear.interval, ...interval];
  const [least, greatest] = [Math.min(...ends), Math.max(...ends)];
  // Long tails would else squeeze the intervals.
  const middle = middleOf(monteCarlo.histogram, [least, greatest]);
  const { low, width, counts } = middle;
  const marks = [low, low + width * counts.length, least, greatest];
  const [from, to] = [Math.min(...marks), Math.max(...marks)];
  if (counts.length < 2 || !(to - from > 1e-12 * Math.abs(to))) return null;
  const withBins = (histogram: typeof middle): MeasurandRecord => ({
    ...measurand,
    monteCarlo: { ...monteCarlo, histogram },
  });
  if (zoom === "whole") {
    const margin = 0.02 * (to - from);
    return { measurand: withBins(middle), from: from - margin, to: to + margin, zoom };
  }
  const length = greatest - least;
  const [a, b] = zoom === "low" ? [linear.interval[0], interval[0]] : [linear.interval[1], interval[1]];
  const [outside, inside] = [0.22 * length, 0.14 * length];
  const edges =
    zoom === "low"
      ? [Math.min(a, b) - outside, Math.max(a, b) + inside]
      : [Math.min(a, b) - inside, Math.max(a, b) + outside];
  const part: readonly [number, number] = [edges[0]!, edges[1]!];
  return { measurand: withBins(binsWithin(monteCarlo.histogram, part)), from: part[0], to: part[1], zoom };
}
