import { line } from "d3";
import type { RunRecord } from "../../../engine/index.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { distributionOfBudget } from "../../present/budget-distribution.ts";
import { html, svg } from "../draw/node.ts";
import { decimalsFor, overUnit, withUnit } from "../../present/numbers.ts";
import { fixed, percent } from "../numbers.ts";
import { readingLayer } from "../draw/reading-layer.ts";
import { labelNode } from "../draw/scene.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { HEAD, plotHeight, TOP } from "./density-figure.ts";
import type { Shown } from "./value-range.ts";

const said = messages.distributionFigures;

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
  if (pairs.length < 2) return html("p", { class: "readout" }, said.tooFewPoints);
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
      "aria-label": said.quantilesName,
    },
    svg(
      "text",
      { class: "axis-title", x: 0, y: HEAD },
      labelNode([...labelOf(said.trialsQuantile, { y: { symbol } }), overUnit("", unit)]),
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
      labelNode([...labelOf(said.budgetQuantile, { y: { symbol } }), overUnit("", unit)]),
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
    label: said.readQuantiles,
    hint: fillText(said.rings, { hint: messages.reading.hint }),
    tell(step) {
      const { probability, budget: claimed, trials } = nearest(step);
      const text = (value: number): string => fixed(value, places);
      return fillText(said.quantile, {
        p: percent(probability, 2),
        trials: withUnit(text(trials), unit),
        budget: withUnit(text(claimed), unit),
        difference: withUnit(text(trials - claimed), unit),
      });
    },
    mark(step) {
      const pair = step === null ? null : nearest(step);
      cursor.setAttribute("cx", pair === null ? "-20" : x(pair.budget).toFixed(1));
      cursor.setAttribute("cy", pair === null ? "-20" : y(pair.trials).toFixed(1));
    },
  });
}
