import { fill, html, type Markup } from "../markup.ts";
import type { Readable } from "../../present/readable.ts";
import { eachMeasurand, inputSymbol, letter, listed, type Report, type Section } from "../report.ts";
import { secondOrderTable } from "../../present/tables/second-order.ts";
import { symbolMarkup } from "../symbol.ts";
import { presentedTable } from "../table.ts";

/** Terms that are named. */
const MOST_TERMS = 5;

/** The budget with its next-order terms, compared as the first-order one was. */
export const secondOrder: Section = {
  id: "secondOrder",
  render(report) {
    const words = report.messages.secondOrder;
    const found = Object.values(report.record.measurands).map((measurand) => measurand.secondOrder);
    if (found.every((order) => order === null)) return html`<p>${words.absent}</p>`;
    if (found.every((order) => order !== null && order.terms.length === 0)) {
      return html`<p>${words.none}</p>`;
    }
    return html`<p>${words.intro}</p>
      ${eachMeasurand(report, (measurand) => withTerms(report, measurand))}`;
  },
};

function withTerms(report: Report, measurand: Readable): Markup {
  const { messages, numbers } = report;
  const words = messages.secondOrder;
  const { secondOrder: order } = measurand;
  if (order === null) return html`<p>${words.absent}</p>`;
  const table = secondOrderTable(measurand, report);
  if (table === null) return html`<p>${words.none}</p>`;
  const y = symbolMarkup(measurand.symbol);
  const u = letter("u");
  const variance = order.standardUncertainty * order.standardUncertainty;
  const terms = order.terms.slice(0, MOST_TERMS).map(({ between: [a, b], term }) =>
    fill(words.term, {
      pair:
        a === b
          ? fill(words.byItself, { quantity: inputSymbol(report, a) })
          : html`${inputSymbol(report, a)}${messages.and}${inputSymbol(report, b)}`,
      share: numbers.percent(variance === 0 ? 0 : term / variance),
      u,
      y,
    }),
  );
  return html`${presentedTable(report, table)}
    <p>${fill(words.terms, { u, y, terms: listed(report, terms) })}</p>`;
}
