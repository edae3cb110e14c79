import { speech, messages } from "../language.ts";
import type { Histogram, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import type { ChosenInterval } from "../../api/measurands.ts";
import { RequestError } from "../api.ts";
import { mergedBins } from "../../present/pictures/histogram.ts";
import { html } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { withUnit } from "../../present/numbers.ts";
import { fixed, freedom, plain, probabilityText, whole } from "../numbers.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { binsTable, functionTable } from "../../present/tables/distribution.ts";
import { labelNodes } from "../draw/symbol.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { readable } from "../../present/readable.ts";
import { swatch } from "../draw/swatch.ts";
import { atProbability, intervalsFromPoints, probabilities, probabilityIn } from "./chosen-probability.ts";
import { densityFigure, binPlaces } from "./density-figure.ts";
import { distributionControls, isPictured, type DistributionControls, type Pictured } from "./distribution-controls.ts";
import { distributionFunctionFigure } from "./distribution-function-figure.ts";
import { endPictures } from "./end-pictures.ts";
import type { Panel, View } from "./panel.ts";
import { quantileFigure } from "./quantile-figure.ts";
import { isZoom, shownRange, type Shown } from "./value-range.ts";

/** Bins on offer if the server has the whole sample. */
const BINS = [10, 20, 30, 40, 50, 60, 80, 100, 120, 160, 200, 300, 400];
/** Time without a move of a slider after which the server is asked. */
const PAUSE = 150;

/** What the server answered last, under what was asked of it. */
interface Answer<T> {
  key: string;
  value: T | null;
  failed: boolean;
  timer: ReturnType<typeof setTimeout> | undefined;
}

/** What one panel's element holds from one draw to the next: the controls, so that a slider is not lost while it is moved. */
interface Standing {
  readonly controls: DistributionControls;
  readonly drawing: HTMLElement;
  readonly interval: Answer<ChosenInterval>;
  readonly histogram: Answer<Histogram>;
  draw: () => void;
}

const standing = new WeakMap<HTMLElement, Standing>();

function standingOf(element: HTMLElement): Standing {
  const known = standing.get(element);
  if (known !== undefined) return known;
  const nothing = <T>(): Answer<T> => ({ key: "", value: null, failed: false, timer: undefined });
  const made: Standing = {
    controls: distributionControls(),
    drawing: html("div", {}),
    interval: nothing(),
    histogram: nothing(),
    draw: () => {},
  };
  standing.set(element, made);
  element.replaceChildren(made.controls.element, made.drawing);
  return made;
}

/** The trials beside the budget in three views, and the ends of both intervals. */
export const distributions: Panel = {
  id: "distributions",
  title: messages.panels.distributions,
  appliesTo: () => true,
  render(element, record, name, view) {
    const state = standingOf(element);
    state.draw = () => draw(element, state, record, name, view);
    state.draw();
  },
};

const pictures: Readonly<
  Record<Pictured, (element: HTMLElement, shown: Shown, record: RunRecord, width: number) => HTMLElement>
> = {
  density: densityFigure,
  distribution: distributionFunctionFigure,
  quantiles: quantileFigure,
};

function draw(element: HTMLElement, state: Standing, record: RunRecord, name: string, view: View): void {
  const { reading, width } = view;
  const own = record.measurands[name]!;
  const p = probabilityIn(reading.p) ?? record.coverage.probability;
  const pictured = isPictured(reading.view) ? reading.view : "density";
  const zoom = isZoom(reading.zoom) ? reading.zoom : "whole";
  const offered = view.sample === null ? divisorsOf(own.monteCarlo.histogram.counts.length) : BINS;
  const bins = offered.includes(Number(reading.bins))
    ? Number(reading.bins)
    : pictured === "density" && zoom !== "whole" && view.sample !== null
      ? 400
      : own.monteCarlo.histogram.counts.length;

  const other = p !== record.coverage.probability;
  const interval = other
    ? asked(state, "interval", `${name} ${p}`, view.sample && ((sample = view.sample!) => sample.interval(name, p)))
    : null;
  const histogram =
    bins === own.monteCarlo.histogram.counts.length
      ? null
      : asked(
          state,
          "histogram",
          `${name} ${bins}`,
          view.sample && ((sample = view.sample!) => sample.histogram(name, bins)),
        );
  const binned = {
    ...own,
    monteCarlo: { ...own.monteCarlo, histogram: histogram?.value ?? mergedBins(own.monteCarlo.histogram, bins) },
  };
  const changed = other
    ? atProbability(binned, record, interval?.value ?? intervalsFromPoints(own.monteCarlo.distributionFunction, p))
    : binned;
  const unit = reading.unit ?? null;
  const measurand = readable(changed, unit, own);
  const shown = shownRange(measurand, record, zoom);
  state.controls.element.hidden = shown === null;
  if (shown === null) {
    const { histogram: only } = measurand.monteCarlo;
    state.drawing.replaceChildren(
      html("p", {}, fillText(messages.distributions.constant, { value: withUnit(plain(only.low), measurand.unit) })),
    );
    return;
  }
  state.controls.set(
    {
      pictured,
      zoom,
      p,
      probabilities: probabilities(record.coverage.probability),
      bins,
      offered,
      own: !other && reading.bins === undefined,
    },
    view,
  );
  state.drawing.replaceChildren(
    legend(measurand, shown),
    other ? atOther(measurand, record, interval) : "",
    pictures[pictured](element, shown, record, width),
    endPictures(readable(own, unit), record, (width - 70) / (shown.to - shown.from), width),
    pictured === "density"
      ? numbersBehind(element, "bins", () => binsTable(measurand, binPlaces(measurand), speech))
      : numbersBehind(element, "points", () => functionTable(measurand, binPlaces(measurand) + 1, speech)),
  );
}

const divisorsOf = (count: number): number[] => BINS.filter((bins) => bins <= count && count % bins === 0);

/** What the server says to a question, asked once the reader has paused; the last answer to the same question until then. */
function asked<S extends "interval" | "histogram">(
  state: Standing,
  slot: S,
  key: string,
  ask: (() => Promise<Standing[S]["value"]>) | null,
): Standing[S] {
  const answer = state[slot];
  if (answer.key === key || ask === null) return answer.key === key ? answer : { ...answer, value: null };
  answer.key = key;
  answer.value = null;
  answer.failed = false;
  clearTimeout(answer.timer);
  answer.timer = setTimeout(() => void settle(state, slot, key, ask), PAUSE);
  return answer;
}

async function settle<S extends "interval" | "histogram">(
  state: Standing,
  slot: S,
  key: string,
  ask: () => Promise<Standing[S]["value"]>,
): Promise<void> {
  const answer = state[slot];
  try {
    const value = await ask();
    if (answer.key !== key) return;
    answer.value = value;
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
    // The record's own points stand in; a line beside them states what is missing.
    if (answer.key !== key) return;
    answer.failed = true;
  }
  state.draw();
}

function legend({ linear, monteCarlo }: MeasurandRecord, { measurand, zoom }: Shown): HTMLElement {
  const { below, above } = measurand.monteCarlo.histogram;
  const cut = below + above - monteCarlo.histogram.below - monteCarlo.histogram.above;
  const words = messages.distributions;
  return html(
    "p",
    { class: "key" },
    html("span", {}, swatch("monte-carlo"), fillText(words.trials, { trials: whole(monteCarlo.trials) })),
    html("span", {}, swatch("linear"), fillText(words.linear, { shape: shapeText(linear) })),
    cut > 0 && zoom === "whole"
      ? html("span", { class: "note" }, fillText(words.outside, { below: whole(below), above: whole(above) }))
      : null,
  );
}

/** The distribution that the linear budget stands for. */
function shapeText({ curve, effectiveDegreesOfFreedom: ν }: MeasurandRecord["linear"]): string {
  const words = messages.distributions;
  if (curve.length === 0) return words.noSpread;
  if (ν === null) return words.normal;
  const nu = freedom(ν);
  return fillText(nu.startsWith(">") ? words.tAbove : words.t, { nu });
}

/** Both intervals at a probability that is not the study's. */
function atOther(
  measurand: MeasurandRecord,
  { coverage }: RunRecord,
  interval: Answer<ChosenInterval> | null,
): HTMLElement {
  const { linear, monteCarlo, unit } = measurand;
  const sentences = messages.distributions;
  const from =
    interval?.value != null ? sentences.whole : interval?.failed === true ? sentences.betweenOnly : sentences.between;
  const places = binPlaces(measurand);
  const words = ([low, high]: readonly [number, number]): string =>
    fillText(sentences.range, { low: fixed(low, places), high: withUnit(fixed(high, places), unit) });
  return html(
    "p",
    { class: "at-other", id: "at-other", role: "status" },
    labelNodes(
      labelOf(sentences.other, {
        p: probabilityText(monteCarlo.probability),
        own: probabilityText(coverage.probability),
        trials: words(monteCarlo.intervals[coverage.interval]),
        from,
        linear: words(linear.interval),
        k: { symbol: "k" },
        factor: fixed(linear.coverageFactor, 2),
      }),
    ),
  );
}
