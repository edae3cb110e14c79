import { axisBelow, scaleOver } from "./axis.ts";
import { svg, type Child } from "./node.ts";

export interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
}

/** A measured value with its interval against tolerance and acceptance limits. */
export interface LimitsPicture {
  readonly name: string;
  readonly tolerance: Limits;
  readonly lanes: readonly {
    readonly method: "linear" | "monte-carlo";
    readonly label: string;
    readonly acceptance: Limits | null;
    readonly estimate: number;
    readonly interval: readonly [number, number];
  }[];
  /** Outline of the trials' density: value and height, 0 to 1. */
  readonly shape: readonly (readonly [number, number])[];
  readonly width: number;
  readonly axisLabel: Child;
}

const SHAPE = 64;
const TOP = 22;
const LANE = 40;

/**
 * The distribution of the trials between the tolerance limits (double lines), and a lane for each method with its
 * acceptance limits as brackets turned inwards: what lies between them is accepted.
 */
export function limitsPicture({ name, tolerance, lanes, shape, width, axisLabel }: LimitsPicture): SVGSVGElement {
  const limits = [tolerance.lower, tolerance.upper].filter((limit) => limit !== null);
  const marks = [
    ...limits,
    ...shape.map(([value]) => value),
    ...lanes.flatMap(({ interval, acceptance }) => [
      ...interval,
      ...(acceptance === null ? [] : [acceptance.lower, acceptance.upper].filter((limit) => limit !== null)),
    ]),
  ];
  const [least, greatest] = [Math.min(...marks), Math.max(...marks)];
  const margin = 0.06 * (greatest - least);
  const x = scaleOver([least - margin, greatest + margin], [8, width - 8]);
  const ground = TOP + SHAPE;
  const base = ground + LANE * lanes.length + 8;
  const height = base + 44;
  const outline = shape
    .map(([value, high]) => `${x(value).toFixed(1)} ${(ground - high * SHAPE).toFixed(1)}`)
    .join("L");
  const limit = (value: number | null, side: 1 | -1): SVGElement | null =>
    value === null
      ? null
      : svg(
          "g",
          {},
          svg("path", {
            class: "tolerance-limit",
            d: `M${x(value)} ${TOP - 6}V${base}M${x(value) + 3 * side} ${TOP - 6}V${base}`,
          }),
          svg(
            "text",
            {
              class: "halo",
              x: Math.min(width - 8, Math.max(8, x(value))),
              y: TOP - 10,
              "text-anchor": side < 0 ? "start" : "end",
            },
            side < 0 ? "lower limit" : "upper limit",
          ),
        );
  return svg(
    "svg",
    { class: "limits", width, height, viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": name },
    shape.length < 2
      ? null
      : svg("path", {
          class: "trials-area",
          d: `M${x(shape[0]![0]).toFixed(1)} ${ground}L${outline}L${x(shape.at(-1)![0]).toFixed(1)} ${ground}Z`,
        }),
    shape.length < 2 ? null : svg("path", { class: "trials-line", d: `M${outline}` }),
    limit(tolerance.lower, -1),
    limit(tolerance.upper, 1),
    lanes.map(({ method, label, acceptance, estimate, interval }, i) => {
      const y = ground + LANE * i + 26;
      const line = method === "linear" ? "linear-line" : "trials-rule";
      const bracket = (value: number | null, inwards: 1 | -1): string =>
        value === null ? "" : `M${x(value) + 6 * inwards} ${y - 9}H${x(value)}V${y + 9}H${x(value) + 6 * inwards}`;
      return svg(
        "g",
        {},
        svg("path", { class: line, d: `M${x(interval[0])} ${y}H${x(interval[1])}` }),
        svg("path", { class: `${line} solid`, d: `M${x(interval[0])} ${y - 5}v10M${x(interval[1])} ${y - 5}v10` }),
        svg("circle", { class: `${line} estimate`, cx: x(estimate), cy: y, r: 4 }),
        acceptance === null
          ? null
          : svg("path", { class: "acceptance", d: bracket(acceptance.lower, 1) + bracket(acceptance.upper, -1) }),
        svg(
          "text",
          { class: "lane-label", x: tolerance.lower === null ? 14 : x(tolerance.lower) + 12, y: y - 12 },
          label,
        ),
      );
    }),
    axisBelow(x, base, width),
    svg("text", { class: "axis-title", x: width / 2, y: base + 36, "text-anchor": "middle" }, axisLabel),
  );
}
