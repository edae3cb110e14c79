import type { MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import type { Scale } from "../draw/axis.ts";
import { densityScene } from "../../present/pictures/density.ts";
import { densities } from "../../present/pictures/histogram.ts";
import { lanesMark, type Lane } from "../../present/pictures/lanes.ts";
import { markNode, sceneNode } from "../draw/scene.ts";
import { speech, messages } from "../language.ts";
import { html, svg } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { decimalsFor, overUnit, quotientUnit, withUnit } from "../../present/numbers.ts";
import { fixed, percent, probabilityText, rangeWithUnit, significant, whole } from "../numbers.ts";
import { readingLayer } from "../draw/reading-layer.ts";
import { symbolSpan } from "../draw/symbol.ts";
import type { Shown } from "./value-range.ts";

const said = messages.distributionFigures;

/** Place of the head of the vertical axis, and of the top of the plot. */
export const HEAD = 12;
export const TOP = HEAD + 18;

export const plotHeight = (width: number): number => Math.round(Math.min(330, Math.max(200, 0.32 * width)));

/** Decimals at which neighbouring bins differ. */
export const binPlaces = ({ monteCarlo }: MeasurandRecord): number =>
  Math.max(0, decimalsFor(monteCarlo.histogram.width, 2));

/** Both intervals in words at the places of δ. */
export function intervalWords({
  unit,
  validation,
  monteCarlo,
}: MeasurandRecord): (interval: readonly [number, number]) => string {
  const places = Math.max(0, decimalsFor(validation.numericalTolerance || monteCarlo.histogram.width, 1));
  return ([low, high]) => rangeWithUnit(fixed(low, places), fixed(high, places), unit);
}

/** The intervals of both methods, with their endpoints in words. */
function lanes(measurand: MeasurandRecord, { coverage }: RunRecord): readonly [Lane, Lane] {
  const { linear, monteCarlo } = measurand;
  const words = intervalWords(measurand);
  const interval = monteCarlo.intervals[coverage.interval];
  return [
    {
      method: "linear",
      label: fillText(said.laneLinear, { interval: words(linear.interval) }),
      interval: linear.interval,
      estimate: linear.estimate,
    },
    {
      method: "monte-carlo",
      label: fillText(coverage.interval === "symmetric" ? said.laneMonteCarlo : said.laneShortest, {
        interval: words(interval),
      }),
      interval,
      estimate: monteCarlo.estimate,
    },
  ];
}

/** The two brackets below a picture. */
export const lanesOf = (measurand: MeasurandRecord, record: RunRecord, x: Scale, y: number): SVGElement =>
  markNode(lanesMark(lanes(measurand, record), x, y));

/** Symbol and unit under a horizontal axis. */
export const quantityTitle = ({ symbol, unit }: MeasurandRecord, x: Scale, y: number): SVGTextElement =>
  svg(
    "text",
    { class: "axis-title", x: (x.range()[0]! + x.range()[1]!) / 2, y, "text-anchor": "middle" },
    symbolSpan(symbol, overUnit("", unit)),
  );

/** The histogram of the trials with the budget's density over it. */
export function densityFigure(
  element: HTMLElement,
  { measurand, from, to }: Shown,
  record: RunRecord,
  width: number,
): HTMLElement {
  const { unit, linear, monteCarlo } = measurand;
  const { histogram, trials } = monteCarlo;
  if (histogram.counts.length === 0) return html("p", { class: "readout" }, said.noBin);
  const words = intervalWords(measurand);
  const { scene, x, y, top, bottom } = densityScene(
    {
      name: fillText(said.densityName, {
        trials: whole(trials),
        linear: words(linear.interval),
        monteCarlo: words(monteCarlo.intervals[record.coverage.interval]),
        p: probabilityText(monteCarlo.probability),
      }),
      titles: [
        [{ symbol: measurand.symbol }, overUnit("", unit)],
        overUnit(messages.monteCarlo.density, quotientUnit("1", unit)),
      ],
      histogram,
      trials,
      curve: linear.curve,
      range: [from, to],
      lanes: lanes(measurand, record),
      differences: null,
      width,
      height: plotHeight(width),
    },
    speech.numbers,
  );
  const picture = sceneNode(scene);
  const marker = svg("path", { class: "chosen-bin" });
  picture.insertBefore(marker, picture.querySelector(".lanes"));
  const heights = densities(histogram, trials);
  const edge = (bin: number): number => x(histogram.low + bin * histogram.width);
  return readingLayer(element, {
    picture,
    width,
    height: scene.height,
    part: [edge(0), edge(heights.length), top, bottom],
    steps: heights.length,
    label: said.readDensity,
    hint: messages.reading.hint,
    tell: (bin) => tellBin(measurand, bin),
    mark(bin) {
      if (bin === null) marker.removeAttribute("d");
      else marker.setAttribute("d", `M${edge(bin)} ${bottom}V${y(heights[bin]!)}H${edge(bin + 1)}V${bottom}Z`);
    },
  });
}

/** A bin in words. */
function tellBin(measurand: MeasurandRecord, bin: number): string {
  const { unit, linear, monteCarlo } = measurand;
  const { low, width, counts } = monteCarlo.histogram;
  const places = binPlaces(measurand);
  const from = low + bin * width;
  const count = counts[bin]!;
  const density = count / (monteCarlo.trials * width);
  const per = quotientUnit("1", unit);
  const budget = curveAt(linear.curve, from + width / 2);
  const text = fillText(said.bin, {
    range: rangeWithUnit(fixed(from, places), fixed(from + width, places), unit),
    count: whole(count),
    share: percent(count / monteCarlo.trials, 2),
    density: withUnit(significant(density, 3), per),
  });
  return budget === null
    ? text
    : `${text}${fillText(said.binBudget, { density: withUnit(significant(budget, 3), per) })}`;
}

/** The budget's curve at a value, between its points by straight lines; `null` past its ends. */
function curveAt(curve: readonly (readonly [number, number])[], value: number): number | null {
  const after = curve.findIndex(([x]) => x >= value);
  if (after < 1) return null;
  const [[x0, d0], [x1, d1]] = [curve[after - 1]!, curve[after]!];
  return d0 + ((d1 - d0) * (value - x0)) / (x1 - x0);
}
