import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import type { TableHost } from "./table-host.ts";
import { cellId } from "./table-cells.ts";
import type { ResultDraft } from "./draft.ts";

/** The rows of the results: of a sum one to type, of an equation several, of any other model as it has them. */
export function resultRows(host: TableHost, width: number): HTMLElement[] {
  const { declared, measurands } = host.shape();
  const title = (count: number): HTMLElement =>
    html(
      "tr",
      { class: "of-results" },
      html(
        "th",
        { colspan: width, scope: "colgroup" },
        count === 1 ? pageWords.studyTable.result : pageWords.studyTable.results,
      ),
    );
  if (declared === null)
    return Object.entries(measurands).length === 0
      ? []
      : [
          title(Object.keys(measurands).length),
          ...Object.values(measurands).map(({ symbol, meaning, unit }) =>
            html(
              "tr",
              { class: "line of-result" },
              html("th", { scope: "row", class: "c-symbol" }, symbolNode(symbol)),
              html("td", { colspan: 2, class: "c-meaning" }, meaning),
              html("td", { class: "c-unit" }, unit),
              html("td", { colspan: width - 4 }),
            ),
          ),
        ];
  const { results } = host.draft();
  return [title(results.length), ...results.flatMap((result, i) => resultRow(host, result, i, width))];
}

function resultRow(host: TableHost, result: ResultDraft, i: number, width: number): HTMLElement[] {
  const place = `results.${result.key}`;
  const problems = html("td", { colspan: width });
  const which =
    host.draft().results.length === 1
      ? pageWords.studyTable.ofResult
      : fillText(pageWords.studyTable.ofResultN, { n: String(i + 1) });
  const set = (part: Partial<ResultDraft>, where: string): void => {
    const { results } = host.draft();
    host.change(
      { ...host.draft(), results: results.map((one) => (one.key === result.key ? { ...one, ...part } : one)) },
      where,
    );
  };
  const field = <C extends HTMLInputElement | HTMLSelectElement>(
    name: keyof ResultDraft,
    words: string,
    control: C,
  ): C => {
    const id = cellId(result.key, name);
    const message = html("span", { class: "field-problem", id: `${id}-problem` });
    problems.append(message);
    control.id = id;
    control.dataset["place"] = `${place}.${name}`;
    control.setAttribute("aria-label", `${words} ${which}`);
    control.setAttribute("aria-describedby", message.id);
    control.value = result[name];
    control.addEventListener(control instanceof HTMLSelectElement ? "change" : "input", () => {
      set({ [name]: control.value }, id);
      if (name === "unit") refresh();
    });
    host.spots.set(`${place}.${name}`, { place: `${place}.${name}`, name: `${words} ${which}`, control, message });
    return control;
  };
  const input = (): HTMLInputElement => html("input", { type: "text", autocomplete: "off", spellcheck: "false" });
  const ofTemperature = field(
    "ofTemperature",
    pageWords.studyTable.differenceOrTemperature,
    html(
      "select",
      {},
      html("option", { value: "" }, pageWords.studyTable.choose),
      html("option", { value: "difference" }, pageWords.studyTable.difference),
      html("option", { value: "temperature" }, pageWords.studyTable.temperature),
    ),
  );
  const unit = field("unit", pageWords.studyTable.said.unit, input());
  const refresh = (): void => {
    ofTemperature.disabled = unit.value.trim() !== "°C";
  };
  refresh();
  const meaning = field("meaning", pageWords.studyTable.said.name, input());
  meaning.placeholder = pageWords.studyTable.meaningHelp;
  return [
    html(
      "tr",
      { class: "line of-result" },
      html(
        "td",
        { class: "c-symbol", "data-title": pageWords.studyTable.columns.symbol },
        field("symbol", "symbol", input()),
      ),
      html("td", { class: "c-meaning", colspan: 2, "data-title": pageWords.studyTable.columns.quantity }, meaning),
      html("td", { class: "c-unit", "data-title": pageWords.studyTable.columns.unit }, unit),
      html("td", { class: "c-ofTemperature", "data-title": pageWords.studyTable.columns.kind }, ofTemperature),
      html("td", { colspan: width - 5 }),
    ),
    html("tr", { class: "problems" }, problems),
  ];
}
