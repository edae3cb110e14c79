import { budgetHeads } from "../../present/budget.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import type { Label } from "../../present/pictures/scene.ts";
import type { Readable } from "../../present/readable.ts";
import { html } from "../draw/node.ts";
import { labelNodes } from "../draw/symbol.ts";
import { ORDERS, type Order } from "./budget-rows.ts";

/** The head of the table; its buttons stay, so that the one just used keeps the focus. */
export interface BudgetHead {
  readonly row: HTMLElement;
  /** Marks the column that the rows stand in the order of. */
  mark(order: Order, direction: 1 | -1): void;
}

/** The column of each order: its name in words is what a button says of itself, and a row's label on a narrow page. */
export const NAMES: Readonly<Record<Order, string>> = {
  ...messages.budgetPanel,
  symbol: messages.budgetPanel.quantity,
};

export function budgetHead(measurand: Readable, sortBy: (order: Order, direction: 1 | -1) => void): BudgetHead {
  let marked: { readonly order: Order; readonly direction: 1 | -1 } | null = null;
  const arrows = new Map<Order, HTMLElement>();
  const cell = (name: Order, label: Label): HTMLElement => {
    const arrow = html("span", { class: "arrow", "aria-hidden": "true" });
    arrows.set(name, arrow);
    const sort = (): void => sortBy(name, marked?.order === name ? (-marked.direction as 1 | -1) : ORDERS[name].first);
    const title = fillText(messages.budgetPanel.sort, { column: NAMES[name].toLowerCase() });
    return html(
      "th",
      { scope: "col", role: "columnheader", class: `of-${name}` },
      html(
        "button",
        { type: "button", id: `sort-${name}`, title, onclick: sort },
        html("span", {}, labelNodes(label)),
        arrow,
      ),
    );
  };
  const heads = budgetHeads(measurand, messages);
  const cells: Readonly<Record<Order, HTMLElement>> = {
    symbol: cell("symbol", heads.quantity),
    distribution: cell("distribution", heads.distribution),
    estimate: cell("estimate", heads.estimate),
    uncertainty: cell("uncertainty", heads.uncertainty),
    freedom: cell("freedom", heads.freedom),
    sensitivity: cell("sensitivity", heads.sensitivity),
    contribution: cell("contribution", heads.contribution),
    share: cell("share", heads.share),
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
