import { area, line } from "d3";
import type { Figure, SettlingPoint } from "../../../engine/index.ts";
import type { Numbers } from "../numbers.ts";
import { axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { group, path, px, text, type Scene } from "./scene.ts";

/** The figures that must settle, in the order they are shown. */
export const FIGURES: readonly Figure[] = ["estimate", "standardUncertainty", "low", "high"];

/** The course of one figure, to be drawn about the value it ended at. */
export interface SettlingPicture {
  readonly name: string;
  readonly figure: Figure;
  readonly points: readonly SettlingPoint[];
  readonly limit: number;
  /** Distance shown above and below the last value; the same in all pictures. */
  readonly reach: number;
  readonly width: number;
  /** The number of trials at the right edge, in words. */
  readonly trials: string;
}

const HEIGHT = 150;
const TOP = 8;
const BOTTOM = HEIGHT - 26;

/** Half the height that shows the limit and, once the first tenth of the trials is over, every figure with its band. */
export function settlingReach(points: readonly SettlingPoint[], limit: number): number {
  const last = points.at(-1);
  if (last === undefined) return limit;
  const spreads = points
    .filter(({ trials }) => trials >= 0.1 * last.trials)
    .flatMap(({ averages, doubled }) =>
      FIGURES.map((figure) => {
        const [now, end, band] = [averages[figure], last.averages[figure], doubled[figure]];
        return now === null || end === null || band === null ? 0 : Math.abs(now - end) + band;
      }),
    );
  const bands = FIGURES.map((figure) => last.doubled[figure] ?? 0);
  return Math.max(1.6 * limit, Math.min(1.1 * Math.max(...spreads), 8 * Math.max(limit, ...bands))) || 1;
}

/** Average of a figure against trials with its ± 2 s_z band; the limit either side of the last value. */
export function settlingScene(
  { name, figure, points, limit, reach, width, trials: words }: SettlingPicture,
  numbers: Numbers,
): Scene {
  const last = points.at(-1)!;
  const end = last.averages[figure] ?? 0;
  const drawn = points.flatMap(({ trials, averages, doubled }) => {
    const [average, band] = [averages[figure], doubled[figure]];
    return average === null || band === null ? [] : [{ trials, value: average - end, band }];
  });
  type Point = (typeof drawn)[number];
  const y = scaleOver([-reach, reach], [BOTTOM, TOP]).clamp(true);
  const x = scaleOver([0, last.trials], [roomForTicks(y, 4, numbers), width - 4]);
  const [left, right] = x.range() as [number, number];
  const band = area<Point>(
    (point) => x(point.trials),
    (point) => y(point.value - point.band),
    (point) => y(point.value + point.band),
  ).digits(1);
  const course = line<Point>(
    (point) => x(point.trials),
    (point) => y(point.value),
  ).digits(1);
  return {
    class: "settling",
    width,
    height: HEIGHT,
    name,
    marks: [
      axisLeft(y, left, right, 4, numbers),
      ...(drawn.length < 2 ? [] : [path("trials-area", band(drawn) ?? ""), path("trials-line", course(drawn) ?? "")]),
      path("limit", [-limit, limit].map((value) => `M${px(left)} ${px(y(value))}H${px(right)}`).join("")),
      group("axis", [
        path("", `M${px(left)} ${BOTTOM + 0.5}H${px(right)}`),
        text("", left, BOTTOM + 18, "0"),
        text("", right, BOTTOM + 18, words, "end"),
      ]),
    ],
  };
}
