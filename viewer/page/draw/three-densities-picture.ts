import type { LinearRecord, MeasurandRecord, MonteCarloRecord, RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import { speech, messages } from "../language.ts";
import { overUnit, quotientUnit } from "../../present/numbers.ts";
import { fixed, probabilityText } from "../numbers.ts";
import { threeDensitiesScene } from "../../present/pictures/three-densities.ts";
import { symbolText } from "../../present/symbol.ts";
import type { LinearisedDistribution } from "../../present/tables/linearised.ts";
import { html } from "./node.ts";
import { sceneNode } from "./scene.ts";
import { swatch } from "./swatch.ts";

/** Height of the plot. */
const PLOT = 190;

/** What a picture of the three distributions needs of a measurand; no trials while they are being drawn. */
export interface ThreeTimes extends Pick<MeasurandRecord, "symbol" | "unit"> {
  readonly places: number;
  readonly linear: Pick<LinearRecord, "estimate" | "interval" | "curve">;
  readonly monteCarlo: Pick<MonteCarloRecord, "estimate" | "intervals" | "histogram" | "trials"> | null;
}

/** The three distributions of a measurand with their key, and what their differences mean. */
export function threeDensitiesPicture(
  measurand: ThreeTimes,
  found: Pick<LinearisedDistribution, "intervals" | "estimate" | "curve">,
  { coverage }: Pick<RunRecord, "coverage">,
  width: number,
): HTMLElement {
  const words = messages.linearised;
  const { symbol, unit, linear, monteCarlo, places } = measurand;
  const kind = coverage.interval;
  const ends = ([low, high]: readonly [number, number]): string =>
    speech.numbers.interval([fixed(low, places), fixed(high, places)]);
  const filled: Readonly<Record<string, string>> = {
    y: symbolText(symbol),
    p: probabilityText(coverage.probability),
    linear: ends(linear.interval),
    linearised: ends(found.intervals[kind]),
    monteCarlo: monteCarlo === null ? messages.none : ends(monteCarlo.intervals[kind]),
    unit,
  };
  return html(
    "div",
    { class: "three-densities" },
    html(
      "p",
      { class: "key" },
      html("span", {}, swatch("linear"), words.laneLinear),
      html("span", {}, swatch("linearised"), words.lane),
      html("span", {}, swatch("monte-carlo"), words.laneMonteCarlo),
    ),
    sceneNode(
      threeDensitiesScene(
        {
          name: fillText(words.pictureName, filled),
          titles: [[{ symbol }, overUnit("", unit)], overUnit(messages.monteCarlo.density, quotientUnit("1", unit))],
          linear: {
            label: `${words.laneLinear}  ${ends(linear.interval)}`,
            interval: linear.interval,
            estimate: linear.estimate,
            curve: linear.curve,
          },
          linearised: {
            label: `${words.lane}  ${ends(found.intervals[kind])}`,
            interval: found.intervals[kind],
            estimate: found.estimate,
            curve: found.curve,
          },
          monteCarlo:
            monteCarlo === null
              ? null
              : {
                  label: `${words.laneMonteCarlo}  ${ends(monteCarlo.intervals[kind])}`,
                  interval: monteCarlo.intervals[kind],
                  estimate: monteCarlo.estimate,
                  histogram: monteCarlo.histogram,
                  trials: monteCarlo.trials,
                },
          width,
          height: PLOT,
        },
        speech.numbers,
      ),
    ),
    html("p", { class: "note" }, messages.threeDensities.note),
  );
}
