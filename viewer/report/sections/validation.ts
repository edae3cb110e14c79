import { movesRange, movesScene } from "../../present/pictures/moves.ts";
import { digitsOf } from "../../present/pictures/digits-of.ts";
import { HALF, sceneMarkup, WIDE } from "../draw/scene.ts";
import { endScene, reachFor } from "../../present/pictures/end.ts";
import { figureMarkup } from "../figure.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Markup } from "../markup.ts";
import { dividedBy } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { comparedInterval, eachMeasurand, letter, spoken, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { causesTable, movesAt, signedText, sourceOfCauses } from "../../present/tables/causes.ts";
import { comparisonTable } from "../../present/tables/comparison.ts";
import { presentedTable } from "../table.ts";
import { standingOf } from "../../present/verdict.ts";
import { stampMark } from "./result.ts";

/** The comparison of JCGM 101, clause 8: δ, both differences, the verdict, and why the two differ. */
export const validation: Section = {
  id: "validation",
  render(report) {
    const words = report.messages.validation;
    return html`<p>
        ${fill(words.rule, {
          delta: letter("δ"),
          dLow: letter("d_low"),
          dHigh: letter("d_high"),
          y: letter("y"),
          U: letter("U"),
          ylow: letter("y_low"),
          yhigh: letter("y_high"),
        })}
      </p>
      ${eachMeasurand(report, (measurand, name) => html`${presentedTable(report, comparisonTable(measurand, report))}${verdict(report, measurand, name)}${ends(report, measurand, name)}${digits(report, measurand)}${causes(report, measurand, name)}`)}`;
  },
};

function verdict(report: Report, { validation: found }: Readable, name: string): Markup {
  const words = report.messages.validation;
  const { verdict: stated, paired, explanation, recommendation } = report.sentences.measurands[name]!;
  return html`<dl class="facts words">
    <div>
      <dt>${words.verdictHead}</dt>
      <dd>${stampMark(standingOf(found))}${spoken(report, stated)}</dd>
    </div>
    ${
      paired === null || paired.text === ""
        ? null
        : html`<div>
            <dt>${words.pairedHead}</dt>
            <dd>${spoken(report, paired)}</dd>
          </div>`
    }
    ${
      explanation === null
        ? null
        : html`<div>
              <dt>${words.whyHead}</dt>
              <dd>${spoken(report, explanation)}</dd>
            </div>
            <div>
              <dt>${words.followsHead}</dt>
              <dd>${spoken(report, recommendation)}</dd>
            </div>`
    }
  </dl>`;
}

function ends(report: Report, measurand: Readable, name: string): Markup {
  const { record, messages, numbers } = report;
  const words = messages.validation;
  const { linear, monteCarlo, validation: found, unit, places } = measurand;
  const interval = comparedInterval(report, measurand);
  const errors = monteCarlo.standardErrors[record.coverage.interval];
  const differences = [0, 1].map((end) => interval[end]! - linear.interval[end]!);
  const δ = found.numericalTolerance;
  const at = (value: number): string => numbers.fixed(value, places);
  const pictures = ([0, 1] as const).map((end) => {
    const label = end === 0 ? words.endLow : words.endHigh;
    const d = end === 0 ? found.dLow : found.dHigh;
    return html`<div class="half">
      <p class="head">${label}</p>
      ${sceneMarkup(
        endScene(
          {
            name: fillText(words.endName, { end: label, difference: at(differences[end]!), tolerance: at(δ), unit }),
            difference: differences[end]!,
            standardError: errors?.[end] ?? null,
            tolerance: δ,
            reach: reachFor(differences, δ, errors ?? null),
            width: HALF,
            linearLabel: words.linearEnd,
            monteCarloLabel: words.monteCarloEnd,
            differenceLabel: [{ symbol: end === 0 ? "d_low" : "d_high" }, ` = ${at(d)}`],
            toleranceLabel: [{ symbol: "δ" }, ` = ${at(δ)}`],
            axisLabel: `${words.monteCarloEnd} − ${words.linearEnd}${dividedBy(unit)}`,
          },
          numbers,
        ),
        "",
        idOf("end", name, end),
      )}
    </div>`;
  });
  return figureMarkup(report, pictures, fill(words.endsCaption, { delta: letter("δ") }));
}

/** Both endpoints against the tolerance at one and at two digits. */
function digits(report: Report, measurand: Readable): Markup | null {
  const scene = digitsOf(report.record, measurand, report, WIDE);
  return scene === null
    ? null
    : figureMarkup(
        report,
        sceneMarkup(scene),
        fill(report.messages.validation.digitsCaption, {
          delta: letter("δ"),
          u: letter("u"),
          y: symbolMarkup(measurand.symbol),
        }),
      );
}

/** An id for what a picture refers to within itself; measurands' names may hold anything. */
const idOf = (what: string, name: string, end: number): string =>
  `${what}-${end}-${[...name].map((character) => character.codePointAt(0)!.toString(36)).join("")}`;

function causes(report: Report, measurand: Readable, name: string): Markup | null {
  const { messages, numbers } = report;
  const words = messages.validation;
  const { explanation, unit, symbol, validation: found, places } = measurand;
  if (explanation === null) return null;
  const y = symbolMarkup(symbol);
  const moves = [movesAt(explanation, 0, report), movesAt(explanation, 1, report)] as const;
  const range = movesRange(moves, found.numericalTolerance);
  const at = (value: number): string => signedText(value, places, numbers);
  const drawn = ([0, 1] as const).map(
    (end) =>
      html`<div class="half">
        <p class="head">${end === 0 ? messages.monteCarlo.low : messages.monteCarlo.high}</p>
        ${sceneMarkup(
          movesScene(
            {
              name: `${words.causesName}: ${end === 0 ? words.endLow : words.endHigh}`,
              moves: moves[end],
              tolerance: found.numericalTolerance,
              range,
              width: HALF,
              text: at,
              axisLabel: `${words.monteCarloEnd} − ${words.linearEnd}${dividedBy(unit)}`,
            },
            numbers,
          ),
          "",
          idOf("cause", name, end),
        )}
      </div>`,
  );
  return html`${figureMarkup(report, drawn, fill(words.causesCaption, { y, source: sourceOfCauses(explanation, report), delta: letter("δ") }))}${presentedTable(report, causesTable(measurand, explanation, report.record, report))}`;
}
