import type { RunRecord } from "../../../engine/index.ts";
import { sceneNode } from "../draw/scene.ts";
import { html } from "../draw/node.ts";
import { overUnit, withUnit } from "../../present/numbers.ts";
import { fixed, probabilityText } from "../numbers.ts";
import { fillText } from "../../present/fill.ts";
import { speech, messages } from "../language.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { labelNodes } from "../draw/symbol.ts";
import { endScene, reachFor } from "../../present/pictures/end.ts";
import { digitsOf } from "../../present/pictures/digits-of.ts";
import type { Readable } from "../../present/readable.ts";

const words = messages.endpointsPanel;

/**
 * Both endpoints of the intervals that the verdict rests on, large, with their differences and δ at one scale.
 *
 * @param scale pixels that the picture above gives one unit
 */
export function endPictures(measurand: Readable, record: RunRecord, scale: number, width: number): HTMLElement {
  const { coverage } = record;
  const digits = digitsOf(record, measurand, speech, Math.min(width, 720));
  const { unit, linear, monteCarlo, validation, places } = measurand;
  const { numericalTolerance: δ } = validation;
  const interval = monteCarlo.intervals[coverage.interval];
  const errors = monteCarlo.standardErrors[coverage.interval];
  const differences = [interval[0] - linear.interval[0], interval[1] - linear.interval[1]];
  const reach = reachFor(differences, δ, errors);
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const times = (each - 12) / (2 * reach) / scale;
  const length = (value: number): string => withUnit(fixed(value, places), unit);
  const one = (index: 0 | 1): HTMLElement => {
    const name = index === 0 ? "low" : "high";
    const d = index === 0 ? validation.dLow : validation.dHigh;
    const where = d <= δ ? words.within : words.beyond;
    const endpoint = index === 0 ? messages.monteCarlo.low : messages.monteCarlo.high;
    return html(
      "div",
      { class: "end-block", id: `end-${name}` },
      html(
        "h4",
        {},
        endpoint,
        ": ",
        html("var", {}, "d", html("sub", {}, name)),
        ` = ${length(d)}, `,
        html("strong", {}, where),
      ),
      sceneNode(
        endScene(
          {
            linearLabel: words.linear,
            monteCarloLabel: words.monteCarlo,
            name: fillText(differences[index]! < 0 ? words.below : words.above, {
              endpoint,
              distance: length(d),
              where,
              tolerance: length(δ),
            }),
            difference: differences[index]!,
            standardError: errors?.[index] ?? null,
            tolerance: δ,
            reach,
            width: each,
            differenceLabel: fixed(d, places),
            toleranceLabel: `δ = ${fixed(δ, places)}`,
            axisLabel: overUnit(words.distance, unit),
          },
          speech.numbers,
        ),
      ),
    );
  };
  return html(
    "div",
    { class: "ends" },
    html(
      "h3",
      {},
      fillText(words.title, {
        p: probabilityText(coverage.probability),
        times: fixed(times, times >= 10 ? 0 : 1),
      }),
    ),
    html("p", { class: "note" }, labelNodes(labelOf(words.note, { delta: { symbol: "δ" } }))),
    html("div", { class: "end-pair" }, one(0), one(1)),
    digits === null
      ? null
      : html("div", { class: "end-digits" }, html("h4", {}, messages.validation.digitsHead), sceneNode(digits)),
  );
}
