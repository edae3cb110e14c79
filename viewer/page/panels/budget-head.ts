import type { MeasurandRecord } from "../../../engine/index.ts";
import { html, type Child } from "../draw/node.ts";
import { overUnit } from "../../present/numbers.ts";
import { symbolNode } from "../draw/symbol.ts";
import { ORDERS, type Order } from "./budget-rows.ts";

/** The head of the table; its buttons stay, so that the one just used keeps the focus. */
export interface BudgetHead {
  readonly row: HTMLElement;
  /** Marks the column that the rows stand in the order of. */
  mark(order: Order, direction: 1 | -1): void;
}

export function budgetHead(
  { symbol, unit }: MeasurandRecord,
  sortBy: (order: Order, direction: 1 | -1) => void,
): BudgetHead {
  let marked: { readonly order: Order; readonly direction: 1 | -1 } | null = null;
  const arrows = new Map<Order, HTMLElement>();
  const cell = (name: Order, label: Child, spoken: string): HTMLElement => {
    const arrow = html("span", { class: "arrow", "aria-hidden": "true" });
    arrows.set(name, arrow);
    const sort = (): void => sortBy(name, marked?.order === name ? (-marked.direction as 1 | -1) : ORDERS[name].first);
    return html(
      "th",
      { scope: "col", role: "columnheader", class: `of-${name}` },
      html(
        "button",
        { type: "button", id: `sort-${name}`, title: `Put in order of ${spoken}`, onclick: sort },
        html("span", {}, label),
        arrow,
      ),
    );
  };
  const cells: Readonly<Record<Order, HTMLElement>> = {
    symbol: cell("symbol", "Input quantity", "symbol"),
    distribution: cell("distribution", "Distribution", "distribution"),
    estimate: cell("estimate", "Estimate", "estimate"),
    uncertainty: cell(
      "uncertainty",
      ["Standard ", html("span", { class: "together" }, "uncertainty ", html("var", {}, "u"))],
      "standard uncertainty",
    ),
    freedom: cell("freedom", [html("var", {}, "ν")], "degrees of freedom"),
    sensitivity: cell(
      "sensitivity",
      ["Sensitivity ", html("span", { class: "together" }, "coefficient ", html("var", {}, "c"))],
      "sensitivity coefficient",
    ),
    contribution: cell(
      "contribution",
      ["Contribution ", html("span", { class: "together" }, "to ", symbolNode(symbol), overUnit("", unit))],
      "contribution",
    ),
    share: cell("share", "Share", "share"),
  };
  return {
    row: html("tr", { role: "row" }, Object.values(cells)),
    mark(order, direction) {
      if (marked !== null) {
        cells[marked.order].removeAttribute("aria-sort");
        arrows.get(marked.order)!.textContent = "";
      }
      marked = { order, direction };
      cells[order].setAttribute("aria-sort", direction === 1 ? "ascending" : "descending");
      arrows.get(order)!.textContent = direction === 1 ? "▲" : "▼";
    },
  };
}
