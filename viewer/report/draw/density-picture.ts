import { line } from "d3";
import type { Interval } from "../../../engine/index.ts";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { axisBelow, axisLeft, picture, px, scaleOver, WIDE, type Scale } from "./axis.ts";

export interface DensityTexts {
  readonly name: string;
  readonly axisTitle: Child;
  readonly density: Child;
  readonly laneLinear: Child;
  readonly laneMonteCarlo: Child;
  readonly dLow: Child;
  readonly dHigh: Child;
}

const LEFT = 58;
const RIGHT = WIDE - 8;
const TOP = 10;
const BASE = 232;
const LANE = 38;
const HEIGHT = BASE + 2 * LANE + 62;

/** The part of the axis shown: both intervals with two fifths of their length either side, but no more than there is. */
export function shownRange({ monteCarlo, linear }: Readable, interval: Interval): Interval {
  const low = Math.min(interval[0], linear.interval[0]);
  const high = Math.max(interval[1], linear.interval[1]);
  const margin = 0.4 * (high - low) || monteCarlo.histogram.width;
  return [low - margin, high + margin];
}

/** Heights of the bins within a range, and the trials outside of them. */
export function binsWithin(
  { monteCarlo: { histogram, trials } }: Readable,
  [from, to]: Interval,
): {
  readonly bins: readonly { readonly from: number; readonly to: number; readonly density: number }[];
  readonly outside: number;
} {
  const { low, width, counts } = histogram;
  const bins = counts.flatMap((count, i) => {
    const start = low + i * width;
    return start >= from && start + width <= to
      ? [{ from: start, to: start + width, density: count / (trials * width), count }]
      : [];
  });
  return { bins, outside: trials - bins.reduce((sum, { count }) => sum + count, 0) };
}

/** Outline of a histogram, from base to base. */
export function histogramPath(bins: ReturnType<typeof binsWithin>["bins"], x: Scale, y: Scale): string {
  if (bins.length === 0) return "";
  const steps = bins.map(({ to, density }) => `V${px(y(density))}H${px(x(to))}`);
  return `M${px(x(bins[0]!.from))} ${px(y(0))}${steps.join("")}V${px(y(0))}`;
}

/** The curve of the budget's density within a range. */
export const curvePath = (
  curve: readonly (readonly [number, number])[],
  [from, to]: Interval,
  x: Scale,
  y: Scale,
): string =>
  line<readonly [number, number]>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1)(curve.filter(([value]) => value >= from && value <= to)) ?? "";

/** Histogram of the trials as a density, the budget's density over it, and both coverage intervals below. */
export function densityPicture(measurand: Readable, interval: Interval, texts: DensityTexts, numbers: Numbers): Markup {
  const { linear, monteCarlo } = measurand;
  const range = shownRange(measurand, interval);
  const { bins } = binsWithin(measurand, range);
  const most = Math.max(...bins.map(({ density }) => density), ...linear.curve.map(([, density]) => density));
  const x = scaleOver(range, [LEFT, RIGHT]);
  const y = scaleOver([0, (most || 1) * 1.05], [BASE, TOP]);
  const outline = histogramPath(bins, x, y);
  const lanes = [
    { interval: linear.interval, estimate: linear.estimate, label: texts.laneLinear, className: "linear-line" },
    { interval, estimate: monteCarlo.estimate, label: texts.laneMonteCarlo, className: "trials-line" },
  ];
  const at = (i: number): number => BASE + 24 + LANE * i;
  const end = (which: 0 | 1): Markup => {
    const [a, b] = [x(linear.interval[which]), x(interval[which])];
    const outward = which === 0 ? -1 : 1;
    const anchor = which === 0 ? "end" : "start";
    const outer = which === 0 ? Math.min(a, b) : Math.max(a, b);
    return html`<path
        class="end-gap"
        d="M${px(a)} ${px(y.range()[1]!)}V${px(at(0))}M${px(b)} ${px(at(1))}V${px(at(0))}H${px(a)}"
      /><text x="${px(outer + 7 * outward)}" y="${px(at(0) + LANE / 2 + 4)}" text-anchor="${anchor}"
        >${which === 0 ? texts.dLow : texts.dHigh}</text
      >`;
  };
  return picture(
    WIDE,
    HEIGHT,
    texts.name,
    html`${axisLeft(y, LEFT, RIGHT, numbers)}<text
        class="axis-title"
        transform="translate(12 ${(BASE + TOP) / 2}) rotate(-90)"
        text-anchor="middle"
        >${texts.density}</text
      >
      <path class="trials-area" d="${outline}Z" /><path class="trials-line" d="${outline}" /><path
        class="linear-line"
        d="${curvePath(linear.curve, range, x, y)}"
      />
      <path class="axis-line" d="M${LEFT} ${BASE}H${RIGHT}" />${end(0)}${end(1)}
      ${lanes.map(
        ({ interval: [low, high], estimate, label, className }, i) =>
          html`<path class="${className}" d="M${px(x(low))} ${at(i)}H${px(x(high))}" /><path
              class="${className} solid"
              d="M${px(x(low))} ${at(i) - 6}v12M${px(x(high))} ${at(i) - 6}v12"
            />${
              estimate === null || estimate < range[0] || estimate > range[1]
                ? null
                : html`<circle class="${className} dot" cx="${px(x(estimate))}" cy="${at(i)}" r="3.2" />`
            }<text x="${px((x(low) + x(high)) / 2)}" y="${at(i) - 9}" text-anchor="middle">${label}</text>`,
      )}
      ${axisBelow(x, BASE + 2 * LANE + 14, numbers, texts.axisTitle)}`,
  );
}
