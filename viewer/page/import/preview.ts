import type { TableReading } from "../../api/budget-tables.ts";
import { symbolNode } from "../draw/symbol.ts";
import { html, type Child } from "../draw/node.ts";
import { freedom, plain, significant, withUnit } from "../../present/numbers.ts";
import type { SessionActions } from "./session.ts";

const figure = (value: number): string => (value === 0 ? "0" : significant(value, 3));
const unitOr = (unit: string): string => (unit === "" ? "1" : unit);

/** The study as it would be: its inputs, the linear result, and what the table itself says of it. */
export function preview(reading: TableReading, { state }: SessionActions): HTMLElement[] {
  const { terms, combined, estimate, unit, remarks } = reading;
  const assumed = terms
    .filter((term) => term.assumed.length > 0)
    .map(({ row, quantity, assumed: words }) => `Row ${row} (${quantity}): ${words.join("; ")}.`);
  return [
    html(
      "section",
      { class: "panel import-preview", "aria-labelledby": "import-preview-title" },
      html(
        "h2",
        { id: "import-preview-title" },
        terms.length === 0
          ? "The study: no input is understood yet"
          : `The study: ${terms.length} ${terms.length === 1 ? "input" : "inputs"}`,
      ),
      ...(terms.length === 0
        ? []
        : [
            html(
              "p",
              { id: "import-result" },
              "Linear result: ",
              html("var", {}, "y"),
              ` = ${withUnit(String(Number(estimate.toPrecision(9))).replace("-", "−"), unitOr(unit))}, `,
              html("var", {}, "u"),
              "(",
              html("var", {}, "y"),
              `) = ${withUnit(significant(combined, 4), unitOr(unit))}`,
            ),
            termTable(reading, state),
          ]),
    ),
    ...listed("import-compared", "What was compared and noticed", remarks.map(sentence)),
    ...listed("import-assumed", "What was taken for granted", assumed),
  ];
}

const sentence = (text: string): string => `${text[0]!.toUpperCase()}${text.slice(1)}${/[.?]$/.test(text) ? "" : "."}`;

const listed = (id: string, title: string, lines: readonly string[]): HTMLElement[] =>
  lines.length === 0
    ? []
    : [
        html(
          "section",
          { class: "panel", "aria-labelledby": id },
          html("h2", { id }, title),
          html(
            "ul",
            { class: "sentences" },
            lines.map((line) => html("li", {}, line)),
          ),
        ),
      ];

function termTable({ terms, unit }: TableReading, state: SessionActions["state"]): HTMLElement {
  const temperatures = terms.some(({ temperature }) => temperature !== null);
  const head = (text: Child, words = false): HTMLElement =>
    html("th", { scope: "col", class: words ? "words" : null }, text);
  return html(
    "div",
    { class: "scroll", role: "region", tabindex: 0, "aria-label": "Inputs of the study" },
    html(
      "table",
      { class: "plain" },
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          head("Quantity", true),
          head("Symbol", true),
          head("Estimate"),
          head(html("var", {}, "u")),
          head("Unit", true),
          temperatures ? head("In °C it is", true) : null,
          head("Distribution", true),
          head(html("var", {}, "ν")),
          head(["Sensitivity ", html("var", {}, "c")]),
          head(["|", html("var", {}, "c"), "|·", html("var", {}, "u"), unit === "" ? "" : ` / ${unit}`]),
        ),
      ),
      html(
        "tbody",
        {},
        terms.map((term, i) =>
          html(
            "tr",
            {},
            html("th", { scope: "row" }, term.quantity),
            html("td", { class: "words" }, symbolNode(term.symbol ?? `x_${i + 1}`)),
            html("td", {}, plain(term.estimate)),
            html("td", {}, figure(term.standardUncertainty)),
            html("td", { class: "words" }, term.unit),
            temperatures
              ? html("td", { class: "words" }, term.temperature === null ? "" : temperaturePicker(term, state))
              : null,
            html("td", { class: "words" }, distributionWords(term.statement)),
            html("td", {}, freedomOf(term.statement)),
            html("td", {}, plain(term.sensitivity)),
            html("td", {}, figure(Math.abs(term.sensitivity) * term.standardUncertainty)),
          ),
        ),
      ),
    ),
  );
}

type Term = TableReading["terms"][number];

function temperaturePicker({ row, quantity, temperature }: Term, state: SessionActions["state"]): HTMLSelectElement {
  const select = html(
    "select",
    {
      id: `import-temperature-${row}`,
      "aria-label": `${quantity} is a temperature or a difference`,
      onchange: () => state({ rows: { [String(row)]: { temperature: select.value === "temperature" } } }),
    },
    html("option", { value: "difference", selected: temperature === false }, "a difference"),
    html("option", { value: "temperature", selected: temperature === true }, "a temperature"),
  );
  return select;
}

const distributionWords = ({ distribution }: Term["statement"]): string =>
  distribution === "t" ? "t" : distribution === "arcsine" ? "arcsine (U-shaped)" : distribution;

const freedomOf = (statement: Term["statement"]): string =>
  "degreesOfFreedom" in statement && typeof statement.degreesOfFreedom === "number"
    ? freedom(statement.degreesOfFreedom)
    : "∞";
