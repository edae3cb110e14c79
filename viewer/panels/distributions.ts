import type { MeasurandRecord, RunRecord } from "../../engine/index.ts";
import { axisBelow, roomForTicks, scaleOver, type Scale } from "../draw/axis.ts";
import { binReader } from "../draw/bin-reader.ts";
import { densities, DENSITY_TICKS, densityMarks, densityScale, middleOf } from "../draw/density-plot.ts";
import { endComparison, reachFor } from "../draw/end-comparison.ts";
import { intervalLanes, LANE } from "../draw/interval-lanes.ts";
import { html, svg } from "../draw/node.ts";
import { decimalsFor, fixed, freedom, overUnit, percent, probabilityText, quotientUnit, rangeWithUnit, significant, whole, withUnit } from "../draw/numbers.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { readable } from "../draw/readable.ts";
import { swatch } from "../draw/swatch.ts";
import { symbolSpan } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

const TOP = 12;

/** The histogram of the trials with the budget's density over it, and the ends of both intervals. */
export const distributions: Panel = {
  id: "distributions",
  title: "What the trials show, and what the budget says",
  appliesTo: () => true,
  render(element, record, name, { width }) {
    const full = readable(record.measurands[name]!);
    const measurand = withMiddle(full, record);
    const { histogram } = measurand.monteCarlo;
    const x = valueScale(measurand, record, width);
    if (x === null) {
      element.replaceChildren(
        html("p", {}, `Every trial gave the same value, ${withUnit(String(histogram.low), measurand.unit)}: there is no spread to draw.`),
      );
      return;
    }
    element.replaceChildren(
      key(full, measurand),
      histogramPicture(element, measurand, record, x, width),
      endPictures(measurand, record, x, width),
      binNumbers(element, full),
    );
  },
};

/** The measurand with only those bins that show the intervals well, where long tails would else squeeze them. */
function withMiddle(measurand: MeasurandRecord, { coverage }: RunRecord): MeasurandRecord {
  const { linear, monteCarlo } = measurand;
  const ends = [...linear.interval, ...monteCarlo.intervals[coverage.interval]];
  const histogram = middleOf(monteCarlo.histogram, [Math.min(...ends), Math.max(...ends)]);
  return { ...measurand, monteCarlo: { ...monteCarlo, histogram } };
}

/** Values shown: the bins and both intervals. `null` where all trials are as good as equal. */
function valueScale({ monteCarlo, linear }: MeasurandRecord, { coverage }: RunRecord, width: number): Scale | null {
  const { low, width: bin, counts } = monteCarlo.histogram;
  const marks = [low, low + bin * counts.length, ...linear.interval, ...monteCarlo.intervals[coverage.interval]];
  const [from, to] = [Math.min(...marks), Math.max(...marks)];
  if (counts.length < 2 || !(to - from > 1e-12 * Math.abs(to))) return null;
  const margin = 0.02 * (to - from);
  return scaleOver([from - margin, to + margin], [densityRoom(monteCarlo, linear.curve), width - 16]);
}

/** Room the vertical axis needs for its numbers. */
function densityRoom({ histogram, trials }: MeasurandRecord["monteCarlo"], curve: MeasurandRecord["linear"]["curve"]): number {
  return roomForTicks(densityScale({ histogram, trials, curve, top: 0, bottom: 1 }), DENSITY_TICKS);
}

/** Decimals that tell bins apart. */
const binPlaces = ({ monteCarlo }: MeasurandRecord): number => Math.max(0, decimalsFor(monteCarlo.histogram.width, 2));

function key({ linear, monteCarlo }: MeasurandRecord, shown: MeasurandRecord): HTMLElement {
  const { below, above } = shown.monteCarlo.histogram;
  const cut = below + above - monteCarlo.histogram.below - monteCarlo.histogram.above;
  const ν = linear.effectiveDegreesOfFreedom;
  const shape = linear.curve.length === 0 ? "no spread" : ν === null ? "normal" : `t with ν ${freedom(ν).startsWith(">") ? "" : "= "}${freedom(ν)}`;
  return html(
    "p",
    { class: "key" },
    html("span", {}, swatch("monte-carlo"), `Monte Carlo, ${whole(monteCarlo.trials)} trials`),
    html("span", {}, swatch("linear"), `linear budget, ${shape}`),
    cut > 0 ? html("span", { class: "note" }, `${whole(below)} trials lie left and ${whole(above)} right of the picture`) : null,
  );
}

