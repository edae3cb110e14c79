import { line } from "d3";
import type { RunRecord } from "../../../engine/index.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { distributionOfBudget } from "../../present/budget-distribution.ts";
import { html, svg } from "../draw/node.ts";
import { decimalsFor, fixed, overUnit, percent, withUnit } from "../../present/numbers.ts";
import { readingLayer } from "../draw/reading-layer.ts";
import { symbolSpan } from "../draw/symbol.ts";
import { HEAD, plotHeight, TOP } from "./density-figure.ts";
import type { Shown } from "./value-range.ts";

const STEPS = 80;
const TICKS = 5;

interface Pair {
  readonly probability: number;
  readonly budget: number;
  readonly trials: number;
}

/**
 * The value that each share of the trials stays below, against the one the budget claims for that share: on the dashed
 * line where both agree, above it where the trials' value is greater.
 */
export function quantileFigure(
  element: HTMLElement,
  { measurand, from, to }: Shown,
  record: RunRecord,
  width: number,
): HTMLElement {
  const { symbol, unit, linear, monteCarlo } = measurand;
  const budget = distributionOfBudget(measurand, record.coverage.custom);
  const pairs = monteCarlo.distributionFunction
    .map(([probability, trials]): Pair => ({
      probability,
      budget: linear.estimate + linear.standardUncertainty * budget.quantile(probability),
      trials,
    }))
    .filter((pair) => pair.budget >= from && pair.budget <= to);
  if (pairs.length < 2)
    return html("p", { class: "readout" }, "The record holds too few points of the distribution function here.");
  const ends = [from, to, ...pairs.map(({ trials }) => trials)];
  const bottom = TOP + plotHeight(width) + 40;
  const y = scaleOver([Math.min(...ends), Math.max(...ends)], [bottom, TOP]);
  const x = scaleOver([from, to], [roomForTicks(y, TICKS), width - 16]);
  const total = bottom + 44;
  const tail = (1 - monteCarlo.probability) / 2;
  const marked = pairs.filter(
    ({ probability }) =>
      Math.abs(probability - tail) < 1e-9 || Math.abs(probability - 1 + tail) < 1e-9 || probability === 0.5,
  );
  const course = line<Pair>(
    (pair) => x(pair.budget),
    (pair) => y(pair.trials),
  ).digits(1);
  const cursor = svg("circle", { class: "cursor", r: 5, cx: -20, cy: -20 });
  const picture = svg(
    "svg",
    {
      width,
      height: total,
      viewBox: `0 0 ${width} ${total}`,
      role: "img",
      "aria-label":
        "Quantiles of the trials against those of the linear budget. Points on the dashed line: both methods agree.",
    },
    svg(
      "text",
      { class: "axis-title", x: 0, y: HEAD },
      "Monte Carlo quantile of ",
      symbolSpan(symbol, overUnit("", unit)),
    ),
    axisLeft(y, x.range()[0]!, x.range()[1]!, TICKS),
    svg("path", { class: "linear-line", d: `M${x(from)} ${y(from)}L${x(to)} ${y(to)}` }),
    svg("path", { class: "trials-line", d: course(pairs) ?? "" }),
    pairs.map((pair) =>
      svg("circle", { class: "trials-dot", cx: x(pair.budget).toFixed(1), cy: y(pair.trials).toFixed(1), r: 1.75 }),
    ),
    marked.map((pair) =>
      svg("circle", { class: "trials-mark", cx: x(pair.budget).toFixed(1), cy: y(pair.trials).toFixed(1), r: 4.5 }),
    ),
    cursor,
    axisBelow(x, bottom, width),
    svg(
      "text",
      { class: "axis-title", x: (x.range()[0]! + x.range()[1]!) / 2, y: bottom + 36, "text-anchor": "middle" },
      "quantile of the budget’s distribution of ",
      symbolSpan(symbol, overUnit("", unit)),
    ),
  );
  const places = Math.max(0, decimalsFor(linear.standardUncertainty, 2) + 1);
  const nearest = (step: number): Pair => {
    const value = from + ((step + 0.5) * (to - from)) / STEPS;
    return pairs.reduce((best, pair) => (Math.abs(pair.budget - value) < Math.abs(best.budget - value) ? pair : best));
  };
  return readingLayer(element, {
    picture,
    width,
    height: total,
    part: [x.range()[0]!, x.range()[1]!, TOP, bottom],
    steps: STEPS,
    label: "Read the quantiles step by step",
    hint: "Rings: the median and both endpoints of the interval. Point at the picture, or use Tab and the arrow keys, to read it.",
    tell(step) {
      const { probability, budget: claimed, trials } = nearest(step);
      const text = (value: number): string => fixed(value, places);
      return `${percent(probability, 2)} lie below ${withUnit(text(trials), unit)}; the budget claims ${withUnit(text(claimed), unit)}: ${withUnit(text(trials - claimed), unit)} apart`;
    },
    mark(step) {
      const pair = step === null ? null : nearest(step);
      cursor.setAttribute("cx", pair === null ? "-20" : x(pair.budget).toFixed(1));
      cursor.setAttribute("cy", pair === null ? "-20" : y(pair.trials).toFixed(1));
    },
  });
}
