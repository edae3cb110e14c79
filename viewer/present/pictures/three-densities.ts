import { line } from "d3";
import type { Histogram } from "../../../engine/index.ts";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { DENSITY_TICKS } from "./density.ts";
import { densities } from "./histogram.ts";
import { circle, group, path, px, text, type Label, type Mark, type Scene } from "./scene.ts";

type Curve = readonly (readonly [value: number, density: number])[];

/** One of the three distributions: its interval, and where its middle is; `null` if it has none. */
export interface ThirdLane {
  readonly label: Label;
  readonly interval: readonly [number, number];
  readonly estimate: number | null;
}

/** A measurand's distribution three times: by the budget, linearised with the stated distributions, by trials. */
export interface ThreeDensities {
  readonly name: string;
  readonly titles: readonly [below: Label, left: Label];
  readonly linear: ThirdLane & { readonly curve: Curve };
  readonly linearised: ThirdLane & { readonly curve: Curve };
  /** `null` while the trials are being drawn. */
  readonly monteCarlo: (ThirdLane & { readonly histogram: Histogram; readonly trials: number }) | null;
  readonly width: number;
  /** Height of the plot. */
  readonly height: number;
}

const HEAD = 12;
const TOP = HEAD + 18;
const LANE = 30;
/** Part of the intervals' length that is shown on either side of them. */
const MARGIN = 0.3;

/**
 * The trials as a filled outline, the linearised model as a line, the budget dashed, and an interval of each below. Where
 * line and dashes part, the shapes of the inputs are at work; where line and outline part, the model bends.
 */
export function threeDensitiesScene(
  { name, titles, linear, linearised, monteCarlo, width, height }: ThreeDensities,
  numbers: Numbers,
): Scene {
  const ends = [linear, linearised, ...(monteCarlo === null ? [] : [monteCarlo])].flatMap(({ interval }) => interval);
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const margin = MARGIN * (most - least) || 1;
  const range = [least - margin, most + margin] as const;
  const within = (curve: Curve): Curve => curve.filter(([value]) => value >= range[0] && value <= range[1]);
  const curves = { linear: within(linear.curve), linearised: within(linearised.curve) };
  const heights = monteCarlo === null ? [] : densities(monteCarlo.histogram, monteCarlo.trials);
  const bottom = TOP + height;
  const highest = Math.max(0, ...heights, ...[...curves.linear, ...curves.linearised].map(([, density]) => density));
  const y = scaleOver([0, highest > 0 ? highest * 1.06 : 1], [bottom, TOP]);
  const x = scaleOver([range[0], range[1]], [roomForTicks(y, DENSITY_TICKS, numbers), width - 16]);
  const [left, right] = x.range() as [number, number];
  const along = (value: number): number => Math.min(right, Math.max(left, x(value)));
  const drawn = (className: string, curve: Curve): Mark[] => {
    const d = line<readonly [number, number]>(
      (point) => x(point[0]),
      (point) => y(point[1]),
    ).digits(1)(curve);
    return d === null ? [] : [path(className, d)];
  };
  const outline = (): Mark[] => {
    if (monteCarlo === null) return [];
    const { low, width: bin } = monteCarlo.histogram;
    const shown = heights
      .map((density, i) => [along(low + i * bin), along(low + (i + 1) * bin), density] as const)
      .filter(([from, to]) => to > from);
    if (shown.length === 0) return [];
    const steps = shown.map(([, to, density]) => `V${px(y(density))}H${px(to)}`);
    const d = `M${px(shown[0]![0])} ${px(bottom)}${steps.join("")}V${px(bottom)}`;
    return [path("trials-area", `${d}Z`), path("trials-line", d)];
  };
  const lanes: readonly (readonly [string, ThirdLane])[] = [
    ["linear-line", linear],
    ["linearised-line", linearised],
    ...(monteCarlo === null ? [] : [["trials-rule", monteCarlo] as const]),
  ];
  return {
    class: "densities three",
    width,
    height: bottom + 56 + 3 * LANE,
    name,
    marks: [
      text("axis-title", 0, HEAD, titles[1]),
      axisLeft(y, left, right, DENSITY_TICKS, numbers),
      ...outline(),
      ...drawn("linear-line", curves.linear),
      ...drawn("linearised-line", curves.linearised),
      axisBelow(x, bottom, width, numbers),
      text("axis-title", (left + right) / 2, bottom + 36, titles[0], "middle"),
      group(
        "lanes",
        lanes.map(([className, lane], i) => laneMark(className, lane, x, bottom + 48 + LANE * i + 22)),
      ),
    ],
  };
}

function laneMark(
  className: string,
  { label, interval, estimate }: ThirdLane,
  x: (value: number) => number,
  at: number,
): Mark {
  const [low, high] = interval.map((value) => px(x(value))) as [number, number];
  return group("", [
    path(className, `M${low} ${at}H${high}`),
    path(`${className} solid`, `M${low} ${at - 6}v12M${high} ${at - 6}v12`),
    ...(estimate === null ? [] : [circle(`${className} estimate`, x(estimate), at, 4)]),
    text("lane-label", (low + high) / 2, at - 9, label, "middle"),
  ]);
}
