import type { FactorRecord, IndexRecord, SensitivityRecord } from "../../../engine/index.ts";
import { indexScale, indexScene } from "../../present/pictures/index-bar.ts";
import { HALF, sceneMarkup } from "../draw/scene.ts";
import { conditionalScene } from "../../present/pictures/conditional.ts";
import { figureMarkup } from "../figure.ts";
import { fill, fillText, html, joinMarkup, type Child, type Markup } from "../markup.ts";
import { dividedBy, withUnit } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import {
  eachMeasurand,
  fromRecord,
  inputSymbol,
  letter,
  spoken,
  unitText,
  type Report,
  type Section,
} from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { tableMarkup } from "../table.ts";

/** Inputs whose picture against the measurand is drawn. */
const PICTURED = 4;

/** Shares of variance without assuming a linear model, where the study asked for them. */
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
    ${table(report, measurand, found)}
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

const factorLabel = (report: Report, { inputs }: FactorRecord): Markup =>
  joinMarkup(
    inputs.map((input) => (Object.hasOwn(report.record.inputs, input) ? inputSymbol(report, input) : input)),
    ", ",
  );

function table(report: Report, { symbol, unit, places }: Readable, found: SensitivityRecord): Markup {
  const { messages, numbers } = report;
  const words = messages.sensitivity;
  const x = indexScale(found);
  const plain = (value: IndexRecord): Markup =>
    html`${numbers.fixed(value.value, 3)} <span class="fine">${intervalOf(value)}</span>`;
  const intervalOf = ({ interval: [low, high] }: IndexRecord): string =>
    numbers.interval([numbers.fixed(low, 3), numbers.fixed(high, 3)]);
  const index = (name: string, value: IndexRecord | null, linear: number): Child =>
    value === null
      ? messages.none
      : html`${plain(value)}
        ${sceneMarkup(
          indexScene(
            fillText(words.pictureName, {
              index: name,
              value: numbers.fixed(value.value, 3),
              interval: intervalOf(value),
              linear: numbers.fixed(linear, 3),
            }),
            value,
            linear,
            x,
          ),
        )}`;
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fill(words.caption, {
        u: letter("u"),
        y: symbolMarkup(symbol),
        confidence: numbers.probability(found.confidence),
      }),
      columns: [
        { head: words.factor, kind: "head" },
        { head: words.linear, kind: "number" },
        { head: fill(words.firstOrder, { S: letter("S") }), kind: "number" },
        { head: fill(words.total, { T: letter("T") }), kind: "number" },
        { head: fill(words.alone, { u: letter("u"), unit: unitText(report, unit) }), kind: "number" },
      ],
      rows: ranked(found).map((factor) => [
        factorLabel(report, factor),
        numbers.fixed(factor.linearShare, 3),
        index(words.firstOrderName, factor.firstOrder, factor.linearShare),
        index(words.totalName, factor.total, factor.linearShare),
        factor.alone.standardUncertainty === null
          ? messages.none
          : numbers.fixed(factor.alone.standardUncertainty, places),
      ]),
      total: found.interaction === null ? [] : [[words.interaction, "", plain(found.interaction), "", ""]],
    },
  );
}

/** The largest total index first; by the linear share where there are none. */
const ranked = ({ factors }: SensitivityRecord): FactorRecord[] =>
  factors.toSorted((a, b) => (b.total?.value ?? b.linearShare) - (a.total?.value ?? a.linearShare));

function conditional(
  report: Report,
  { symbol, unit, linear, exponent }: Readable,
  found: SensitivityRecord,
): Markup | null {
  const { record, messages, numbers } = report;
  const words = messages.sensitivity;
  const names = ranked(found)
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
