import { decimalsFor, type ContributionRecord } from "../../../engine/index.ts";
import { fill, html, type Child, type Markup } from "../markup.ts";
import { exponentOfThousands, powerOfTen, quotientUnit, withUnit } from "../numbers.ts";
import type { Readable } from "../readable.ts";
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
        html`${contributions(report, measurand)}${correlated(report, measurand)}${expanded(report, measurand)}`,
    ),
};

/** Decimals that all contributions share: one more than u(y) shows with two significant digits. */
const contributionPlaces = ({ linear }: Readable): number =>
  Math.max(0, decimalsFor(linear.standardUncertainty, 2) + 1);

/** From this many decimal places on a power of ten goes to the unit. */
const MANY_PLACES = 6;

/** A power of ten, a multiple of three, for figures of this size; 0 where they print well as they are. */
function powerFor(size: number, digits: number): number {
  if (size === 0) return 0;
  const decimals = decimalsFor(size, digits);
  return decimals > MANY_PLACES || decimals < -3 ? exponentOfThousands(size) : 0;
}

const unitWith = (power: number, unit: string): string =>
  power === 0 ? (unit === "1" ? "1" : unit) : `${powerOfTen(power)}${unit === "1" ? "" : `\u00a0${unit}`}`;

function row(report: Report, measurand: Readable, line: ContributionRecord): Child[] {
  const { numbers, record } = report;
  const { unit } = record.inputs[line.input]!;
  const { estimate, standardUncertainty: u, sensitivityCoefficient: c } = line;
  const power = u === 0 || powerFor(u, 2) === 0 ? 0 : exponentOfThousands(Math.max(Math.abs(estimate), u));
  const scale = (value: number): number => value * Number(`1e${-power}`);
  const decimals = u === 0 ? 0 : Math.max(0, decimalsFor(scale(u), 2));
  const cPower = powerFor(c, 3);
  const cScaled = c * Number(`1e${-cPower}`);
  return [
    inputSymbol(report, line.input),
    u === 0 ? numbers.plain(Number(scale(estimate).toPrecision(15))) : numbers.fixed(scale(estimate), decimals),
    u === 0 ? "0" : numbers.fixed(scale(u), decimals),
    unitWith(power, unit),
    line.evaluation,
    numbers.freedom(line.degreesOfFreedom),
    c === 0 ? "0" : numbers.fixed(cScaled, Math.max(0, decimalsFor(cScaled, 3))),
    unitWith(cPower + measurand.exponent, quotientUnit(measurand.bareUnit, unit)),
    numbers.fixed(line.contribution, contributionPlaces(measurand)),
    html`<span class="share-text">${numbers.percent(line.share)}</span>`,
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
  const { linear, unit } = measurand;
  const y = symbolMarkup(measurand.symbol);
  const xi = indexed("x", "i");
  const ci = indexed("c", "i");
  const u = letter("u");
  const uy = html`${u}(${y})`;
  const lines = linear.contributions.toSorted((a, b) => b.share - a.share);
  const places = contributionPlaces(measurand);
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
      rows: lines.map((line) => row(report, measurand, line)),
      total: [
        [
          y,
          numbers.fixed(linear.estimate, Math.max(0, decimalsFor(linear.standardUncertainty, 2))),
          numbers.fixed(linear.standardUncertainty, Math.max(0, decimalsFor(linear.standardUncertainty, 2))),
          unit,
          "",
          numbers.freedom(linear.effectiveDegreesOfFreedom),
          "",
          "",
          numbers.fixed(linear.standardUncertainty, places),
          "",
          "",
        ],
      ],
    },
  );
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
