import { area, line } from "d3";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver, type Scale } from "./axis.ts";
import { circle, path, text, type Label, type Scene } from "./scene.ts";

/** A curve at one argument: its value and interval by each method. */
export interface DrawnPoint {
  readonly at: number;
  readonly linear: readonly [low: number, value: number, high: number];
  readonly monteCarlo: readonly [low: number, value: number | null, high: number];
}

export interface CurvePicture {
  readonly name: string;
  readonly titles: readonly [below: Label, left: Label];
  readonly points: readonly DrawnPoint[];
  /** The points that the curve was fitted to. */
  readonly observed: readonly (readonly [argument: number, value: number])[];
  readonly width: number;
  readonly height: number;
}

const HEAD = 12;
const TOP = HEAD + 18;
const TICKS = 5;

/** The curve's picture, and where its plot lies. */
export interface CurveScene {
  readonly scene: Scene;
  readonly x: Scale;
  readonly top: number;
  readonly bottom: number;
}

/** A curve with its bands: that of the trials filled, the linear one dashed; rings where it was observed. */
export function curveScene(
  { name, titles, points, observed, width, height }: CurvePicture,
  numbers: Numbers,
): CurveScene {
  const values = [
    ...points.flatMap(({ linear, monteCarlo }) => [linear[0], linear[2], monteCarlo[0], monteCarlo[2]]),
    ...observed.map(([, value]) => value),
  ];
  const bottom = TOP + height;
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const margin = 0.06 * (most - least) || Math.abs(most) || 1;
  const y = scaleOver([least - margin, most + margin], [bottom, TOP]);
  const all = [...points.map(({ at }) => at), ...observed.map(([at]) => at)];
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const x = scaleOver(
    [first - 0.03 * (last - first), last + 0.03 * (last - first)],
    [roomForTicks(y, TICKS, numbers), width - 16],
  );
  const [left, right] = x.range() as [number, number];
  const band = area<DrawnPoint>(
    (point) => x(point.at),
    (point) => y(point.monteCarlo[0]),
    (point) => y(point.monteCarlo[2]),
  ).digits(1);
  const along = (value: (point: DrawnPoint) => number | null): string =>
    line<DrawnPoint>(
      (point) => x(point.at),
      (point) => y(value(point)!),
    )
      .digits(1)
      .defined((point) => value(point) !== null)(points) ?? "";
  return {
    scene: {
      class: "curve",
      width,
      height: bottom + 46,
      name,
      marks: [
        text("axis-title", 0, HEAD, titles[1]),
        axisLeft(y, left, right, TICKS, numbers),
        path("trials-area", band(points) ?? ""),
        ...([0, 2] as const).map((i) =>
          path(
            "trials-line",
            along(({ monteCarlo }) => monteCarlo[i]),
          ),
        ),
        path(
          "trials-rule thin",
          along(({ monteCarlo }) => monteCarlo[1]),
        ),
        ...([0, 2] as const).map((i) =>
          path(
            "linear-line",
            along(({ linear }) => linear[i]),
          ),
        ),
        ...observed.map(([at, value]) => circle("observed", x(at), y(value), 4)),
        axisBelow(x, bottom, width, numbers),
        text("axis-title", (left + right) / 2, bottom + 38, titles[0], "middle"),
      ],
    },
    x,
    top: TOP,
    bottom,
  };
}
