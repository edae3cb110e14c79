import { area, line } from "d3";
import type { RunRecord } from "../../../engine/index.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { distributionOfBudget } from "../../present/budget-distribution.ts";
import { LANE } from "../../present/pictures/lanes.ts";
import { svg } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { withUnit } from "../../present/numbers.ts";
import { fixed, percent, whole } from "../numbers.ts";
import { readingLayer } from "../draw/reading-layer.ts";
import { binPlaces, HEAD, intervalWords, lanesOf, plotHeight, quantityTitle, TOP } from "./density-figure.ts";
import type { Shown } from "./value-range.ts";

const said = messages.distributionFigures;

/** Steps a reader goes along the picture, and points of the budget's line. */
const STEPS = 100;
const TICKS = 5;

type Point = readonly [probability: number, value: number];

/** Probability that the measurand is at most a value, by both methods. */
export function distributionFunctionFigure(
  element: HTMLElement,
  { measurand, from, to, zoom }: Shown,
  record: RunRecord,
  width: number,
): HTMLElement {
  const { unit, linear, monteCarlo } = measurand;
  const { estimate, standardUncertainty: u } = linear;
  const budget = distributionOfBudget(measurand, record.coverage.custom);
  const byBudget = (value: number): number =>
    u === 0 ? Number(value >= estimate) : budget.distributionFunction((value - estimate) / u);
  const points: readonly Point[] = [
    [0, monteCarlo.least],
    ...monteCarlo.distributionFunction,
    [1, monteCarlo.greatest],
  ];
  const byTrials = (value: number): number => probabilityAt(points, value);
  const inside = points.filter(([, value]) => value > from && value < to);
  const course: readonly Point[] = [[byTrials(from), from], ...inside, [byTrials(to), to]];
  const values = Array.from({ length: STEPS + 1 }, (_, i) => from + (i * (to - from)) / STEPS);
  const most = zoom === "low" ? 1.05 * Math.max(byTrials(to), byBudget(to)) : 1;
  const least = zoom === "high" ? 1 - 1.05 * (1 - Math.min(byTrials(from), byBudget(from))) : 0;
  const bottom = TOP + plotHeight(width);
  const y = scaleOver([least, most], [bottom, TOP]);
  const x = scaleOver([from, to], [roomForTicks(y, TICKS), width - 16]);
  const total = bottom + 56 + 2 * LANE;
  const words = intervalWords(measurand);
  const filled = area<Point>(
    ([, value]) => x(value),
    y(least),
    ([p]) => y(p),
  ).digits(1);
  const edge = line<Point>(
    ([, value]) => x(value),
    ([p]) => y(p),
  ).digits(1);
  const dashed = line<number>(
    (value) => x(value),
    (value) => y(byBudget(value)),
  ).digits(1);
  const cursor = svg("path", { class: "cursor" });
  const picture = svg(
    "svg",
    {
      width,
      height: total,
      viewBox: `0 0 ${width} ${total}`,
      role: "img",
      "aria-label": fillText(said.distributionName, {
        trials: whole(monteCarlo.trials),
        linear: words(linear.interval),
        monteCarlo: words(monteCarlo.intervals[record.coverage.interval]),
      }),
    },
    svg("text", { class: "axis-title", x: 0, y: HEAD }, said.distributionAxis),
    axisLeft(y, x.range()[0]!, x.range()[1]!, TICKS),
    svg("path", { class: "trials-area", d: filled(course) ?? "" }),
    svg("path", { class: "trials-line", d: edge(course) ?? "" }),
    svg("path", { class: "linear-line", d: dashed(values) ?? "" }),
    cursor,
    axisBelow(x, bottom, width),
    quantityTitle(measurand, x, bottom + 36),
    lanesOf(measurand, record, x, bottom + 48),
  );
  const places = binPlaces(measurand);
  const valueAt = (step: number): number => from + ((step + 0.5) * (to - from)) / STEPS;
  return readingLayer(element, {
    picture,
    width,
    height: total,
    part: [x.range()[0]!, x.range()[1]!, TOP, bottom],
    steps: STEPS,
    label: said.readDistribution,
    hint: messages.reading.hint,
    tell(step) {
      const value = valueAt(step);
      return fillText(said.atMost, {
        value: withUnit(fixed(value, places), unit),
        trials: percent(byTrials(value), 2),
        budget: percent(byBudget(value), 2),
      });
    },
    mark(step) {
      if (step === null) cursor.removeAttribute("d");
      else cursor.setAttribute("d", `M${x(valueAt(step)).toFixed(1)} ${TOP}V${bottom}`);
    },
  });
}

/** The recorded distribution function at a value, by straight lines between its points. */
export function probabilityAt(points: readonly Point[], value: number): number {
  const after = points.findIndex(([, at]) => at >= value);
  if (after < 0) return 1;
  if (after === 0) return points[0]![1] === value ? points[0]![0] : 0;
  const [[p0, v0], [p1, v1]] = [points[after - 1]!, points[after]!];
  return v1 === v0 ? p1 : p0 + ((p1 - p0) * (value - v0)) / (v1 - v0);
}
