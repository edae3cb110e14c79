import type { MeasurandRecord, RunRecord } from "../../engine/index.ts";
import { densityPicture } from "../draw/density-picture.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed, freedom, overUnit, percent } from "../draw/numbers.ts";
import { readable } from "../draw/readable.ts";
import { estimateEntry, missingPlaces, significantEntry, type Entry } from "../draw/statement.ts";
import { symbolNode } from "../draw/symbol.ts";
import { evidenceOf } from "./budget-evidence.ts";
import { budgetRows, contributionPlaces, isOrder, ORDERS, type BudgetRow, type Order } from "./budget-rows.ts";
import type { Panel, View } from "./panel.ts";

/** The linear budget, input by input. */
export const budget: Panel = {
  id: "budget",
  title: "Where the uncertainty comes from",
  appliesTo: () => true,
  render: draw,
};

function draw(element: HTMLElement, record: RunRecord, name: string, view: View): void {
  const { reading } = view;
  const unit = reading.unit ?? null;
  const measurand = readable(record.measurands[name]!, unit);
  // "share" or "share-up": a column, and its other direction where that is asked for.
  const [asked, way] = (reading.order ?? "").split("-");
  const order: Order = isOrder(asked) ? asked : "share";
  const direction = way === "up" ? 1 : way === "down" ? -1 : ORDERS[order].first;
  const rows = budgetRows(record, name, order, direction, unit);
  const sortBy = (next: Order): void => {
    const turned = next === order ? (-direction as 1 | -1) : ORDERS[next].first;
    const text = turned === ORDERS[next].first ? next : `${next}-${turned === 1 ? "up" : "down"}`;
    view.choose({ order: text === "share" ? null : text }, true);
  };
  const open = new Set((reading.open ?? "").split(" ").filter((input) => Object.hasOwn(record.inputs, input)));
  const toggle = (input: string): void => {
    const now = open.has(input) ? [...open].filter((other) => other !== input) : [...open, input];
    view.choose({ open: now.length === 0 ? null : now.join(" ") }, true);
  };
  const opening: Opening = { open, toggle, evidence: (input) => evidenceOf(record, name, input, view.width) };
  element.replaceChildren(
    html(
      "table",
      { class: "budget", role: "table", "aria-label": "Uncertainty budget", "aria-describedby": "budget-note" },
      html("thead", { role: "rowgroup" }, heads(measurand, order, direction, sortBy)),
      bodyAndFoot(rows, measurand, record, opening),
    ),
    html(
      "p",
      { class: "note", id: "budget-note" },
      "Contribution: sensitivity coefficient times standard uncertainty. Share: its square over ",
      html("var", {}, "u"),
      "²(",
      symbolNode(measurand.symbol),
      `); a full bar is ${percent(fullBar(measurand), 0)}. Every small picture of a density has a scale of its own. A quantity’s words open what stands behind its row.`,
    ),
  );
}

/** Which rows show what stands behind them. */
interface Opening {
  readonly open: ReadonlySet<string>;
  readonly toggle: (input: string) => void;
  readonly evidence: (input: string) => HTMLElement;
}

function heads({ symbol, unit }: MeasurandRecord, order: Order, direction: 1 | -1, sortBy: (order: Order) => void): HTMLElement {
  const cell = (name: Order, label: Child, spoken: string): HTMLElement =>
    html(
      "th",
      { scope: "col", role: "columnheader", class: `of-${name}`, "aria-sort": name === order ? (direction === 1 ? "ascending" : "descending") : null },
      html(
        "button",
        { type: "button", id: `sort-${name}`, title: `Put in order of ${spoken}`, onclick: () => sortBy(name) },
        html("span", {}, label),
        html("span", { class: "arrow", "aria-hidden": "true" }, name === order ? (direction === 1 ? "▲" : "▼") : ""),
      ),
    );
  return html(
    "tr",
    { role: "row" },
    cell("symbol", "Input quantity", "symbol"),
    cell("distribution", "Distribution", "distribution"),
    cell("estimate", "Estimate", "estimate"),
    cell("uncertainty", ["Standard ", html("span", { class: "together" }, "uncertainty ", html("var", {}, "u"))], "standard uncertainty"),
    cell("freedom", [html("var", {}, "ν")], "degrees of freedom"),
    cell("sensitivity", ["Sensitivity ", html("span", { class: "together" }, "coefficient ", html("var", {}, "c"))], "sensitivity coefficient"),
    cell("contribution", ["Contribution ", html("span", { class: "together" }, "to ", symbolNode(symbol), overUnit("", unit))], "contribution"),
    cell("share", "Share", "share"),
  );
}

