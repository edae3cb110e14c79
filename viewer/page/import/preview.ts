import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import type { TableReading } from "../../api/budget-tables.ts";
import { symbolNode } from "../draw/symbol.ts";
import { html, type Child } from "../draw/node.ts";
import { withUnit } from "../../present/numbers.ts";
import { freedom, plain, significant } from "../numbers.ts";
import type { SessionActions } from "./session.ts";
import { tableWords } from "./table-speech.ts";

const figure = (value: number): string => (value === 0 ? "0" : significant(value, 3));
const unitOr = (unit: string): string => (unit === "" ? "1" : unit);

/** The study as it would be: its inputs, the linear result, and what the table itself says of it. */
export function preview(reading: TableReading, { state }: SessionActions): HTMLElement[] {
  const { terms, combined, estimate, unit, remarks } = reading;
  const assumed = terms
    .filter((term) => term.assumed.length > 0)
    .map(({ row, quantity, assumed: words }) =>
      fillText(pageWords.import.assumed, { row: String(row), quantity, what: words.map(tableWords).join("; ") }),
    );
  return [
    html(
      "section",
      { class: "panel import-preview", "aria-labelledby": "import-preview-title" },
      html(
        "h2",
        { id: "import-preview-title" },
        terms.length === 0 ? pageWords.import.noStudy : counted(pageWords.import.studyOf, terms.length),
      ),
      ...(terms.length === 0
        ? []
        : [
            html(
              "p",
              { id: "import-result" },
              pageWords.import.linear,
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
    ...listed("import-compared", pageWords.import.compared, remarks.map(tableWords).map(sentence)),
    ...listed("import-assumed", pageWords.import.granted, assumed),
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
    { class: "scroll", role: "region", tabindex: 0, "aria-label": pageWords.import.inputs },
    html(
      "table",
      { class: "plain" },
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          head(pageWords.import.quantity, true),
          head(pageWords.import.symbol, true),
          head(pageWords.import.estimate),
          head(html("var", {}, "u")),
          head(pageWords.import.unit, true),
          temperatures ? head(pageWords.import.inCelsius, true) : null,
          head(pageWords.import.distribution, true),
          head(html("var", {}, "ν")),
          head([pageWords.import.sensitivity, html("var", {}, "c")]),
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
      "aria-label": fillText(pageWords.import.isTemperature, { quantity }),
      onchange: () => state({ rows: { [String(row)]: { temperature: select.value === "temperature" } } }),
    },
    html("option", { value: "difference", selected: temperature === false }, pageWords.import.aDifference),
    html("option", { value: "temperature", selected: temperature === true }, pageWords.import.aTemperature),
  );
  return select;
}

const distributionWords = ({ distribution }: Term["statement"]): string =>
  (pageWords.import.shapes as Readonly<Record<string, string>>)[distribution] ?? distribution;

const freedomOf = (statement: Term["statement"]): string =>
  "degreesOfFreedom" in statement && typeof statement.degreesOfFreedom === "number"
    ? freedom(statement.degreesOfFreedom)
    : "∞";