function histogramPicture(element: HTMLElement, measurand: MeasurandRecord, record: RunRecord, x: Scale, width: number): HTMLElement {
  const { symbol, unit, linear, monteCarlo } = measurand;
  const { histogram, trials } = monteCarlo;
  const height = Math.round(Math.min(330, Math.max(200, 0.32 * width)));
  const bottom = TOP + 18 + height;
  const plot = { histogram, trials, curve: linear.curve, x, top: TOP + 18, bottom };
  const y = densityScale(plot);
  const places = Math.max(0, decimalsFor(measurand.validation.numericalTolerance || histogram.width, 1));
  const interval = monteCarlo.intervals[record.coverage.interval];
  const words = ([low, high]: readonly [number, number]): string => rangeWithUnit(fixed(low, places), fixed(high, places), unit);
  const total = bottom + 56 + 2 * LANE;
  const kind = record.coverage.interval === "symmetric" ? "" : ", shortest";
  const marker = svg("path", { class: "chosen-bin" });
  const picture = svg(
    "svg",
    {
      width,
      height: total,
      viewBox: `0 0 ${width} ${total}`,
      role: "img",
      "aria-label": `Histogram of ${whole(trials)} trials with the density of the linear budget. Linear interval ${words(linear.interval)}; Monte Carlo interval ${words(interval)}; coverage probability ${probabilityText(record.coverage.probability)}.`,
    },
    svg("text", { class: "axis-title", x: 0, y: TOP }, overUnit("probability density", quotientUnit("1", unit))),
    densityMarks(plot, y),
    marker,
    axisBelow(x, bottom, width),
    svg("text", { class: "axis-title", x: (x.range()[0]! + x.range()[1]!) / 2, y: bottom + 36, "text-anchor": "middle" }, symbolSpan(symbol, overUnit("", unit))),
    intervalLanes(
      [
        { method: "linear", label: `linear  ${words(linear.interval)}`, interval: linear.interval, estimate: linear.estimate },
        { method: "monte-carlo", label: `Monte Carlo${kind}  ${words(interval)}`, interval, estimate: monteCarlo.estimate },
      ],
      x,
      bottom + 48,
    ),
  );
  const hint = "Point at a bar, or reach the picture with Tab and use the arrow keys, to read it.";
  const readout = html("p", { class: "readout", id: "bin-readout" }, hint);
  const heights = densities(histogram, trials);
  const choose = (bin: number | null): void => {
    if (bin === null) {
      delete element.dataset.bin;
      marker.removeAttribute("d");
      readout.textContent = hint;
      return;
    }
    element.dataset.bin = String(bin);
    const [from, to] = [x(histogram.low + bin * histogram.width), x(histogram.low + (bin + 1) * histogram.width)];
    marker.setAttribute("d", `M${from} ${bottom}V${y(heights[bin]!)}H${to}V${bottom}Z`);
    readout.textContent = tellBin(measurand, bin);
  };
  const chosen = element.dataset.bin === undefined ? null : Number(element.dataset.bin);
  const left = x(histogram.low);
  const right = x(histogram.low + histogram.counts.length * histogram.width);
  const layer = binReader({
    histogram,
    chosen,
    label: "Read the histogram bin by bin",
    span: [(100 * left) / width, (100 * (right - left)) / width],
    tell: (bin) => tellBin(measurand, bin),
    choose,
  });
  layer.style.top = `${(100 * plot.top) / total}%`;
  layer.style.height = `${(100 * height) / total}%`;
  if (chosen !== null && chosen < heights.length) choose(chosen);
  return html("div", { class: "figure" }, readout, html("div", { class: "picture" }, picture, layer));
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
  const beside = budget === null ? "" : `; budget ${withUnit(significant(budget, 3), per)}`;
  return `${rangeWithUnit(fixed(from, places), fixed(from + width, places), unit)}: ${whole(count)} trials, ${percent(count / monteCarlo.trials, 2)}; density ${withUnit(significant(density, 3), per)}${beside}`;
}

