import { area, line } from "d3";
import { html, type Markup } from "../markup.ts";
import { picture, px, scaleOver } from "./axis.ts";

const WIDTH = 72;
const HEIGHT = 30;
const BASE = HEIGHT - 3;

/** A small picture of an input's density over its middle part; a single line where it is exact. */
export function inputDensity(curve: readonly (readonly [number, number])[], name: string): Markup {
  const base = html`<path class="axis-line" d="M2 ${BASE}H${WIDTH - 2}" />`;
  if (curve.length < 2) {
    return picture(WIDTH, HEIGHT, name, html`${base}<path class="trials-line" d="M${WIDTH / 2} ${BASE}V4" />`, "small");
  }
  const heights = curve.map(([, density]) => density).sort((a, b) => a - b);
  // An infinite or very high end (arc sine, beta) would flatten all the rest.
  const most = Math.min(heights.at(-1)!, 3 * heights[Math.floor(0.8 * (heights.length - 1))]! || heights.at(-1)!);
  const x = scaleOver([curve[0]![0], curve.at(-1)![0]], [8, WIDTH - 8]);
  const y = scaleOver([0, most || 1], [BASE, 3]).clamp(true);
  const points: readonly (readonly [number, number])[] = [[curve[0]![0], 0], ...curve, [curve.at(-1)![0], 0]];
  const filled = area<readonly [number, number]>(
    (point) => x(point[0]),
    BASE,
    (point) => y(point[1]),
  ).digits(1)(points);
  const outline = line<readonly [number, number]>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1)(points);
  return picture(
    WIDTH,
    HEIGHT,
    name,
    html`<path class="trials-area" d="${filled ?? ""}" />${base}<path class="trials-line" d="${outline ?? ""}" /><path
        class="mean-tick"
        d="M${px(WIDTH / 2)} ${BASE}v2"
      />`,
    "small",
  );
}
