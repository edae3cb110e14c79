import type { Numbers } from "../numbers.ts";
import { axisBelow, scaleOver } from "./axis.ts";
import { circle, group, path, px, text, type Label, type Mark, type Scene } from "./scene.ts";

export interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
}

/** A measured value with its interval against tolerance and acceptance limits. */
export interface LimitsPicture {
  readonly name: string;
  readonly tolerance: Limits;
  readonly limitLabels: readonly [lower: Label, upper: Label];
  readonly lanes: readonly {
    readonly method: "linear" | "monte-carlo";
    readonly label: Label;
    readonly acceptance: Limits | null;
    readonly estimate: number;
    readonly interval: readonly [number, number];
  }[];
  /** Outline of the trials' density: value and height, 0 to 1. */
  readonly shape: readonly (readonly [number, number])[];
  readonly width: number;
  readonly axisLabel: Label;
}

const SHAPE = 64;
const TOP = 22;
const LANE = 40;

/**
 * The distribution of the trials between the tolerance limits (double lines), and a lane for each method with its
 * acceptance limits as brackets turned inwards, between which a value is accepted.
 */
export function limitsScene(
  { name, tolerance, limitLabels, lanes, shape, width, axisLabel }: LimitsPicture,
  numbers: Numbers,
): Scene {
  const marks = [
    ...stated(tolerance),
    ...shape.map(([value]) => value),
    ...lanes.flatMap(({ interval, acceptance }) => [...interval, ...(acceptance === null ? [] : stated(acceptance))]),
  ];
  const [least, greatest] = [Math.min(...marks), Math.max(...marks)];
  const margin = 0.06 * (greatest - least);
  const x = scaleOver([least - margin, greatest + margin], [8, width - 8]);
  const ground = TOP + SHAPE;
  const base = ground + LANE * lanes.length + 8;
  const outline = shape.map(([value, high]) => `${px(x(value))} ${px(ground - high * SHAPE)}`).join("L");
  const limit = (value: number | null, side: 1 | -1): Mark[] =>
    value === null
      ? []
      : [
          path("tolerance-limit", `M${px(x(value))} ${TOP - 6}V${base}M${px(x(value) + 3 * side)} ${TOP - 6}V${base}`),
          text(
            "halo",
            Math.min(width - 8, Math.max(8, x(value))),
            TOP - 10,
            limitLabels[side < 0 ? 0 : 1],
            side < 0 ? "start" : "end",
          ),
        ];
  return {
    class: "limits",
    width,
    height: base + 44,
    name,
    marks: [
      ...(shape.length < 2
        ? []
        : [
            path("trials-area", `M${px(x(shape[0]![0]))} ${ground}L${outline}L${px(x(shape.at(-1)![0]))} ${ground}Z`),
            path("trials-line", `M${outline}`),
          ]),
      ...limit(tolerance.lower, -1),
      ...limit(tolerance.upper, 1),
      ...lanes.map(({ method, label, acceptance, estimate, interval: [low, high] }, i) => {
        const y = ground + LANE * i + 26;
        const line = method === "linear" ? "linear-line" : "trials-rule";
        const bracket = (value: number | null, inwards: 1 | -1): string =>
          value === null
            ? ""
            : `M${px(x(value) + 6 * inwards)} ${y - 9}H${px(x(value))}V${y + 9}H${px(x(value) + 6 * inwards)}`;
        return group("", [
          path(line, `M${px(x(low))} ${y}H${px(x(high))}`),
          path(`${line} solid`, `M${px(x(low))} ${y - 5}v10M${px(x(high))} ${y - 5}v10`),
          circle(`${line} estimate`, x(estimate), y, 4),
          ...(acceptance === null
            ? []
            : [path("acceptance", bracket(acceptance.lower, 1) + bracket(acceptance.upper, -1))]),
          text("lane-label", tolerance.lower === null ? 14 : x(tolerance.lower) + 12, y - 12, label),
        ]);
      }),
      axisBelow(x, base, width, numbers),
      text("axis-title", width / 2, base + 36, axisLabel, "middle"),
    ],
  };
}

const stated = ({ lower, upper }: Limits): number[] => [lower, upper].filter((limit) => limit !== null);
