import type { Cause } from "../../../engine/index.ts";
import { movesRange, movesScene, type Move } from "../../present/pictures/moves.ts";
import { HALF, sceneMarkup } from "../draw/scene.ts";
import { endScene, reachFor } from "../../present/pictures/end.ts";
import { figureMarkup } from "../figure.ts";
import { fill, fillText, html, type Markup } from "../markup.ts";
import { dividedBy } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import {
  comparedInterval,
  eachMeasurand,
  inputSymbol,
  letter,
  listed,
  spoken,
  unitText,
  type Report,
  type Section,
} from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { tableMarkup } from "../table.ts";
import { mark } from "./result.ts";

const CAUSES: readonly Cause[] = ["curvature", "shape", "degreesOfFreedom"];
/** Inputs named beside a cause. */
const MOST_NAMED = 4;

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
      ${eachMeasurand(report, (measurand, name) => html`${comparison(report, measurand)}${verdict(report, measurand, name)}${ends(report, measurand, name)}${causes(report, measurand, name)}`)}`;
  },
};

function comparison(report: Report, { symbol, unit, validation: found, places }: Readable): Markup {
  const { messages, numbers } = report;
  const words = messages.validation;
  const y = symbolMarkup(symbol);
  const at = (value: number): string => numbers.fixed(value, places);
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fill(words.caption, { y, unit: unitText(report, unit) }),
      columns: [
        { head: fill(words.digits, { u: letter("u"), y }), kind: "head" },
        { head: fill(words.tolerance, { delta: letter("δ") }), kind: "number" },
        { head: fill(words.dLow, { dLow: letter("d_low") }), kind: "number" },
        { head: fill(words.dHigh, { dHigh: letter("d_high") }), kind: "number" },
        { head: words.verdict, kind: "text" },
      ],
      rows: found.atDigits.map(({ significantDigits, numericalTolerance, validated }) => [
        html`${significantDigits}${significantDigits === found.significantDigits ? html` <span class="fine">${words.studied}</span>` : null}`,
        // The study's δ has the places of the comparison; the coarser or finer one keeps at least its own figure.
        significantDigits > found.significantDigits
          ? numbers.fixed(numericalTolerance, places + 1)
          : at(numericalTolerance),
        at(found.dLow),
        at(found.dHigh),
        html`${mark(validated)} ${validated ? words.validated : words.notValidated}`,
      ]),
    },
  );
}

function verdict(report: Report, { validation: found }: Readable, name: string): Markup {
  const words = report.messages.validation;
  const { verdict: stated, explanation, recommendation } = report.sentences.measurands[name]!;
  return html`<dl class="facts words">
    <div>
      <dt>${words.verdictHead}</dt>
      <dd>${mark(found.validated)} ${spoken(report, stated)}</dd>
    </div>
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
            reach: reachFor(differences, δ),
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

/** An id for what a picture refers to within itself; measurands' names may hold anything. */
const idOf = (what: string, name: string, end: number): string =>
  `${what}-${end}-${[...name].map((character) => character.codePointAt(0)!.toString(36)).join("")}`;

function causes(report: Report, measurand: Readable, name: string): Markup | null {
  const { messages, numbers } = report;
  const words = messages.validation;
  const { explanation, unit, symbol, validation: found, places } = measurand;
  if (explanation === null) return null;
  const y = symbolMarkup(symbol);
  const movesOf = (end: 0 | 1): Move[] => [
    ...CAUSES.map((cause) => ({ label: words[cause], by: explanation.parts[cause].shapley[end] })),
    { label: words.remainder, by: explanation.remainder[end] },
  ];
  const moves = [movesOf(0), movesOf(1)] as const;
  const range = movesRange(moves, found.numericalTolerance);
  const at = (value: number): string => numbers.fixed(value, places);
  const table = tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fillText(words.causesTable, { unit: unitText(report, unit) }),
      columns: [
        { head: words.cause, kind: "head" },
        { head: words.lowMove, kind: "number" },
        { head: words.highMove, kind: "number" },
        { head: words.shareOf, kind: "number" },
        { head: words.inputs, kind: "text" },
      ],
      rows: [
        ...CAUSES.map((cause) => {
          const { shapley, share, inputs } = explanation.parts[cause];
          return [
            words[cause],
            at(shapley[0]),
            at(shapley[1]),
            numbers.percent(share, 0),
            listed(
              report,
              inputs.slice(0, MOST_NAMED).map((input) => inputSymbol(report, input)),
            ),
          ];
        }),
        [words.remainder, at(explanation.remainder[0]), at(explanation.remainder[1]), "", ""],
      ],
      total: [[words.difference, at(explanation.difference[0]), at(explanation.difference[1]), "", ""]],
    },
  );
  const drawn = ([0, 1] as const).map(
    (end) =>
      html`<div class="half">
        <p class="head">${end === 0 ? words.lowMove : words.highMove}</p>
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
  return html`${figureMarkup(report, drawn, fill(words.causesCaption, { y, trials: numbers.whole(explanation.trials), delta: letter("δ") }))}${table}`;
}
