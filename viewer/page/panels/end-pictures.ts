import type { RunRecord } from "../../../engine/index.ts";
import { sceneNode } from "../draw/scene.ts";
import { html } from "../draw/node.ts";
import { fixed, overUnit, probabilityText, withUnit } from "../../present/numbers.ts";
import { endScene, reachFor } from "../../present/pictures/end.ts";
import type { Readable } from "../../present/readable.ts";

/**
 * Both endpoints of the intervals that the verdict rests on, large, with their differences and δ at one scale.
 *
 * @param scale pixels that the picture above gives one unit
 */
export function endPictures(measurand: Readable, { coverage }: RunRecord, scale: number, width: number): HTMLElement {
  const { unit, linear, monteCarlo, validation, places } = measurand;
  const { numericalTolerance: δ } = validation;
  const interval = monteCarlo.intervals[coverage.interval];
  const errors = monteCarlo.standardErrors[coverage.interval];
  const differences = [interval[0] - linear.interval[0], interval[1] - linear.interval[1]];
  const reach = reachFor(differences, δ);
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const times = (each - 12) / (2 * reach) / scale;
  const length = (value: number): string => withUnit(fixed(value, places), unit);
  const one = (index: 0 | 1): HTMLElement => {
    const name = index === 0 ? "low" : "high";
    const d = index === 0 ? validation.dLow : validation.dHigh;
    const where = d <= δ ? "within δ" : "beyond δ";
    return html(
      "div",
      { class: "end-block", id: `end-${name}` },
      html(
        "h4",
        {},
        index === 0 ? "Lower endpoint" : "Upper endpoint",
        ": ",
        html("var", {}, "d", html("sub", {}, name)),
        ` = ${length(d)}, `,
        html("strong", {}, where),
      ),
      sceneNode(
        endScene({
          linearLabel: "linear endpoint",
          monteCarloLabel: "Monte Carlo endpoint",
          name: `${index === 0 ? "Lower" : "Upper"} endpoint: the Monte Carlo endpoint lies ${length(d)} ${differences[index]! < 0 ? "below" : "above"} the linear endpoint, ${where} = ${length(δ)}.`,
          difference: differences[index]!,
          standardError: errors?.[index] ?? null,
          tolerance: δ,
          reach,
          width: each,
          differenceLabel: fixed(d, places),
          toleranceLabel: `δ = ${fixed(δ, places)}`,
          axisLabel: overUnit("distance from the linear endpoint", unit),
        }),
      ),
    );
  };
  return html(
    "div",
    { class: "ends" },
    html(
      "h3",
      {},
      `The endpoints at ${probabilityText(coverage.probability)}, at ${times >= 10 ? times.toFixed(0) : times.toFixed(1)} times the scale above`,
    ),
    html(
      "p",
      { class: "note" },
      "Hatched: the linear endpoint ± δ, within which a Monte Carlo endpoint agrees. The short bar at the Monte Carlo endpoint shows ± 2 standard errors. Both pictures have one scale.",
    ),
    html("div", { class: "end-pair" }, one(0), one(1)),
  );
}