/** The budget's curve at a value, between its points by straight lines; `null` past its ends. */
function curveAt(curve: readonly (readonly [number, number])[], value: number): number | null {
  const after = curve.findIndex(([x]) => x >= value);
  if (after < 1) return null;
  const [[x0, d0], [x1, d1]] = [curve[after - 1]!, curve[after]!];
  return d0 + ((d1 - d0) * (value - x0)) / (x1 - x0);
}

function endPictures(measurand: MeasurandRecord, { coverage }: RunRecord, x: Scale, width: number): HTMLElement {
  const { unit, linear, monteCarlo, validation } = measurand;
  const { numericalTolerance: δ } = validation;
  const interval = monteCarlo.intervals[coverage.interval];
  const errors = monteCarlo.standardErrors[coverage.interval];
  const differences = [interval[0] - linear.interval[0], interval[1] - linear.interval[1]];
  const reach = reachFor(differences, δ);
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const times = (each - 12) / (2 * reach) / ((x.range()[1]! - x.range()[0]!) / (x.domain()[1]! - x.domain()[0]!));
  const places = Math.max(0, decimalsFor(δ > 0 ? δ : Math.max(...differences.map(Math.abs)), 1) + 1);
  const length = (value: number): string => withUnit(fixed(value, places), unit);
  const one = (index: 0 | 1): HTMLElement => {
    const name = index === 0 ? "low" : "high";
    const d = index === 0 ? validation.dLow : validation.dHigh;
    const where = d <= δ ? "within δ" : "beyond δ";
    return html(
      "div",
      { class: "end-block", id: `end-${name}` },
      html("h4", {}, index === 0 ? "Low end" : "High end", ": ", html("var", {}, "d", html("sub", {}, name)), ` = ${length(d)}, `, html("strong", {}, where)),
      endComparison({
        name: `${index === 0 ? "Low" : "High"} end: the Monte Carlo end lies ${length(d)} ${differences[index]! < 0 ? "below" : "above"} the linear end, ${where} = ${length(δ)}.`,
        difference: differences[index]!,
        standardError: errors?.[index] ?? null,
        tolerance: δ,
        reach,
        width: each,
        differenceLabel: fixed(d, places),
        toleranceLabel: `δ = ${fixed(δ, places)}`,
        axisLabel: overUnit("distance from the linear end", unit),
      }),
    );
  };
  return html(
    "div",
    { class: "ends" },
    html("h3", {}, `The ends, at ${times >= 10 ? times.toFixed(0) : times.toFixed(1)} times the scale above`),
    html(
      "p",
      { class: "note" },
      "Hatched: the linear end ± δ, where a Monte Carlo end agrees. The short bar at the Monte Carlo end is ± 2 of its standard errors. Both pictures have one scale.",
    ),
    html("div", { class: "end-pair" }, one(0), one(1)),
  );
}

function binNumbers(element: HTMLElement, measurand: MeasurandRecord): HTMLElement {
  const { unit, monteCarlo } = measurand;
  const { low, width, counts, below, above } = monteCarlo.histogram;
  const places = binPlaces(measurand);
  const heights = densities(monteCarlo.histogram, monteCarlo.trials);
  return numbersBehind(
    element,
    "bins",
    `Bins of the histogram; ${whole(below)} trials lie below and ${whole(above)} above them`,
    [overUnit("from", unit), overUnit("to", unit), "trials", overUnit("density", quotientUnit("1", unit))],
    () =>
      counts.map((count, i) => [
        fixed(low + i * width, places),
        fixed(low + (i + 1) * width, places),
        whole(count),
        significant(heights[i]!, 4),
      ]),
  );
}
