import { area, line } from "d3";
import type { Figure, SettlingPoint } from "../../../engine/index.ts";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import { axisLeft, picture, px, scaleOver } from "./axis.ts";

const WIDTH = 322;
const HEIGHT = 128;
const LEFT = 56;
const TOP = 22;
const BASE = HEIGHT - 20;
const FIGURES: readonly Figure[] = ["estimate", "standardUncertainty", "low", "high"];

/** Half-height that shows the limit and, once a tenth of the trials is over, every figure with its band. */
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

/** Average of one figure against the number of trials, with ± 2 s_z and the limit about its last value. */
export function settlingPicture(
  {
    figure,
    points,
    limit,
    reach,
  }: {
    readonly figure: Figure;
    readonly points: readonly SettlingPoint[];
    readonly limit: number;
    readonly reach: number;
  },
  texts: { readonly name: string; readonly title: Child; readonly trials: string },
  numbers: Numbers,
): Markup {
  const last = points.at(-1)!;
  const end = last.averages[figure] ?? 0;
  const drawn = points.flatMap(({ trials, averages, doubled }) => {
    const [average, band] = [averages[figure], doubled[figure]];
    return average === null || band === null ? [] : [{ trials, value: average - end, band }];
  });
  const y = scaleOver([-reach, reach], [BASE, TOP]).clamp(true);
  const x = scaleOver([0, last.trials], [LEFT, WIDTH - 6]);
  type Point = (typeof drawn)[number];
  const band = area<Point>(
    (point) => x(point.trials),
    (point) => y(point.value - point.band),
    (point) => y(point.value + point.band),
  ).digits(1);
  const course = line<Point>(
    (point) => x(point.trials),
    (point) => y(point.value),
  ).digits(1);
  return picture(
    WIDTH,
    HEIGHT,
    texts.name,
    html`<text class="strong" x="${LEFT}" y="12">${texts.title}</text>${axisLeft(y, LEFT, WIDTH - 6, numbers, 4)}
      ${drawn.length < 2 ? null : html`<path class="band" d="${band(drawn) ?? ""}" /><path class="trials-line" d="${course(drawn) ?? ""}" />`}
      <path class="limit" d="M${LEFT} ${px(y(-limit))}H${WIDTH - 6}M${LEFT} ${px(y(limit))}H${WIDTH - 6}" />
      <g class="axis"
        ><path d="M${LEFT} ${BASE}H${WIDTH - 6}" /><text x="${LEFT}" y="${BASE + 15}">0</text
        ><text x="${WIDTH - 6}" y="${BASE + 15}" text-anchor="end">${texts.trials}</text></g
      >`,
    "half",
  );
}
