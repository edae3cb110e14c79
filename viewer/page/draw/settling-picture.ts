import { area, line } from "d3";
import type { Figure, SettlingPoint } from "../../../engine/index.ts";
import { axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { svg } from "./node.ts";
import { whole } from "../../present/numbers.ts";

/** The course of one figure, to be drawn about the value it ended at. */
export interface SettlingPicture {
  readonly name: string;
  readonly figure: Figure;
  readonly points: readonly SettlingPoint[];
  readonly limit: number;
  /** Distance shown above and below the last value; the same in all pictures. */
  readonly reach: number;
  readonly width: number;
}

export const SETTLING_HEIGHT = 150;
const TOP = 8;
const BOTTOM = SETTLING_HEIGHT - 26;

/**
 * Half the height that shows the limit and, once the first tenth of the trials is over, every figure with its band.
 */
export function settlingReach(points: readonly SettlingPoint[], limit: number): number {
  const last = points.at(-1);
  if (last === undefined) return limit;
  const late = points.filter(({ trials }) => trials >= 0.1 * last.trials);
  const spreads = late.flatMap(({ averages, doubled }) =>
    (Object.keys(averages) as Figure[]).map((figure) => {
      const [now, end, band] = [averages[figure], last.averages[figure], doubled[figure]];
      return now === null || end === null || band === null ? 0 : Math.abs(now - end) + band;
    }),
  );
  return Math.max(
    1.6 * limit,
    Math.min(1.1 * Math.max(...spreads), 8 * Math.max(limit, ...Object.values(last.doubled).map((band) => band ?? 0))),
  );
}

/** Average of a figure against trials with its ± 2 s_z band; the limit either side of the last value. */
export function settlingPicture({ name, figure, points, limit, reach, width }: SettlingPicture): SVGSVGElement {
  const last = points.at(-1)!;
  const end = last.averages[figure]!;
  const drawn = points.flatMap(({ trials, averages, doubled }) => {
    const [average, band] = [averages[figure], doubled[figure]];
    return average === null || band === null ? [] : [{ trials, value: average - end, band }];
  });
  const y = scaleOver([-reach, reach], [BOTTOM, TOP]).clamp(true);
  const x = scaleOver([0, last.trials], [roomForTicks(y, 4), width - 4]);
  const band = area<(typeof drawn)[number]>(
    (point) => x(point.trials),
    (point) => y(point.value - point.band),
    (point) => y(point.value + point.band),
  ).digits(1);
  const course = line<(typeof drawn)[number]>(
    (point) => x(point.trials),
    (point) => y(point.value),
  ).digits(1);
  const limits = [-limit, limit].map((value) => `M${x.range()[0]} ${y(value).toFixed(1)}H${x.range()[1]}`).join("");
  const ends = x.range() as [number, number];
  return svg(
    "svg",
    {
      class: "settling",
      width,
      height: SETTLING_HEIGHT,
      viewBox: `0 0 ${width} ${SETTLING_HEIGHT}`,
      role: "img",
      "aria-label": name,
    },
    axisLeft(y, ends[0], ends[1], 4),
    drawn.length < 2 ? null : svg("path", { class: "trials-area", d: band(drawn) ?? "" }),
    drawn.length < 2 ? null : svg("path", { class: "trials-line", d: course(drawn) ?? "" }),
    svg("path", { class: "limit", d: limits }),
    svg(
      "g",
      { class: "axis" },
      svg("path", { d: `M${ends[0]} ${BOTTOM + 0.5}H${ends[1]}` }),
      svg("text", { x: ends[0], y: BOTTOM + 18 }, "0"),
      svg("text", { x: ends[1], y: BOTTOM + 18, "text-anchor": "end" }, `${whole(last.trials)} trials`),
    ),
  );
}
