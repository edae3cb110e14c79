import { area, line } from "d3";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { svg, type Child } from "./node.ts";

/** One value and its interval by each method, at one point of the swept quantity. */
export interface SweptPoint {
  readonly at: number;
  readonly linear: readonly [low: number, value: number | null, high: number];
  readonly monteCarlo: readonly [low: number, value: number | null, high: number];
}

export interface SweepPicture {
  readonly name: string;
  readonly title: Child;
  readonly points: readonly SweptPoint[];
  readonly width: number;
  readonly height: number;
  readonly axisLabel: Child;
  /** Widest values that must show, beside the intervals. */
  readonly from?: number;
}

const HEAD = 12;
const TOP = HEAD + 18;
const TICKS = 5;

/** The result over a range: the Monte Carlo band filled, the linear ends dashed; marks where it was computed. */
export function sweepPicture({ name, title, points, width, height, axisLabel, from }: SweepPicture): SVGSVGElement {
  const values = points.flatMap(({ linear, monteCarlo }) => [linear[0], linear[2], monteCarlo[0], monteCarlo[2]]);
  const bottom = TOP + height;
  const [least, most] = [Math.min(...values, from ?? Infinity), Math.max(...values)];
  const margin = 0.06 * (most - least) || Math.abs(most) || 1;
  const y = scaleOver([from === undefined ? least - margin : least, most + margin], [bottom, TOP]);
  const reach = points.map(({ at }) => at);
  const [first, last] = [Math.min(...reach), Math.max(...reach)];
  const x = scaleOver(
    [first - 0.03 * (last - first), last + 0.03 * (last - first)],
    [roomForTicks(y, TICKS), width - 16],
  );
  const total = bottom + 46;
  const band = area<SweptPoint>(
    (point) => x(point.at),
    (point) => y(point.monteCarlo[0]),
    (point) => y(point.monteCarlo[2]),
  ).digits(1);
  const along = (value: (point: SweptPoint) => number | null): string =>
    line<SweptPoint>(
      (point) => x(point.at),
      (point) => y(value(point)!),
    )
      .digits(1)
      .defined((point) => value(point) !== null)(points) ?? "";
  return svg(
    "svg",
    { class: "sweep", width, height: total, viewBox: `0 0 ${width} ${total}`, role: "img", "aria-label": name },
    svg("text", { class: "axis-title", x: 0, y: HEAD }, title),
    axisLeft(y, x.range()[0]!, x.range()[1]!, TICKS),
    svg("path", { class: "trials-area", d: band(points) ?? "" }),
    ([0, 2] as const).map((i) => svg("path", { class: "trials-line", d: along(({ monteCarlo }) => monteCarlo[i]) })),
    ([0, 2] as const).map((i) => svg("path", { class: "linear-line", d: along(({ linear }) => linear[i]) })),
    points.map(({ at, linear, monteCarlo }) => [
      monteCarlo[1] === null ? null : svg("circle", { class: "trials-rule", cx: x(at), cy: y(monteCarlo[1]), r: 3.5 }),
      linear[1] === null
        ? null
        : svg("circle", { class: "linear-line estimate open", cx: x(at), cy: y(linear[1]), r: 6 }),
    ]),
    axisBelow(x, bottom, width),
    svg(
      "text",
      { class: "axis-title", x: (x.range()[0]! + x.range()[1]!) / 2, y: bottom + 38, "text-anchor": "middle" },
      axisLabel,
    ),
  );
}
