import { line } from "d3";
import type { Histogram } from "../../../engine/index.ts";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver, type Scale } from "./axis.ts";
import { densities } from "./histogram.ts";
import { LANE, lanesMark, type Lane } from "./lanes.ts";
import { path, px, text, type Label, type Scene } from "./scene.ts";

/** The trials of a measurand beside its linear budget. */
export interface DensityPicture {
  readonly name: string;
  readonly titles: readonly [below: Label, left: Label];
  readonly histogram: Histogram;
  readonly trials: number;
  /** The density that the budget implies: value and density. */
  readonly curve: readonly (readonly [number, number])[];
  /** The values shown. */
  readonly range: readonly [number, number];
  readonly lanes: readonly [Lane, Lane];
  /** d_low and d_high beside the lanes; `null` for none. */
  readonly differences: readonly [Label, Label] | null;
  readonly width: number;
  /** Height of the plot. */
  readonly height: number;
}

const HEAD = 12;
const TOP = HEAD + 18;

/** Ticks wished for on the density axis. */
export const DENSITY_TICKS = 4;

/** The picture, and where its plot lies. */
export interface DensityScene {
  readonly scene: Scene;
  readonly x: Scale;
  readonly y: Scale;
  readonly top: number;
  readonly bottom: number;
}

/** Bars of the trials as one filled outline, the budget's density dashed above them, both coverage intervals below. */
export function densityScene(
  { name, titles, histogram, trials, curve: all, range, lanes, differences, width, height }: DensityPicture,
  numbers: Numbers,
): DensityScene {
  const [from, to] = range;
  const curve = all.filter(([value]) => value >= from && value <= to);
  const heights = densities(histogram, trials);
  const bottom = TOP + height;
  const most = Math.max(0, ...heights, ...curve.map(([, density]) => density));
  const y = scaleOver([0, most > 0 ? most * 1.06 : 1], [bottom, TOP]);
  const x = scaleOver(range, [roomForTicks(y, DENSITY_TICKS, numbers), width - 16]);
  const [left, right] = x.range() as [number, number];
  const { low, width: bin } = histogram;
  const steps = heights.map((density, i) => `V${px(y(density))}H${px(x(low + (i + 1) * bin))}`);
  const outline = `M${px(x(low))} ${bottom}${steps.join("")}V${bottom}`;
  const budget = line<readonly [number, number]>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1)(curve);
  return {
    scene: {
      class: "densities",
      width,
      height: bottom + 56 + 2 * LANE,
      name,
      marks: [
        text("axis-title", 0, HEAD, titles[1]),
        axisLeft(y, left, right, DENSITY_TICKS, numbers),
        path("trials-area", `${outline}Z`),
        path("trials-line", outline),
        ...(budget === null ? [] : [path("linear-line", budget)]),
        axisBelow(x, bottom, width, numbers),
        text("axis-title", (left + right) / 2, bottom + 36, titles[0], "middle"),
        lanesMark(lanes, x, bottom + 48, differences),
      ],
    },
    x,
    y,
    top: TOP,
    bottom,
  };
}
