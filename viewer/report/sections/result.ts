import { fill, html, type Markup } from "../markup.ts";
import { decimalsFor, withUnit, plusMinus } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import {
  comparedInterval,
  eachMeasurand,
  effectiveFreedom,
  fromRecord,
  letter,
  listed,
  spoken,
  type Report,
  type Section,
} from "../report.ts";
import { certificateStatement } from "../../present/certificate-statement.ts";
import { fillText } from "../../present/fill.ts";
import { toReport } from "../../present/to-report.ts";
import { standingOf, standingWords, type Standing } from "../../present/verdict.ts";
import { labelMarkup, symbolMarkup } from "../symbol.ts";

/** What the evaluation was for, and its result in a sentence. */
export const result: Section = {
  id: "result",
  render(report) {
    const { record, messages } = report;
    const words = messages.result;
    const quantities = listed(
      report,
      Object.values(record.measurands).map(
        ({ symbol, meaning }) => html`${fromRecord(report, meaning)}, ${symbolMarkup(symbol)}`,
      ),
    );
    const { notes } = record.study;
    return html`<p>
        ${fill(Object.keys(record.measurands).length === 1 ? words.purpose : words.purposes, { quantities })}
        ${words.records}
      </p>
      ${eachMeasurand(report, (measurand, name) => stated(report, measurand, name))}
      <p class="fine">${words.rounding}</p>
      ${notes === undefined || notes === "" ? null : html`<p class="notes"><b>${words.notes}.</b> ${notes}</p>`}`;
  },
};

function stated(report: Report, measurand: Readable, name: string): Markup {
  const { record, messages, numbers } = report;
  const words = messages.result;
  const { symbol, unit, linear, monteCarlo, validation } = measurand;
  const { recommendation, conformity } = report.sentences.measurands[name]!;
  const text = (value: number): string => numbers.fixed(value, measurand.reported);
  const uText = (value: number): string => withUnit(numbers.fixed(value, decimalsFor(value, 2)), unit);
  const p = numbers.probability(record.coverage.probability);
  const y = symbolMarkup(symbol);
  const pair = html`${y} = ${plusMinus(text(linear.estimate), text(linear.expandedUncertainty), unit)}`;
  const k = numbers.fixed(linear.coverageFactor, 2);
  const ν = linear.effectiveDegreesOfFreedom;
  const freedom =
    record.coverage.custom === "factor"
      ? words.fixedFactor
      : ν === null
        ? ""
        : fill(words.freedom, { nu: effectiveFreedom(report, ν) });
  const u = html`${letter("u")}(${y})`;
  const ends = comparedInterval(report, measurand);
  const interval = withUnit(numbers.interval([text(ends[0]), text(ends[1])]), unit);
  const parts = { p, y, interval, kind: words[record.coverage.interval], trials: numbers.whole(monteCarlo.trials) };
  const byLinear = html`<p>
    ${fill(words.linear, { result: html`<b>${pair}</b>`, U: letter("U"), k: letter("k"), u, uSymbol: u, u2: uText(linear.standardUncertainty), kSymbol: letter("k"), kValue: k, freedom, p })}
  </p>`;
  const { estimate, standardUncertainty } = monteCarlo;
  const missing =
    estimate === null ? (standardUncertainty === null ? words.meanAndDeviation : words.mean) : words.deviation;
  const byTrials =
    estimate === null || standardUncertainty === null
      ? fill(words.monteCarloBare, { ...parts, interval: html`<b>${interval}</b>`, missing })
      : fill(words.monteCarlo, {
          ...parts,
          interval: html`<b>${interval}</b>`,
          estimate: withUnit(text(estimate), unit),
          u: uText(standardUncertainty),
        });
  const instead = fill(validation.firm ? words.instead : words.unclear, {
    result: pair,
    kSymbol: letter("k"),
    kValue: k,
  });
  const standing = standingOf(validation);
  const found = toReport(measurand);
  const recommended = recommendation === null ? null : html` ${spoken(report, recommendation)}`;
  const fitted = html`<p>
    <b>${messages.toReport.head}.</b> ${labelMarkup(certificateStatement(measurand, record, report))}
    ${messages.toReport.precedent}
  </p>`;
  const stamp = html`${stampMark(standing)}${fillText(words.stamp, { verdict: standingWords(standing, messages) })}`;
  return html`<div class="stated">
    <p class="stamp">${stamp}</p>
    ${
      standing === "validated"
        ? byLinear
        : found.kind === "linear"
          ? html`${fitted}
              <p>${instead}${recommended}</p>
              <p>${byTrials}</p>`
          : html`<p>${byTrials}</p>
              <p>${instead}${recommended}</p>`
    }
    ${conformity === null ? null : html`<p>${spoken(report, conformity)}</p>`}
  </div>`;
}

/** A tick or a cross, which differ in shape; none if the trials decide nothing. */
export const stampMark = (standing: Standing): Markup | null =>
  standing === "validated" || standing === "notValidated"
    ? html`<svg class="verdict-mark" viewBox="0 0 12 12" width="12" height="12" aria-hidden="true">
        <path d="${standing === "validated" ? "M1.5 6.5L4.7 9.8L10.5 2.2" : "M2 2L10 10M10 2L2 10"}" />
      </svg> `
    : null;
