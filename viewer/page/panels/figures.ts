import type { RunRecord } from "../../../engine/index.ts";
import { html, type Child } from "../draw/node.ts";
import {
  decimalsFor,
  fixed,
  freedom,
  overUnit,
  probabilityText,
  significant,
  withUnit,
} from "../../present/numbers.ts";
import { readable, type Readable } from "../../present/readable.ts";
import { missingPlaces } from "../../present/entries.ts";
import { swatch } from "../draw/swatch.ts";
import { symbolNode } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** Both methods' figures in full, and the comparison that the verdict rests on. */
export const figures: Panel = {
  id: "figures",
  title: "Figures side by side",
  appliesTo: () => true,
  render(element, record, name, { reading }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    element.replaceChildren(html("div", { class: "figures" }, sideBySide(measurand, record), comparison(measurand)));
  },
};

const NONE = "–";

function sideBySide(measurand: Readable, { coverage }: RunRecord): HTMLElement {
  const { symbol, unit, linear, monteCarlo, validation } = measurand;
  const { standardErrors: errors, intervals } = monteCarlo;
  const { places } = measurand;
  const text = (value: number | null | undefined): string =>
    value === null || value === undefined ? NONE : fixed(value, places);
  const other = coverage.interval === "symmetric" ? "shortest" : "symmetric";
  const kinds = { symmetric: "probabilistically symmetric", shortest: "shortest" } as const;
  const u = (): Child => [html("var", {}, "u"), "(", symbolNode(symbol), ")"];
  const [low, high] = intervals[coverage.interval];
  const needed = validation.coverageFactorNeeded;
  const error = (value: number | null | undefined): string =>
    value === null || value === undefined || value === 0 ? NONE : fixed(value, Math.max(0, decimalsFor(value, 2)));
  const ends = (kind: "symmetric" | "shortest", i: 0 | 1): [string, string] => [
    text(intervals[kind][i]),
    error(errors[kind]?.[i]),
  ];
  const lengths: [Child, string, string, string][] = [
    [["estimate ", symbolNode(symbol)], text(linear.estimate), text(monteCarlo.estimate), error(errors.estimate)],
    [
      ["standard uncertainty ", u()],
      text(linear.standardUncertainty),
      text(monteCarlo.standardUncertainty),
      error(errors.standardUncertainty),
    ],
    ["half length of the interval", text(linear.expandedUncertainty), text((high - low) / 2), NONE],
    ["lower endpoint", text(linear.interval[0]), ...ends(coverage.interval, 0)],
    ["upper endpoint", text(linear.interval[1]), ...ends(coverage.interval, 1)],
    [`lower endpoint, ${kinds[other]}`, NONE, ...ends(other, 0)],
    [`upper endpoint, ${kinds[other]}`, NONE, ...ends(other, 1)],
    ["least trial", NONE, text(monteCarlo.least), NONE],
    ["greatest trial", NONE, text(monteCarlo.greatest), NONE],
  ];
  const ν = linear.effectiveDegreesOfFreedom;
  const pure: [Child, string, string, string][] = [
    [
      ["coverage factor ", html("var", {}, "k"), ": half length over the linear ", u()],
      fixed(linear.coverageFactor, 3),
      needed === null ? NONE : fixed(needed, 3),
      NONE,
    ],
    [["effective degrees of freedom ", symbolNode("ν_eff")], freedom(ν), NONE, NONE],
    ["skewness", "0", monteCarlo.skewness === null ? NONE : fixed(monteCarlo.skewness, 3), NONE],
    [
      "excess kurtosis",
      excessKurtosis(ν),
      monteCarlo.excessKurtosis === null ? NONE : fixed(monteCarlo.excessKurtosis, 3),
      NONE,
    ],
  ];
  return html(
    "table",
    { class: "plain side-by-side" },
    html(
      "caption",
      {},
      `At ${probabilityText(coverage.probability)} coverage; the budget is compared with the ${kinds[coverage.interval]} interval.`,
    ),
    html(
      "thead",
      {},
      html(
        "tr",
        {},
        html("th", { scope: "col" }, unit === "1" ? "figure" : overUnit("figure", unit)),
        html("th", { scope: "col" }, swatch("linear"), "linear"),
        html("th", { scope: "col" }, swatch("monte-carlo"), "Monte Carlo"),
        html("th", { scope: "col" }, "its standard error"),
      ),
    ),
    html("tbody", {}, tableRows(lengths)),
    html(
      "tbody",
      {},
      html("tr", { class: "between" }, html("th", { scope: "colgroup", colspan: 4 }, "without a unit")),
      tableRows(pure),
    ),
  );
}

/** Excess kurtosis of the budget's t distribution, 6/(ν − 4). */
const excessKurtosis = (ν: number | null): string => (ν === null ? "0" : ν > 4 ? fixed(6 / (ν - 4), 3) : "none");

/** Rows whose numbers stand on their decimal signs, column by column; what is not there stands at the right edge. */
function tableRows(rows: readonly (readonly [Child, string, string, string])[]): HTMLElement[] {
  const missing = ([1, 2, 3] as const).map((column) => missingPlaces(rows.map((row) => row[column])));
  return rows.map(([label, ...cells], i) =>
    html(
      "tr",
      {},
      html("th", { scope: "row" }, label),
      cells.map((cell, j) =>
        html("td", {}, html("span", { class: "digits", "data-missing": cell === "–" ? null : missing[j]![i]! }, cell)),
      ),
    ),
  );
}

/** d and δ at one and at two significant digits. */
function comparison({ unit, validation, places }: Readable): HTMLElement {
  const { dLow, dHigh, atDigits, significantDigits } = validation;
  const texts = atDigits.map((at) => (at.numericalTolerance === 0 ? "0" : significant(at.numericalTolerance, 1)));
  const missing = missingPlaces(texts);
  return html(
    "div",
    { class: "comparison" },
    html(
      "table",
      { class: "plain" },
      html("caption", {}, "The comparison (JCGM 101, clause 8): no endpoint may differ by more than δ."),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          html("th", { scope: "col" }, "digits of ", html("var", {}, "u")),
          html("th", { scope: "col" }, overUnit("δ", unit)),
          html("th", { scope: "col" }, "budget"),
        ),
      ),
      html(
        "tbody",
        {},
        atDigits.map((at, i) =>
          html(
            "tr",
            { class: at.significantDigits === significantDigits ? "asked" : null },
            html(
              "th",
              { scope: "row" },
              String(at.significantDigits),
              at.significantDigits === significantDigits ? html("span", { class: "asked-mark" }, "asked for") : null,
            ),
            html("td", {}, html("span", { class: "digits", "data-missing": missing[i]! }, texts[i]!)),
            html("td", { class: "words" }, at.validated ? "validated" : "not validated"),
          ),
        ),
      ),
    ),
    html(
      "p",
      { class: "differences" },
      html("var", {}, "d", html("sub", {}, "low")),
      `\u00a0=\u00a0${withUnit(fixed(dLow, places), unit)}, `,
      html("var", {}, "d", html("sub", {}, "high")),
      `\u00a0=\u00a0${withUnit(fixed(dHigh, places), unit)}`,
    ),
  );
}
