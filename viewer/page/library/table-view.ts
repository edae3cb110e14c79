import type { Actions } from "../actions/index.ts";
import { html, type Child } from "../draw/node.ts";
import { plain, significant, withUnit } from "../../present/numbers.ts";
import type { ReadTable } from "../shown.ts";
import { statementWords } from "../../present/statement.ts";

/** What a column of a budget table can be taken for, in words. */
const FIELDS: Readonly<Record<string, string>> = {
  quantity: "the quantity",
  symbol: "its symbol",
  estimate: "the estimate",
  unit: "the unit",
  stated: "the uncertainty as stated",
  standard: "the standard uncertainty",
  howStated: "how the uncertainty is stated",
  distribution: "the distribution",
  divisor: "the divisor",
  sensitivity: "the sensitivity coefficient",
  degreesOfFreedom: "the degrees of freedom",
  contribution: "the contribution, to check against",
  source: "the source",
};

/** How a budget table was understood: to be checked, and corrected, before anything is run. */
export function tableView({ reading, columns }: ReadTable, { readTableAs }: Actions): HTMLElement[] {
  const { mapping, headingRow, terms, combined, remarks } = reading;
  const unit = String(
    (reading.study.parameters as { measurand?: { unit?: string } } | undefined)?.measurand?.unit ?? "1",
  );
  const said = [
    ...remarks,
    ...terms
      .filter(({ assumed }) => assumed.length > 0)
      .map(({ row, quantity, assumed }) => `row ${row} (${quantity}): ${assumed.join("; ")}`),
  ];
  return [
    html(
      "section",
      { class: "panel" },
      html("h2", {}, "What each column was taken for"),
      html(
        "p",
        { class: "note" },
        `The headings stand in row ${headingRow}. Change what a column is taken for, and the table is read once more.`,
      ),
      html(
        "ul",
        { class: "columns" },
        mapping.map((column) => html("li", {}, columnChoice(column, columns, readTableAs))),
      ),
    ),
    html(
      "section",
      { class: "panel" },
      html(
        "h2",
        {},
        `${terms.length} ${terms.length === 1 ? "term" : "terms"}, which combine to `,
        html("var", {}, "u"),
        ` = ${withUnit(significant(combined, 2), unit)}`,
      ),
      html(
        "ul",
        { class: "known terms" },
        terms.map((term) =>
          html(
            "li",
            {},
            html(
              "strong",
              {},
              term.quantity,
              html("span", { class: "note" }, `row ${term.row}, input `, html("code", {}, term.input)),
            ),
            html(
              "span",
              {},
              statementWords(term.statement),
              html(
                "span",
                { class: "note" },
                html("var", {}, "u"),
                ` = ${withUnit(significant(term.standardUncertainty, 2), term.unit === "" ? "1" : term.unit)}, sensitivity coefficient ${plain(term.sensitivity)}`,
              ),
            ),
            sourceOf(term.statement),
          ),
        ),
      ),
    ),
    ...(said.length === 0
      ? []
      : [
          html(
            "section",
            { class: "panel" },
            html("h2", {}, "Worth knowing before it is run"),
            html(
              "ul",
              { class: "sentences" },
              said.map((text) => html("li", {}, text)),
            ),
          ),
        ]),
  ];
}

const sourceOf = ({ source }: Readonly<Record<string, unknown>>): HTMLElement =>
  typeof source === "string"
    ? html("span", { class: "source" }, source)
    : html("span", { class: "source missing" }, "no source stated");

function columnChoice(
  { column, heading, field }: ReadTable["reading"]["mapping"][number],
  columns: ReadTable["columns"],
  read: Actions["readTableAs"],
): Child {
  const id = `column-${column}`;
  const select = html(
    "select",
    {
      id,
      onchange: () => {
        const { [column]: _before, ...others } = columns;
        void read(select.value === "" ? others : { ...others, [column]: select.value });
      },
    },
    html(
      "option",
      { value: "" },
      field === null ? "not used" : columns[column] === undefined ? FIELDS[field]! : "what its heading says",
    ),
    Object.entries(FIELDS)
      .filter(([name]) => name !== field || columns[column] !== undefined)
      .map(([name, words]) => html("option", { value: name, selected: columns[column] === name }, words)),
  );
  return [
    html(
      "label",
      { for: id },
      html("span", { class: "note" }, `Column ${column}`),
      html("strong", {}, heading === "" ? "without a heading" : heading),
    ),
    select,
  ];
}
