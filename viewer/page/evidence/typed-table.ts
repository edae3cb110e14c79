import { html, type Child } from "../draw/node.ts";

/**
 * A table of fields to type in, which scrolls by itself where the page is narrow.
 *
 * @param label what it is called for who does not see it
 * @param heads cells of the row of heads: words, or a cell made by hand
 */
export const typedTable = (label: string, heads: readonly Child[], rows: readonly HTMLElement[]): HTMLElement =>
  html(
    "div",
    { class: "wide-table", tabindex: 0, role: "region", "aria-label": label },
    html("table", { class: "plain typed-grid" }, html("thead", {}, html("tr", {}, heads)), html("tbody", {}, rows)),
  );

/** The head of a column of words. */
export const typedHead = (head: Child): HTMLElement => html("th", { scope: "col", class: "words" }, head);