function bodyAndFoot(rows: readonly BudgetRow[], measurand: MeasurandRecord, record: RunRecord, { open, toggle, evidence }: Opening): HTMLElement[] {
  const result = resultEntries(measurand);
  const column = (name: keyof typeof result, label: string): ((i: number) => HTMLElement) => {
    // The result stands on the same decimal signs as the inputs above it.
    const entries = [...rows.map((row) => row[name]), result[name]];
    const missing = missingPlaces(entries.map((entry) => entry?.digits ?? ""));
    const units = [...new Set(entries.map((entry) => entry?.after ?? ""))].join("\n\u00a0");
    return (i) => {
      const entry = entries[i];
      return entry == null
        ? html("td", { role: "cell", class: "number empty" }, "")
        : html("td", { role: "cell", class: "number", "data-label": label }, numeral(entry, missing[i]!, units));
    };
  };
  const columns = [
    column("estimate", "Estimate"),
    column("uncertainty", "Standard uncertainty"),
    column("freedom", "Degrees of freedom"),
    column("sensitivity", "Sensitivity coefficient"),
    column("contribution", "Contribution"),
  ];
  const { contributions, correlatedTerms } = measurand.linear;
  const full = fullBar(measurand);
  const sum = [...contributions, ...correlatedTerms].reduce((total, { share }) => total + share, 0);
  return [
    html(
      "tbody",
      { role: "rowgroup" },
      rows.map(({ input, line, name }, i) => [
        html(
          "tr",
          { role: "row", "data-input": name },
          quantityCell(input.symbol, opener(name, input.meaning === input.symbol ? "evidence" : input.meaning, open.has(name), toggle), input.source === null ? html("span", { class: "source missing" }, "no source stated") : html("span", { class: "source" }, input.source)),
          html("td", { role: "cell", class: "of-distribution" }, densityPicture(input), html("span", {}, input.distribution)),
          columns.map((cell) => cell(i)),
          html("td", { role: "cell", class: "of-share", "data-label": "Share" }, shareBar(line.share / full, percent(line.share))),
        ),
        open.has(name) ? html("tr", { role: "row", class: "behind", id: `behind-${name}`, "data-aside": "" }, html("td", { role: "cell", colspan: 8 }, evidence(name))) : null,
      ]),
    ),
    html(
      "tfoot",
      { role: "rowgroup" },
      correlatedTerms.map((term) => correlationRow(term, record)),
      html(
        "tr",
        { role: "row", class: "result-row" },
        quantityCell(measurand.symbol, measurand.meaning, null),
        html("td", { role: "cell", class: "of-distribution" }, ""),
        columns.map((cell) => cell(rows.length)),
        html("td", { role: "cell", class: "of-share", "data-label": "Share" }, html("span", { class: "share" }, html("span", { class: "value" }, percent(sum)))),
      ),
    ),
  ];
}

/** What a correlation of two inputs adds to u²(y), or takes from it. */
function correlationRow({ between: [a, b], coefficient, share }: MeasurandRecord["linear"]["correlatedTerms"][number], { inputs }: RunRecord): HTMLElement {
  return html(
    "tr",
    { role: "row", class: "correlation" },
    html(
      "th",
      { scope: "row", role: "rowheader", class: "of-symbol", colspan: 7 },
      "correlation of ",
      symbolNode(inputs[a]!.symbol),
      " with ",
      symbolNode(inputs[b]!.symbol),
      ", ",
      html("var", {}, "r"),
      ` = ${fixed(coefficient, 2)}`,
    ),
    html("td", { role: "cell", class: "of-share", "data-label": "Share" }, html("span", { class: "share" }, html("span", { class: "value" }, percent(share)))),
  );
}

/** The result's own line: y, u(y) and ν_eff; it has no sensitivity coefficient. */
function resultEntries(measurand: MeasurandRecord): Readonly<Record<"estimate" | "uncertainty" | "freedom" | "sensitivity" | "contribution", Entry | null>> {
  const { unit, linear } = measurand;
  const { estimate, standardUncertainty: u, effectiveDegreesOfFreedom: ν } = linear;
  return {
    estimate: estimateEntry(estimate, u, unit),
    uncertainty: significantEntry(u, 2, unit),
    freedom: { digits: freedom(ν), after: "" },
    sensitivity: null,
    contribution: { digits: fixed(u, contributionPlaces(measurand)), after: "" },
  };
}

/** The words of an input, as the button that opens its row. */
const opener = (name: string, words: string, open: boolean, toggle: (input: string) => void): HTMLElement =>
  html(
    "button",
    { type: "button", class: "meaning opens-row", id: `open-${name}`, "aria-expanded": String(open), "aria-controls": open ? `behind-${name}` : null, onclick: () => toggle(name) },
    words,
    html("span", { class: "arrow", "aria-hidden": "true" }, open ? "▾" : "▸"),
  );

const quantityCell = (symbol: string, meaning: Child, source: Child): HTMLElement =>
  html(
    "th",
    { scope: "row", role: "rowheader", class: "of-symbol" },
    html("span", { class: "quantity-cell" }, symbolNode(symbol), html("span", {}, typeof meaning !== "string" ? meaning : meaning === symbol ? "" : html("span", { class: "meaning" }, meaning), source)),
  );

/** A number and its unit; `units` are all of the column's, a line each, so that every cell leaves room for the widest. */
const numeral = ({ digits, after }: Entry, missing: string, units: string): Child =>
  html(
    "span",
    { class: "numeral" },
    html("span", { class: "digits", "data-missing": missing }, digits),
    // A space in the text keeps number and unit apart for copying and for reading aloud.
    units === "" ? null : html("span", { class: "after", "data-units": `\u00a0${units}` }, html("span", {}, after === "" ? "" : `\u00a0${after}`)),
  );

/** Share that a full bar stands for: all of u²(y), or the largest where correlations make one larger still. */
const fullBar = ({ linear }: MeasurandRecord): number => Math.max(1, ...linear.contributions.map(({ share }) => share));

const shareBar = (part: number, label: string): HTMLElement =>
  html(
    "span",
    { class: "share" },
    html("span", { class: "bar" }, html("span", { style: `width: ${Math.max(0, 100 * part).toFixed(2)}%` })),
    html("span", { class: "value" }, label),
  );
