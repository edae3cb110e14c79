import type { MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { densityPicture } from "../draw/density-picture.ts";
import { html, type Child } from "../draw/node.ts";
import { afterNumber, type Entry } from "../../present/numbers.ts";
import { fixed, percent } from "../numbers.ts";
import { readable, type Readable } from "../../present/readable.ts";
import { budgetRows, budgetTotal, distributionWords, type BudgetRow } from "../../present/budget.ts";
import { missingPlaces } from "../../present/entries.ts";
import { speech, messages, words as pageWords } from "../language.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { labelNodes, symbolNode } from "../draw/symbol.ts";
import { stateRows } from "../draw/table-rows.ts";
import { budgetFile } from "../../present/budget-file.ts";
import { contributionsOf } from "../../present/pictures/contributions-of.ts";
import { sceneNode } from "../draw/scene.ts";
import { evidenceOf } from "./budget-evidence.ts";
import { budgetHead, NAMES, type BudgetHead } from "./budget-head.ts";
import { inOrder, isOrder, ORDERS, type Order } from "./budget-rows.ts";
import type { Panel, View } from "./panel.ts";

/** The linear budget, input by input. */
export const budget: Panel = {
  id: "budget",
  title: messages.panels.budget,
  appliesTo: () => true,
  render: draw,
};

/** What an element shows now: what stays the same from one draw to the next is moved or left, not made anew. */
interface Shown extends BodyAndFoot {
  readonly record: RunRecord;
  /** Everything but the order and the open rows that the table depends on. */
  readonly key: string;
  readonly rows: readonly BudgetRow[];
  readonly head: BudgetHead;
  /** The order as the address has it. */
  order: string;
  /** Inputs whose row shows what stands behind it. */
  readonly open: Set<string>;
}

const shown = new WeakMap<HTMLElement, Shown>();

function draw(element: HTMLElement, record: RunRecord, name: string, view: View): void {
  const { reading } = view;
  const key = JSON.stringify([name, reading.unit ?? null, view.width]);
  const before = shown.get(element);
  const now = before?.record === record && before.key === key ? before : drawTable(element, record, name, view, key);
  const open = new Set((reading.open ?? "").split(" "));
  for (const { name: input } of now.rows) {
    if (open.has(input) !== now.open.has(input)) turn(now, input);
  }
  const asked = reading.order ?? "share";
  if (asked !== now.order) {
    const { order, direction } = orderOf(asked);
    now.order = asked;
    now.body.replaceChildren(...inOrder(now.rows, order, direction).flatMap((row) => now.elements.get(row.name)!));
    now.head.mark(order, direction);
  }
}

/** "share" or "share-up": a column, and its other direction if that is chosen. */
function orderOf(text: string): { readonly order: Order; readonly direction: 1 | -1 } {
  const [asked, way] = text.split("-");
  const order: Order = isOrder(asked) ? asked : "share";
  return { order, direction: way === "up" ? 1 : way === "down" ? -1 : ORDERS[order].first };
}

/** Opens a row, or closes it. */
function turn({ open, elements, make }: Shown, input: string): void {
  if (!open.delete(input)) open.add(input);
  const [row, behind] = elements.get(input)!;
  const made = make(input, open.has(input));
  elements.set(input, made);
  behind?.remove();
  row!.replaceWith(...made);
}

/** Draws the table anew, its rows closed and in no order yet. */
function drawTable(element: HTMLElement, record: RunRecord, name: string, view: View, key: string): Shown {
  const unit = view.reading.unit ?? null;
  const measurand = readable(record.measurands[name]!, unit);
  const rows = budgetRows(record, measurand, speech.numbers);
  const open = new Set<string>();
  const sortBy = (order: Order, direction: 1 | -1): void => {
    const text = direction === ORDERS[order].first ? order : `${order}-${direction === 1 ? "up" : "down"}`;
    view.choose({ order: text === "share" ? null : text }, true);
  };
  const toggle = (input: string): void => {
    const others = open.has(input) ? [...open].filter((other) => other !== input) : [...open, input];
    view.choose({ open: others.length === 0 ? null : others.join(" ") }, true);
  };
  const head = budgetHead(measurand, sortBy);
  const parts = bodyAndFoot(rows, measurand, record, {
    toggle,
    evidence: (input) => evidenceOf(record, name, input, view.width),
  });
  const table = html(
    "table",
    { class: "budget", role: "table", "aria-label": messages.budgetPanel.table, "aria-describedby": "budget-note" },
    html("thead", { role: "rowgroup" }, head.row),
    parts.body,
    parts.foot,
  );
  stateRows(table, () => budgetFile(record, measurand, rows, messages));
  const contributions = contributionsOf(record, measurand, speech, Math.min(view.width, 720));
  element.replaceChildren(
    table,
    html(
      "p",
      { class: "note", id: "budget-note" },
      labelNodes(
        labelOf(messages.budgetPanel.note, {
          u: { symbol: "u" },
          y: { symbol: measurand.symbol },
          full: percent(fullBar(measurand), 0),
        }),
      ),
    ),
    contributions === null ? "" : sceneNode(contributions),
  );
  const drawn: Shown = { ...parts, record, key, rows, head, order: "", open };
  shown.set(element, drawn);
  return drawn;
}

/** What a row can do, and what it can show. */
interface Opening {
  readonly toggle: (input: string) => void;
  readonly evidence: (input: string) => HTMLElement;
}

interface BodyAndFoot {
  readonly body: HTMLElement;
  readonly foot: HTMLElement;
  /** The elements of each input: its row, and what stands behind it if that is open. */
  readonly elements: Map<string, readonly HTMLElement[]>;
  readonly make: (input: string, open: boolean) => readonly HTMLElement[];
}

function bodyAndFoot(
  rows: readonly BudgetRow[],
  measurand: Readable,
  record: RunRecord,
  { toggle, evidence }: Opening,
): BodyAndFoot {
  const result = resultEntries(measurand);
  const column = (name: keyof typeof result): ((i: number) => HTMLElement) => {
    // The result stands on the same decimal signs as the inputs above it.
    const entries = [...rows.map((row) => entryOf(row[name])), result[name]];
    const missing = missingPlaces(
      entries.map((entry) => entry?.digits ?? ""),
      speech.numbers,
    );
    const units = [...new Set(entries.map((entry) => afterNumber(entry?.unit ?? "1")))].join("\n\u00a0");
    return (i) => {
      const entry = entries[i];
      return entry == null
        ? html("td", { role: "cell", class: "number empty" }, "")
        : html("td", { role: "cell", class: "number", "data-label": NAMES[name] }, numeral(entry, missing[i]!, units));
    };
  };
  const columns = [
    column("estimate"),
    column("uncertainty"),
    column("freedom"),
    column("sensitivity"),
    column("contribution"),
  ];
  const { contributions, correlatedTerms } = measurand.linear;
  const full = fullBar(measurand);
  const sum = [...contributions, ...correlatedTerms].reduce((total, { share }) => total + share, 0);
  const make = (name: string, open: boolean): readonly HTMLElement[] => {
    const i = rows.findIndex((row) => row.name === name);
    const { input, line, share } = rows[i]!;
    const row = html(
      "tr",
      { role: "row", "data-input": name },
      quantityCell(
        input.symbol,
        opener(name, input.meaning === input.symbol ? pageWords.sheet.evidence : input.meaning, open, toggle),
        input.source === null
          ? html("span", { class: "source missing" }, messages.inputs.noSource)
          : html("span", { class: "source" }, input.source),
      ),
      html(
        "td",
        { role: "cell", class: "of-distribution" },
        densityPicture(input),
        html("span", {}, distributionOf(record, name)),
      ),
      columns.map((cell) => cell(i)),
      html("td", { role: "cell", class: "of-share", "data-label": NAMES.share }, shareBar(line.share / full, share)),
    );
    return open
      ? [
          row,
          html(
            "tr",
            { role: "row", class: "behind", id: `behind-${name}`, "data-aside": "" },
            html("td", { role: "cell", colspan: 8 }, evidence(name)),
          ),
        ]
      : [row];
  };
  return {
    make,
    elements: new Map(rows.map(({ name }) => [name, make(name, false)])),
    body: html("tbody", { role: "rowgroup" }),
    foot: html(
      "tfoot",
      { role: "rowgroup" },
      correlatedTerms.map((term) => correlationRow(term, record)),
      html(
        "tr",
        { role: "row", class: "result-row" },
        quantityCell(measurand.symbol, measurand.meaning, null),
        html("td", { role: "cell", class: "of-distribution" }, ""),
        columns.map((cell) => cell(rows.length)),
        html(
          "td",
          { role: "cell", class: "of-share", "data-label": NAMES.share },
          html("span", { class: "share" }, html("span", { class: "value" }, percent(sum))),
        ),
      ),
    ),
  };
}

/** What a correlation of two inputs adds to u²(y), or takes from it. */
function correlationRow(
  { between: [a, b], coefficient, share }: MeasurandRecord["linear"]["correlatedTerms"][number],
  { inputs }: RunRecord,
): HTMLElement {
  return html(
    "tr",
    { role: "row", class: "correlation" },
    html(
      "th",
      { scope: "row", role: "rowheader", class: "of-symbol", colspan: 7 },
      labelNodes(
        labelOf(messages.budgetPanel.correlation, {
          a: { symbol: inputs[a]!.symbol },
          b: { symbol: inputs[b]!.symbol },
          r: { symbol: "r" },
          value: fixed(coefficient, 2),
        }),
      ),
    ),
    html(
      "td",
      { role: "cell", class: "of-share", "data-label": NAMES.share },
      html("span", { class: "share" }, html("span", { class: "value" }, percent(share))),
    ),
  );
}

const distributionOf = ({ study, inputs }: RunRecord, name: string): string =>
  distributionWords(study.inputs[name]!.distribution, inputs[name]!.distribution, messages);

/** The result as the last row; it has no sensitivity coefficient. */
function resultEntries(
  measurand: Readable,
): Readonly<Record<"estimate" | "uncertainty" | "freedom" | "sensitivity" | "contribution", Entry | null>> {
  const { unit } = measurand;
  const { estimate, uncertainty, freedom, contribution } = budgetTotal(measurand, speech.numbers);
  return {
    estimate: { digits: estimate, unit },
    uncertainty: { digits: uncertainty, unit },
    freedom: entryOf(freedom),
    sensitivity: null,
    contribution: entryOf(contribution),
  };
}

const entryOf = (cell: Entry | string): Entry => (typeof cell === "string" ? { digits: cell, unit: "1" } : cell);

/** The words of an input, as the button that opens its row. */
const opener = (name: string, words: string, open: boolean, toggle: (input: string) => void): HTMLElement =>
  html(
    "button",
    {
      type: "button",
      class: "meaning opens-row",
      id: `open-${name}`,
      "aria-expanded": String(open),
      "aria-controls": open ? `behind-${name}` : null,
      onclick: () => toggle(name),
    },
    words,
    html("span", { class: "arrow", "aria-hidden": "true" }, open ? "▾" : "▸"),
  );

const quantityCell = (symbol: string, meaning: Child, source: Child): HTMLElement =>
  html(
    "th",
    { scope: "row", role: "rowheader", class: "of-symbol" },
    html(
      "span",
      { class: "quantity-cell" },
      symbolNode(symbol),
      html(
        "span",
        {},
        typeof meaning !== "string" ? meaning : meaning === symbol ? "" : html("span", { class: "meaning" }, meaning),
        source,
      ),
    ),
  );

/** A number and its unit; `units` are all of the column's, a line each, so that every cell leaves room for the widest. */
function numeral({ digits, unit }: Entry, missing: string, units: string): Child {
  const after = afterNumber(unit);
  const figures =
    missing === "" && units === ""
      ? digits
      : html("span", { class: "digits", "data-missing": missing === "" ? null : missing }, digits);
  if (units === "") return figures;
  // A space in the text keeps number and unit apart for copying and for reading aloud. Held together by one element,
  // since on a narrow page its cell is a row of parts.
  return html(
    "span",
    {},
    figures,
    html(
      "span",
      { class: "after", "data-units": `\u00a0${units}` },
      html("span", {}, after === "" ? "" : `\u00a0${after}`),
    ),
  );
}

/** Share that a full bar stands for: all of u²(y), or the largest if correlations make one larger still. */
const fullBar = ({ linear }: MeasurandRecord): number => Math.max(1, ...linear.contributions.map(({ share }) => share));

const shareBar = (part: number, label: string): HTMLElement =>
  html(
    "span",
    { class: "share" },
    html("span", { class: "bar", style: `--part: ${Math.max(0, 100 * part).toFixed(2)}%` }),
    html("span", { class: "value" }, label),
  );
