import { area, line } from "d3";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import { axisBelow, axisLeft, picture, px, scaleOver, WIDE } from "./axis.ts";

const HEIGHT = 230;
const LEFT = 56;
const TOP = 22;
const BASE = HEIGHT - 42;

/** Both bands at an argument, as deviations from the curve. */
export interface DrawnPoint {
  readonly at: number;
  readonly linear: readonly [number, number];
  readonly monteCarlo: readonly [number, number];
}

/** The bands of both methods about a calibration curve, and how far the points that it was fitted to lie from it. */
export function curvePicture(
  points: readonly DrawnPoint[],
  observed: readonly (readonly [at: number, deviation: number])[],
  texts: { readonly name: string; readonly axisTitle: Child; readonly sideTitle: Child },
  numbers: Numbers,
): Markup {
  const values = [
    0,
    ...points.flatMap(({ linear, monteCarlo }) => [...linear, ...monteCarlo]),
    ...observed.map(([, deviation]) => deviation),
  ];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const margin = 0.06 * (most - least) || 1;
  const y = scaleOver([least - margin, most + margin], [BASE, TOP]);
  const all = [...points.map(({ at }) => at), ...observed.map(([at]) => at)];
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const x = scaleOver([first - 0.02 * (last - first), last + 0.02 * (last - first)], [LEFT, WIDE - 6]);
  const band = area<DrawnPoint>(
    ({ at }) => x(at),
    ({ monteCarlo }) => y(monteCarlo[0]),
    ({ monteCarlo }) => y(monteCarlo[1]),
  ).digits(1);
  const edge = (method: "linear" | "monteCarlo", end: 0 | 1): string =>
    line<DrawnPoint>(
      ({ at }) => x(at),
      (point) => y(point[method][end]),
    ).digits(1)(points) ?? "";
  return picture(
    WIDE,
    HEIGHT,
    texts.name,
    html`<text x="${LEFT}" y="12">${texts.sideTitle}</text>${axisLeft(y, LEFT, WIDE - 6, numbers, 5)}<path
        class="band"
        d="${band(points) ?? ""}"
      /><path class="trials-line" d="${edge("monteCarlo", 0)}${edge("monteCarlo", 1)}" /><path
        class="linear-line"
        d="${edge("linear", 0)}${edge("linear", 1)}"
      />${observed.map(
        ([at, deviation]) => html`<circle class="hollow" cx="${px(x(at))}" cy="${px(y(deviation))}" r="3.2" />`,
      )}${axisBelow(x, BASE, numbers, texts.axisTitle)}`,
  );
}
