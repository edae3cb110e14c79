import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft } from "./axis.ts";
import { EDGE, plane, TICKS, TITLE } from "./plane.ts";
import { circle, path, px, text, type Label, type Mark, type Scene } from "./scene.ts";

/** A result, or a figure without an interval, by each method at one point of the swept quantity. */
export interface SweptPoint {
  readonly at: number;
  readonly linear: readonly [low: number, value: number | null, high: number];
  readonly monteCarlo: readonly [low: number, value: number | null, high: number];
}

export interface SweepPicture {
  readonly name: string;
  readonly titles: readonly [below: Label, left: Label];
  readonly points: readonly SweptPoint[];
  readonly width: number;
  readonly height: number;
  /** Least value that must show, beside the intervals. */
  readonly from?: number;
}

/** Pixels that the bars of the two methods lie either side of their point, and half the width of a bar's ends. */
const [ASIDE, END] = [4, 4];

/**
 * Results over a range, a bar for each method at each point: nothing is drawn between the points, where nothing was
 * computed or measured.
 */
export function sweepScene({ name, titles, points, width, height, from }: SweepPicture, numbers: Numbers): Scene {
  const values = points.flatMap(({ linear, monteCarlo }) => [linear[0], linear[2], monteCarlo[0], monteCarlo[2]]);
  const { x, y, left, right, bottom, whole } = plane(
    { along: points.map(({ at }) => at), up: values, from, aside: 0.04 },
    { width, height, right: EDGE },
    numbers,
  );
  const bar = (middle: number, [low, , high]: SweptPoint["linear"], line: string): Mark[] =>
    low === high
      ? []
      : [
          path(line, `M${px(middle)} ${px(y(low))}V${px(y(high))}`),
          path(
            `${line} solid`,
            `M${px(middle - END)} ${px(y(low))}H${px(middle + END)}M${px(middle - END)} ${px(y(high))}H${px(middle + END)}`,
          ),
        ];
  const mark = (middle: number, value: number | null, look: string): Mark[] =>
    value === null ? [] : [circle(look, middle, y(value), 3.5)];
  return {
    class: "sweep",
    width,
    height: whole,
    name,
    marks: [
      text("axis-title", 0, TITLE, titles[1]),
      axisLeft(y, left, right, TICKS, numbers),
      ...points.flatMap(({ at, linear, monteCarlo }): Mark[] => [
        ...bar(x(at) - ASIDE, monteCarlo, "trials-rule"),
        ...mark(x(at) - ASIDE, monteCarlo[1], "trials-rule"),
        ...bar(x(at) + ASIDE, linear, "linear-line"),
        ...mark(x(at) + ASIDE, linear[1], "linear-line estimate"),
      ]),
      axisBelow(x, bottom, width, numbers),
      text("axis-title", (left + right) / 2, bottom + 38, titles[0], "middle"),
    ],
  };
}
