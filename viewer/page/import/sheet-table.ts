import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import type { ColumnMeaning, DrawnRow, TableReading } from "../../api/budget-tables.ts";
import { html } from "../draw/node.ts";
import { complaintId, rowPickerId } from "./complaints.ts";
import type { SessionActions } from "./session.ts";
import { choiceOf, COLUMN_CHOICES, HAS_UNIT, ROW_WORDS } from "./words.ts";

/** The sheet as it stands, with a picker above each column and beside each row. */
export function sheetTable(reading: TableReading, actions: SessionActions): HTMLElement {
  const { mapping, rows, more } = reading;
  const letters = Object.keys(mapping.columns).slice(0, Math.max(1, ...rows.map(({ cells }) => cells.length)));
  const marked = new Map(
    reading.complaints.map(({ row, column }) => [`${column ?? ""}${row}`, complaintId(row, column)]),
  );
  return html(
    "div",
    {
      class: "scroll import-sheet",
      role: "region",
      tabindex: 0,
      "aria-label": pageWords.import.sheetName,
    },
    html(
      "table",
      {},
      html("caption", {}, pageWords.import.sheetHelp),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          html("th", { scope: "col" }, pageWords.import.rowIs),
          letters.map((letter) => html("th", { scope: "col", id: `import-head-${letter}` }, letter)),
        ),
        html(
          "tr",
          {},
          html("th", { scope: "row" }, pageWords.import.columnIs),
          letters.map((letter) => html("td", {}, columnPicker(letter, reading, actions))),
        ),
        html(
          "tr",
          {},
          html("th", { scope: "row" }, pageWords.import.unit),
          letters.map((letter) => html("td", {}, ...unitFields(letter, reading, actions))),
        ),
      ),
      html(
        "tbody",
        {},
        rows.map((row) => rowOf(row, letters.length, letters, reading, marked, actions)),
      ),
    ),
    more === 0 ? null : html("p", { class: "note" }, counted(pageWords.import.moreRows, more)),
  );
}

const headingOf = ({ columns }: TableReading, letter: string): string => {
  const heading = columns.find(({ column }) => column === letter)?.heading ?? "";
  return heading === "" ? "" : ` (${heading})`;
};

function columnPicker(letter: string, reading: TableReading, { state }: SessionActions): HTMLSelectElement {
  const meaning = reading.mapping.columns[letter]!;
  const chosen = choiceOf(meaning);
  const select = html(
    "select",
    {
      id: `import-column-${letter}`,
      "aria-label": fillText(pageWords.import.columnN, { letter, heading: headingOf(reading, letter) }),
      onchange: () => {
        const choice = COLUMN_CHOICES.find(({ value }) => value === select.value);
        if (choice !== undefined) state({ columns: { [letter]: choice.states } });
      },
    },
    COLUMN_CHOICES.map(({ value, words }) => html("option", { value, selected: value === chosen }, words)),
  );
  return select;
}

/** Unit of a column of figures, and the coverage factor of its expanded uncertainties. */
function unitFields(letter: string, reading: TableReading, { state }: SessionActions): HTMLElement[] {
  const meaning = reading.mapping.columns[letter]!;
  if (meaning.field === null || !HAS_UNIT.has(meaning.field)) return [];
  const said = fillText(pageWords.import.column, { letter, heading: headingOf(reading, letter) });
  const unit = html("input", {
    type: "text",
    autocomplete: "off",
    spellcheck: "false",
    id: `import-unit-${letter}`,
    value: meaning.unit ?? "",
    placeholder: pageWords.import.byRow,
    "aria-label": fillText(pageWords.import.unitOf, { column: said }),
    onchange: () => state({ columns: { [letter]: { ...fieldOf(meaning), unit: unit.value.trim() || null } } }),
  });
  if (meaning.field !== "stated" || meaning.stated !== "expanded") return [unit];
  const factor = html("input", {
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    id: `import-factor-${letter}`,
    value: meaning.factor ?? "",
    placeholder: pageWords.import.byRow,
    "aria-label": fillText(pageWords.import.factorOf, { column: said }),
    onchange: () => {
      const value = Number(factor.value.trim().replace(",", "."));
      if (factor.value.trim() === "" || (value > 0 && value <= 100))
        state({ columns: { [letter]: { ...fieldOf(meaning), factor: factor.value.trim() === "" ? null : value } } });
      else factor.setAttribute("aria-invalid", "true");
    },
  });
  return [unit, html("span", { class: "import-factor" }, html("var", {}, "k"), " = ", factor)];
}

const fieldOf = ({ field, stated }: ColumnMeaning): Partial<ColumnMeaning> => ({
  field,
  ...(stated === undefined ? {} : { stated }),
});

function rowOf(
  { row, cells }: DrawnRow,
  width: number,
  letters: readonly string[],
  reading: TableReading,
  marked: ReadonlyMap<string, string>,
  actions: SessionActions,
): HTMLElement {
  const kind = kindOf(row, reading);
  const complaint = marked.get(String(row));
  return html(
    "tr",
    { class: `import-${kind === "" ? "above" : kind}` },
    html(
      "th",
      { scope: "row" },
      html("span", { class: "import-number" }, String(row)),
      rowPicker(row, kind, cells.find((cell) => cell.trim() !== "") ?? "", reading, complaint, actions),
    ),
    Array.from({ length: width }, (_, i) => {
      const corrected = reading.mapping.cells[`${letters[i]!}${row}`];
      const problem = marked.get(`${letters[i]!}${row}`);
      return html(
        "td",
        { class: problem === undefined ? null : "import-wrong", "aria-describedby": problem ?? null },
        corrected === undefined ? (cells[i] ?? "") : [html("s", {}, cells[i] ?? ""), " ", html("ins", {}, corrected)],
        problem === undefined ? null : html("span", { class: "unseen" }, pageWords.import.cannot),
      );
    }),
  );
}

type Kind = keyof typeof ROW_WORDS | "heading" | "units" | "";

function kindOf(row: number, { mapping }: TableReading): Kind {
  if (mapping.headings.includes(row)) return "heading";
  if (mapping.units === row) return "units";
  return mapping.rows[row]?.is ?? "";
}

function rowPicker(
  row: number,
  kind: Kind,
  label: string,
  reading: TableReading,
  complaint: string | undefined,
  { state }: SessionActions,
): HTMLSelectElement {
  const { headings } = reading.mapping;
  const select = html(
    "select",
    {
      id: rowPickerId(row),
      "aria-label": fillText(label === "" ? pageWords.import.rowN : pageWords.import.rowNamed, {
        n: String(row),
        label: label.slice(0, 40),
      }),
      "aria-describedby": complaint ?? null,
      onchange: () => {
        const chosen = select.value as Kind;
        const others = headings.filter((one) => one !== row);
        const units = reading.mapping.units === row ? { units: null } : {};
        if (chosen === "heading") {
          const beside = others.some((one) => Math.abs(one - row) === 1);
          state({ headings: beside ? [...others, row].toSorted((a, b) => a - b) : [row], ...units });
        } else if (chosen === "units") state({ units: row });
        else if (chosen !== "")
          state({
            rows: { [String(row)]: { is: chosen } },
            ...(others.length === headings.length ? {} : { headings: others }),
            ...units,
          });
      },
    },
    kind === "" ? html("option", { value: "", selected: true }, pageWords.import.above) : null,
    [["heading", pageWords.import.headings], ["units", pageWords.import.units], ...Object.entries(ROW_WORDS)].map(
      ([value, words]) => html("option", { value: value!, selected: value === kind }, words!),
    ),
  );
  return select;
}
