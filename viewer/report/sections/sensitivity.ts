import type { SensitivityRecord } from "../../../engine/index.ts";
import { HALF, sceneMarkup } from "../draw/scene.ts";
import { conditionalScene } from "../../present/pictures/conditional.ts";
import { figureMarkup } from "../figure.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Markup } from "../markup.ts";
import { dividedBy, withUnit } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { eachMeasurand, fromRecord, letter, spoken, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { rankedFactors, sensitivityTable } from "../../present/tables/sensitivity.ts";
import { presentedTable } from "../table.ts";

/** Inputs whose picture against the measurand is drawn. */
const PICTURED = 4;

/** Shares of variance without the assumption of a linear model, if the study states the analysis. */
export const sensitivity: Section = {
  id: "sensitivity",
  render: (report) =>
    eachMeasurand(report, (measurand, name) =>
      measurand.sensitivity === null ? null : written(report, measurand, measurand.sensitivity, name),
    ),
};

function written(report: Report, measurand: Readable, found: SensitivityRecord, name: string): Markup {
  const { messages, numbers } = report;
  const words = messages.sensitivity;
  const { unit, places } = measurand;
  const estimators = fill(words.estimators, {
    trials: numbers.whole(found.trials),
    firstOrder: fromRecord(report, found.estimators.firstOrder),
    total: fromRecord(report, found.estimators.total),
    interval: fromRecord(report, found.estimators.interval),
    contribution: fromRecord(report, found.estimators.contribution),
  });
  const { standardUncertainty: together, standardUncertaintyOneAtATime: alone } = found;
  const oneAtATime =
    together === null || alone === null
      ? null
      : fill(words.oneAtATime, {
          alone: withUnit(numbers.fixed(alone, places), unit),
          together: withUnit(numbers.fixed(together, places), unit),
        });
  return html`<p>${spoken(report, report.sentences.measurands[name]!.sensitivity)}</p>
    ${presentedTable(report, sensitivityTable(measurand, found, report.record, report))}
    <p class="fine">
      ${fill(words.pictureCaption, {
        confidence: numbers.probability(found.confidence),
        u: letter("u"),
        y: symbolMarkup(measurand.symbol),
      })}
    </p>
    ${conditional(report, measurand, found)}
    <p class="fine">${estimators} ${oneAtATime}</p>`;
}

function conditional(
  report: Report,
  { symbol, unit, linear, exponent }: Readable,
  found: SensitivityRecord,
): Markup | null {
  const { record, messages, numbers } = report;
  const words = messages.sensitivity;
  const names = rankedFactors(found)
    .flatMap(({ inputs }) => inputs)
    .filter((input) => (found.conditional[input]?.bins.length ?? 0) > 1 && Object.hasOwn(record.inputs, input))
    .slice(0, PICTURED);
  if (names.length === 0) return null;
  const drawn = names.map((input) => {
    const quantity = record.inputs[input]!;
    const line = linear.contributions.find((contribution) => contribution.input === input)!;
    return sceneMarkup(
      conditionalScene(
        {
          name: fillText(words.conditionalName, { y: symbolText(symbol), x: symbolText(quantity.symbol) }),
          picture: found.conditional[input]!,
          // The slope in the unit shown, whose power of ten a sensitivity coefficient does not have.
          line: {
            input: line.estimate,
            output: linear.estimate,
            slope: line.sensitivityCoefficient * Number(`1e${-exponent}`),
          },
          width: HALF,
          titles: [
            [{ symbol: quantity.symbol }, dividedBy(quantity.unit)],
            [{ symbol }, dividedBy(unit)],
          ],
        },
        numbers,
      ),
      "half",
    );
  });
  return figureMarkup(report, drawn, fill(words.conditionalCaption, { y: symbolMarkup(symbol) }));
}
