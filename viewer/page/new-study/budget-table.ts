import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import { html } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { columnOf, type Column, type ColumnName } from "./columns.ts";
import { withoutRow } from "./draft.ts";
import { howOf } from "./hows.ts";
import { resultRows } from "./result-rows.ts";
import { rowDetails } from "./row-details.ts";
import { withFilled, withMoved, withNewRow } from "./row-list.ts";
import { furtherFields, isEmptyRow, type Row } from "./row.ts";
import { columnsFor, copiedText, withPasted } from "./spreadsheet.ts";
import { askedOf, cellControl, cellId, isHowCell, type CellControl } from "./table-cells.ts";
import type { TableHost } from "./table-host.ts";
import { keyHandler } from "./table-keys.ts";
import { pastedWords, takenAs } from "./table-words.ts";
import { asksTemperature, shownRows, withShownRows } from "./table-shape.ts";

export interface BudgetTable {
  readonly element: HTMLElement;
  /** Draws every row anew from the draft. */
  readonly draw: () => void;
}

/** The budget as a table to type in: one row an input. */
export function createBudgetTable(host: TableHost): BudgetTable {
  const body = html("tbody");
  const further = html("tbody", { class: "further" });
  const head = html("thead");
  const foot = html("tfoot");
  const table = html("table", { class: "entry", id: "budget-entry" }, head, body, further, foot);
  const tools = html("div", { class: "entry-tools" });
  const opened = new Set<string>();
  let at: { key: string; column: ColumnName } | null = null;

  const columns = (): readonly Column[] => columnsFor(host.shape().declared);
  const rows = (): readonly Row[] => shownRows(host.draft(), host.shape());
  const rowAt = (key: string): Row => rows().find((row) => row.key === key)!;
  const setRows = (next: readonly Row[], where = ""): void =>
    host.change(withShownRows(host.draft(), host.shape(), next), where);
  const setRow = (row: Row, where: string): void =>
    setRows(
      rows().map((one) => (one.key === row.key ? row : one)),
      where,
    );
  const indexOf = (key: string): number => rows().findIndex((row) => row.key === key);

  const focusCell = (key: string, column: ColumnName): void => {
    const control = document.getElementById(cellId(key, column)) as CellControl | null;
    control?.focus();
    if (control instanceof HTMLInputElement) control.select();
  };

  /** A cell, and how it follows the rest of its row. */
  const cellOf = (
    row: Row,
    column: Column,
    line: number,
    problems: HTMLElement,
  ): { td: HTMLElement; refresh: (row: Row) => void } => {
    const { shape, spots } = { shape: host.shape(), spots: host.spots };
    const id = cellId(row.key, column.name);
    if (shape.declared === null && (column.name === "symbol" || column.name === "meaning"))
      return fixedCell(row, column);
    const control = cellControl(column, shape.optional.has(row.key), host.kinds());
    const message = html("span", { class: "field-problem", id: `${id}-problem` });
    problems.append(message);
    control.id = id;
    control.dataset["column"] = column.name;
    control.dataset["key"] = row.key;
    control.setAttribute("aria-describedby", message.id);
    const whose = shape.declared === null ? row.symbol : fillText(words.studyTable.row, { n: String(line) });
    const because = column.name === "source" && shape.optional.has(row.key);
    let field = "";
    const refresh = (now: Row): void => {
      const asked = askedOf(column, now, asksTemperature(host.draft(), now));
      const leaving = because && now.how === "";
      const place = `inputs.${row.key}.${leaving ? "because" : (asked?.field ?? column.name)}`;
      if (spots.get(field)?.control === control) spots.delete(field);
      field = place;
      control.disabled = asked === null;
      control.dataset["place"] = place;
      const name = leaving ? words.studyTable.because : (asked?.words ?? column.words);
      control.setAttribute("aria-label", `${name}, ${whose}`);
      const value = leaving ? now.because : column.get(now);
      if (control.value !== value) control.value = value;
      // A way that this list does not have keeps its name.
      if (control instanceof HTMLSelectElement && control.value !== value) {
        control.append(html("option", { value, selected: true }, value));
      }
      if (control instanceof HTMLInputElement)
        control.placeholder = leaving
          ? words.studyTable.because
          : (asked?.short ?? "") || takenAs(column, now, host.draft());
      if (asked !== null) spots.set(place, { place, name: `${name}, ${whose}`, control, message });
    };
    const typed = (): void => {
      const before = rowAt(row.key);
      const leaving = because && before.how === "";
      setRow(leaving ? { ...before, because: control.value } : column.set(before, control.value), id);
      if (["how", "unit", "sensitivity"].includes(column.name)) refreshRow(row.key);
    };
    control.addEventListener(control instanceof HTMLSelectElement ? "change" : "input", typed);
    refresh(row);
    return { td: html("td", { class: `c-${column.name}`, "data-title": column.title }, control), refresh };
  };

  const fixedCell = (row: Row, column: Column): { td: HTMLElement; refresh: () => void } => ({
    td:
      column.name === "symbol"
        ? html("th", { scope: "row", class: "c-symbol", "data-title": column.title }, symbolNode(row.symbol))
        : html(
            "td",
            { class: "c-meaning fixed", "data-title": column.title },
            html("span", { title: row.meaning }, row.meaning === row.symbol ? "" : row.meaning),
          ),
    refresh: () => undefined,
  });

  const refreshers = new Map<string, (row: Row) => void>();
  const refreshRow = (key: string): void => {
    const row = rowAt(key);
    refreshers.get(key)?.(row);
    // What must be filled in and has no column is not to be looked for.
    const how = howOf(row.how);
    if (how !== undefined && !opened.has(key) && furtherFields(how, host.kinds()).some(({ required }) => required))
      return toggle(key);
    if (opened.has(key)) drawDetails(key);
  };
  const detailsOf = (key: string): HTMLElement =>
    html("tr", { class: "details", id: `details-${key}`, hidden: !opened.has(key) });
  const drawDetails = (key: string): void => {
    const element = document.getElementById(`details-${key}`);
    if (element === null) return;
    element.hidden = !opened.has(key);
    for (const place of host.spots.keys())
      if (place.startsWith(`inputs.${key}.`) && element.contains(host.spots.get(place)!.control))
        host.spots.delete(place);
    element.replaceChildren(
      ...(opened.has(key)
        ? [
            html(
              "td",
              { colspan: columns().length + 1 },
              rowDetails(rowAt(key), indexOf(key) + 1, host, (row) => setRow(row, `details-${key}`), {
                redrawn: (row) => {
                  setRow({ ...rowAt(key), rest: row.rest }, `details-${key}`);
                  drawDetails(key);
                  document.getElementById(`attach-${key}`)?.focus();
                },
                move: host.shape().declared === null ? null : (by) => move(key, by),
                insert: host.shape().declared === null ? null : () => add(key),
                remove: host.shape().declared === null ? null : () => remove(key),
              }),
            ),
          ]
        : []),
    );
  };
  const toggle = (key: string): void => {
    if (!opened.delete(key)) opened.add(key);
    document.getElementById(`open-${key}`)?.setAttribute("aria-expanded", String(opened.has(key)));
    drawDetails(key);
  };

  const lineOf = (row: Row, i: number): HTMLElement[] => {
    const problems = html("td", { colspan: columns().length + 1, "aria-live": "off" });
    const cells = columns().map((column) => cellOf(row, column, i + 1, problems));
    refreshers.set(row.key, (now) => {
      for (const { refresh } of cells) refresh(now);
    });
    const message = html("span", { class: "field-problem", id: `row-${row.key}-problem` });
    problems.append(message);
    const opener = html(
      "button",
      {
        type: "button",
        class: "open-row",
        id: `open-${row.key}`,
        "aria-expanded": String(opened.has(row.key)),
        "aria-controls": `details-${row.key}`,
        "aria-label": fillText(words.studyTable.moreOf, { n: String(i + 1) }),
        title: words.studyTable.moreOfThis,
        "data-more": words.studyTable.more,
        onclick: () => toggle(row.key),
      },
      "⋯",
    );
    const place = `inputs.${row.key}`;
    const first =
      cells[host.shape().declared === null ? 2 : 0]!.td.querySelector<HTMLElement>("input, select") ?? opener;
    host.spots.set(place, {
      place,
      name: fillText(words.studyTable.row, { n: String(i + 1) }),
      control: first,
      message,
    });
    return [
      html(
        "tr",
        { class: "line", "data-key": row.key },
        cells.map(({ td }) => td),
        html("td", { class: "c-more" }, opener),
      ),
      html("tr", { class: "problems" }, problems),
      detailsOf(row.key),
    ];
  };

  const draw = (): void => {
    for (const place of host.spots.keys()) if (/^(inputs\.|results\.|rows$)/.test(place)) host.spots.delete(place);
    refreshers.clear();
    const { optional } = host.shape();
    head.replaceChildren(
      html(
        "tr",
        {},
        columns().map(({ name, title }) => html("th", { scope: "col", class: `c-${name}` }, title)),
        html("th", { scope: "col" }, html("span", { class: "unseen" }, words.studyTable.more)),
      ),
    );
    const all = rows();
    const needed = all.filter(({ key }) => !optional.has(key));
    const may = all.filter(({ key }) => optional.has(key));
    body.replaceChildren(...needed.flatMap((row) => lineOf(row, all.indexOf(row))));
    if (may.some((row) => !isEmptyRow(row))) furtherShown = true;
    further.replaceChildren(
      ...(may.length === 0 ? [] : [furtherHead(may.length)]),
      ...(furtherShown ? may.flatMap((row) => lineOf(row, all.indexOf(row))) : []),
    );
    foot.replaceChildren(...resultRows(host, columns().length + 1));
    for (const key of opened) drawDetails(key);
    drawTools();
    host.drawn();
  };

  /** Whether the inputs that may be left out are on show. */
  let furtherShown = false;
  const furtherHead = (count: number): HTMLElement =>
    html(
      "tr",
      {},
      html(
        "td",
        { colspan: columns().length + 1 },
        html(
          "button",
          {
            type: "button",
            class: "inline",
            id: "further-inputs",
            "aria-expanded": String(furtherShown),
            onclick: () => {
              furtherShown = !furtherShown;
              draw();
              document.getElementById("further-inputs")?.focus();
            },
          },
          counted(furtherShown ? words.studyTable.hideFurther : words.studyTable.showFurther, count),
        ),
      ),
    );

  const add = (after: string | null): void => {
    const all = rows();
    const place = after === null ? all.length - 1 : indexOf(after);
    const { rows: next, key } = withNewRow(all, place);
    setRows(next);
    draw();
    focusCell(key, "symbol");
  };
  const remove = (key: string): void => {
    const all = rows();
    const i = indexOf(key);
    opened.delete(key);
    if (all.length === 1) {
      const { rows: fresh } = withNewRow([], -1);
      host.change({ ...withoutRow(host.draft(), key), rows: fresh }, "");
    } else host.change(withoutRow(host.draft(), key), "");
    draw();
    const next = rows()[Math.min(i, rows().length - 1)]!;
    focusCell(next.key, at?.column ?? "symbol");
    host.tell(fillText(words.studyTable.rowRemoved, { n: String(i + 1) }));
  };
  const move = (key: string, by: -1 | 1): void => {
    const i = indexOf(key);
    setRows(withMoved(rows(), i, by));
    draw();
    focusCell(key, at?.column ?? "symbol");
    host.tell(fillText(words.studyTable.rowMoved, { n: String(indexOf(key) + 1) }));
  };
  const fill = (column: ColumnName, from: number, to: number): void => {
    setRows(withFilled(rows(), columnOf(column), from, to));
    draw();
  };

  const paste = (text: string, key: string, column: ColumnName): void => {
    const { declared } = host.shape();
    const done = withPasted(rows(), text, { row: indexOf(key), column }, columns(), declared !== null);
    setRows(done.rows);
    draw();
    host.tell(pastedWords(done));
    focusCell(rows().some((row) => row.key === key) ? key : rows()[0]!.key, column);
  };

  const copy = async (): Promise<void> => {
    const text = copiedText(
      rows().filter((row) => !isEmptyRow(row)),
      columns(),
      host.kinds(),
    );
    try {
      await navigator.clipboard.writeText(text);
      host.tell(words.studyTable.copied);
    } catch {
      host.tell(words.studyTable.notCopied);
    }
  };

  const button = (id: string, label: string, act: () => void, keys = ""): HTMLElement =>
    html("button", { type: "button", class: "quiet small", id, title: keys === "" ? null : keys, onclick: act }, label);
  const current = (): string => (at !== null && indexOf(at.key) >= 0 ? at.key : rows().at(-1)!.key);
  const drawTools = (): void => {
    const declared = host.shape().declared !== null;
    const any = rows().length > 0;
    tools.replaceChildren(
      html(
        "p",
        { class: "buttons" },
        declared ? button("add-row", words.studyTable.addRow, () => add(null), words.studyTable.addRowKeys) : null,
        any && declared
          ? button("remove-row", words.studyTable.removeRow, () => remove(current()), words.studyTable.removeRowKeys)
          : null,
        any && declared
          ? button("row-up", words.studyTable.up, () => move(current(), -1), words.studyTable.upKeys)
          : null,
        any && declared
          ? button("row-down", words.studyTable.down, () => move(current(), 1), words.studyTable.downKeys)
          : null,
        any ? button("fill-down", words.studyTable.fillDown, () => fillBelow(), words.studyTable.fillDownKeys) : null,
        any ? button("copy-table", words.studyTable.copyTable, () => void copy()) : null,
      ),
    );
  };
  const fillBelow = (): void => {
    if (at === null || indexOf(at.key) < 0) return host.tell(words.studyTable.goToCell);
    fill(at.column, indexOf(at.key), rows().length - 1);
    focusCell(at.key, at.column);
    host.tell(fillText(words.studyTable.filled, { column: columnOf(at.column).words, n: String(indexOf(at.key) + 1) }));
  };

  table.addEventListener("focusin", ({ target }) => {
    const { key, column } = (target as HTMLElement).dataset;
    if (key !== undefined && column !== undefined) at = { key, column: column as ColumnName };
  });
  table.addEventListener("keydown", (event) => {
    handle(event);
  });
  const handle = keyHandler({
    keys: () => [...table.querySelectorAll<HTMLElement>("tr.line[data-key]")].map((line) => line.dataset["key"]!),
    columns: () => columns().map(({ name }) => name),
    focus: focusCell,
    add: () => (host.shape().declared === null ? null : add(null)),
    remove: (key) => (host.shape().declared === null ? undefined : remove(key)),
    move: (key, by) => (host.shape().declared === null ? undefined : move(key, by)),
    fillFromAbove: (key, column) => {
      const i = indexOf(key);
      if (i <= 0) return;
      fill(column, i - 1, i);
      focusCell(key, column);
    },
    fillBelow,
    open: (key) => {
      if (!opened.has(key)) toggle(key);
      document.querySelector<HTMLElement>(`#details-${key} :is(input, select, textarea, button)`)?.focus();
    },
  });
  table.addEventListener("paste", (event) => {
    const { key, column } = (event.target as HTMLElement).dataset;
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (key === undefined || column === undefined || !/[\t\n\r]/.test(text.trim())) return;
    // Indications in a column of a spreadsheet belong into the one cell of that row.
    if (isList(rowAt(key), column as ColumnName) && !text.trim().includes("\t")) return;
    event.preventDefault();
    paste(text, key, column as ColumnName);
  });

  return { element: html("div", { class: "entry-part" }, html("div", { class: "entry-scroll" }, table), tools), draw };
}

const isList = (row: Row, column: ColumnName): boolean => {
  const asked = isHowCell(column) ? askedOf(columnOf(column), row, false) : null;
  return asked !== null && ["values", "probabilities", "densities"].includes(asked.field);
};
