import { area, line } from "d3";
import { axisBelow, axisLeft, roomForTicks, scaleOver, type Scale } from "./axis.ts";
import { svg, type Child } from "./node.ts";

/** A curve at one argument: its value and interval by each method. */
export interface DrawnPoint {
  readonly at: number;
  readonly linear: readonly [low: number, value: number, high: number];
  readonly monteCarlo: readonly [low: number, value: number | null, high: number];
}

export interface CurvePicture {
  readonly name: string;
  readonly titles: readonly [below: Child, left: Child];
  readonly points: readonly DrawnPoint[];
  /** The points that the curve was fitted to. */
  readonly observed: readonly (readonly [argument: number, value: number])[];
  readonly width: number;
  readonly height: number;
}

const HEAD = 12;
const TOP = HEAD + 18;
const TICKS = 5;

/** The drawn curve, with what a reader of it needs to know. */
export interface DrawnCurve {
  readonly picture: SVGSVGElement;
  readonly x: Scale;
  readonly top: number;
  readonly bottom: number;
  /** Marks a point, by its place in the list, or takes the mark away. */
  mark(point: number | null): void;
}

/** A curve with its bands: that of the trials filled, the linear one dashed; rings where it was observed. */
export function curvePicture({ name, titles, points, observed, width, height }: CurvePicture): DrawnCurve {
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
    [roomForTicks(y, TICKS), width - 16],
  );
  const [left, right] = x.range() as [number, number];
  const total = bottom + 46;
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
  const marker = svg("path", { class: "cursor" });
  const picture = svg(
    "svg",
    { class: "curve", width, height: total, viewBox: `0 0 ${width} ${total}`, role: "img", "aria-label": name },
    svg("text", { class: "axis-title", x: 0, y: HEAD }, titles[1]),
    axisLeft(y, left, right, TICKS),
    svg("path", { class: "trials-area", d: band(points) ?? "" }),
    ([0, 2] as const).map((i) => svg("path", { class: "trials-line", d: along(({ monteCarlo }) => monteCarlo[i]) })),
    svg("path", { class: "trials-rule thin", d: along(({ monteCarlo }) => monteCarlo[1]) }),
    ([0, 2] as const).map((i) => svg("path", { class: "linear-line", d: along(({ linear }) => linear[i]) })),
    observed.map(([at, value]) =>
      svg("circle", { class: "observed", cx: x(at).toFixed(1), cy: y(value).toFixed(1), r: 4 }),
    ),
    marker,
    axisBelow(x, bottom, width),
    svg("text", { class: "axis-title", x: (left + right) / 2, y: bottom + 38, "text-anchor": "middle" }, titles[0]),
  );
  return {
    picture,
    x,
    top: TOP,
    bottom,
    mark: (point) =>
      point === null
        ? marker.removeAttribute("d")
        : marker.setAttribute("d", `M${x(points[point]!.at).toFixed(1)} ${TOP}V${bottom}`),
  };
}
