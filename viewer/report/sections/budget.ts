import { fill, html, type Child, type Markup } from "../markup.ts";
import { budgetRows, budgetTotal, type BudgetRow } from "../../present/budget.ts";
import { contributionsOf } from "../../present/pictures/contributions-of.ts";
import { sceneMarkup, WIDE } from "../draw/scene.ts";
import { figureMarkup } from "../figure.ts";
import { withUnit } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import {
  eachMeasurand,
  effectiveFreedom,
  inputSymbol,
  letter,
  unitText,
  type Report,
  type Section,
} from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { tableMarkup } from "../table.ts";

/** The linear budget as a table, its correlated terms, and the expanded uncertainty. */
export const budget: Section = {
  id: "budget",
  render: (report) =>
    eachMeasurand(
      report,
      (measurand) =>
        html`${contributions(report, measurand)}${picture(report, measurand)}${correlated(report, measurand)}${expanded(report, measurand)}`,
    ),
};

function row(
  report: Report,
  { name, line, estimate, uncertainty, freedom, sensitivity, contribution, share }: BudgetRow,
): Child[] {
  return [
    inputSymbol(report, name),
    estimate.digits,
    uncertainty.digits,
    uncertainty.unit,
    line.evaluation,
    freedom,
    sensitivity.digits,
    sensitivity.unit,
    contribution,
    html`<span class="share-text">${share}</span>`,
    bar(line.share),
  ];
}

/** A letter with a running index, which is italic as a quantity is. */
const indexed = (symbol: string, index: string): Markup => html`${letter(symbol)}<sub><i>${index}</i></sub>`;

/** A share as a bar of at most the cell's width. */
const bar = (share: number): Markup =>
  html`<svg class="share" viewBox="0 0 44 8" width="44" height="8" aria-hidden="true">
    <rect width="${(44 * Math.min(1, Math.max(0, share))).toFixed(1)}" height="8" />
  </svg>`;

function contributions(report: Report, measurand: Readable): Markup {
  const { messages, numbers } = report;
  const words = messages.budget;
  const { unit } = measurand;
  const y = symbolMarkup(measurand.symbol);
  const xi = indexed("x", "i");
  const ci = indexed("c", "i");
  const u = letter("u");
  const uy = html`${u}(${y})`;
  const rows = budgetRows(report.record, measurand, numbers).toSorted((a, b) => b.line.share - a.line.share);
  const total = budgetTotal(measurand, numbers);
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      name: "budget",
      caption: fill(words.caption, { y, uy, unit: unitText(report, unit) }),
      columns: [
        { head: words.quantity, kind: "head" },
        { head: fill(words.estimate, { x: xi }), kind: "number" },
        { head: fill(words.uncertainty, { u, x: xi }), kind: "number" },
        { head: words.unit, kind: "after" },
        { head: words.evaluation, kind: "text" },
        { head: fill(words.freedom, { nu: indexed("ν", "i") }), kind: "number" },
        { head: ci, kind: "number" },
        { head: fill(words.sensitivityUnit, { c: ci }), kind: "after" },
        { head: fill(words.contribution, { c: ci, u, x: xi }), kind: "number" },
        { head: fill(words.share, { u, y }), kind: "number" },
        { head: html`<span class="unseen">${words.bar}</span>`, kind: "text" },
      ],
      rows: rows.map((line) => row(report, line)),
      total: [[y, total.estimate, total.uncertainty, unit, "", total.freedom, "", "", total.contribution, "", ""]],
    },
  );
}

/** The contributions as bars, and what share of u² they reach. */
function picture(report: Report, measurand: Readable): Markup | null {
  const words = report.messages.budget;
  const scene = contributionsOf(report.record, measurand, report, WIDE);
  const caption = measurand.linear.correlatedTerms.length === 0 ? words.pictureCaption : words.pictureCorrelated;
  return scene === null
    ? null
    : figureMarkup(report, sceneMarkup(scene), fill(caption, { u: letter("u"), y: symbolMarkup(measurand.symbol) }));
}

function correlated(report: Report, { linear, symbol, unit }: Readable): Markup | null {
  const { messages, numbers } = report;
  const words = messages.budget;
  if (linear.correlatedTerms.length === 0) return null;
  const y = symbolMarkup(symbol);
  const u = letter("u");
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fill(words.correlated, {
        uy: html`${u}²(${y})`,
        ci: indexed("c", "i"),
        cj: indexed("c", "j"),
        u,
        xi: indexed("x", "i"),
        xj: indexed("x", "j"),
        r: letter("r"),
      }),
      columns: [
        { head: words.pair, kind: "head" },
        { head: fill(words.coefficient, { r: letter("r") }), kind: "number" },
        { head: html`${fill(words.term, { u, y })} / ${unit === "1" ? "1" : `(${unit})²`}`, kind: "number" },
        { head: fill(words.share, { u, y }), kind: "number" },
      ],
      rows: linear.correlatedTerms.map(({ between: [a, b], coefficient, term, share }) => [
        fill("{a}, {b}", { a: inputSymbol(report, a), b: inputSymbol(report, b) }),
        numbers.fixed(coefficient, 4),
        numbers.significant(term, 3),
        numbers.percent(share),
      ]),
    },
  );
}

function expanded(report: Report, measurand: Readable): Markup {
  const { messages, numbers, record } = report;
  const words = messages.budget;
  const { linear, unit } = measurand;
  const at = (value: number): string => numbers.fixed(value, measurand.places);
  const kValue = numbers.fixed(linear.coverageFactor, 3);
  const p = numbers.probability(record.coverage.probability);
  const statement = fill(words.expanded, {
    U: letter("U"),
    k: letter("k"),
    u: letter("u"),
    y: symbolMarkup(measurand.symbol),
    kValue,
    u2: withUnit(at(linear.standardUncertainty), unit),
    U2: withUnit(at(linear.expandedUncertainty), unit),
    interval: withUnit(numbers.interval([at(linear.interval[0]), at(linear.interval[1])]), unit),
    p,
  });
  const custom =
    record.coverage.custom === "factor"
      ? fill(words.fixed, { kValue, p })
      : fill(words.custom, { nu: effectiveFreedom(report, linear.effectiveDegreesOfFreedom) });
  return html`<p>${statement} ${custom}</p>`;
}
