import type { InputRecord, Statement } from "../../../engine/index.ts";
import { sceneMarkup } from "../draw/scene.ts";
import { inputDensityScene } from "../../present/pictures/input-density.ts";
import { fillText } from "../../present/fill.ts";
import { html, joinMarkup, fill, type Markup } from "../markup.ts";
import { fromRecord, inputSymbol, letter, type Report, type Section } from "../report.ts";
import { statedMarkup } from "../statement.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { leftOutTable } from "../../present/tables/left-out.ts";
import { presentedTable, tableMarkup } from "../table.ts";
import { distributionWords } from "../../present/budget.ts";
import { withUnit } from "../../present/numbers.ts";

/** Every input quantity with its distribution, the figures that were stated, and where they come from. */
export const inputs: Section = {
  id: "inputs",
  render(report) {
    const { record, messages, numbers } = report;
    const words = messages.inputs;
    const rows = Object.entries(record.inputs).map(([name, input]) => {
      const statement = record.study.inputs[name] as Statement;
      return [
        html`${symbolMarkup(input.symbol)} <code class="name">${name}</code>
          <div class="fine">${fromRecord(report, input.meaning)}</div>`,
        densityOf(report, input),
        html`<div>${distributionWords(statement.distribution, input.distribution, messages)}</div>
          <div class="fine">${input.evaluation === "A" ? words.evaluationA : words.evaluationB}</div>`,
        html`${joinMarkup(statedMarkup(report, statement as unknown as Readonly<Record<string, unknown>>, input.unit), "; ")}${drawnAs(report, input)}`,
        input.source === null ? html`<span class="missing">${words.noSource}</span>` : html`${input.source}`,
      ];
    });
    const table = tableMarkup(
      { messages, decimalSign: numbers.decimalSign },
      {
        name: "inputs",
        caption: words.caption,
        columns: [
          { head: words.quantity, kind: "head" },
          { head: words.density, kind: "text" },
          { head: words.distribution, kind: "text" },
          { head: words.stated, kind: "text" },
          { head: words.source, kind: "text" },
        ],
        rows,
      },
    );
    return html`${table}${correlations(report)}${leftOut(report)}`;
  },
};

function densityOf({ messages, numbers }: Report, { symbol, unit, curve, standardUncertainty }: InputRecord): Markup {
  const quantity = symbolText(symbol);
  const text = (value: number): string => withUnit(numbers.significant(value, 4), unit);
  const name =
    curve.length < 2
      ? fillText(messages.inputs.pictureConstant, { quantity })
      : fillText(messages.inputs.picture, { quantity, low: text(curve[0]![0]), high: text(curve.at(-1)![0]) });
  return sceneMarkup(inputDensityScene(curve, standardUncertainty === 0, name));
}

/** A reader must see if the trials are drawn from a distribution wider than the budget's standard uncertainty. */
function drawnAs(
  { messages, numbers }: Report,
  { standardUncertainty: u, standardDeviation: s, unit }: InputRecord,
): Markup | null {
  if (s === null) return u === 0 ? null : html`<div class="fine">${messages.inputs.drawnWithout}</div>`;
  if (Math.abs(s - u) <= 1e-9 * Math.max(s, u)) return null;
  return html`<div class="fine">
    ${fillText(messages.inputs.drawn, { value: withUnit(numbers.significant(s, 3), unit) })}
  </div>`;
}

/** The checklist of what the study takes as zero. */
function leftOut(report: Report): Markup | null {
  const table = leftOutTable(report.record, report);
  return table === null
    ? null
    : html`<p>${report.messages.leftOut.intro}</p>
        ${presentedTable(report, table)}`;
}

function correlations(report: Report): Markup | null {
  const { record, messages, numbers } = report;
  const words = messages.inputs;
  const stated = record.study.correlations;
  if (stated.length === 0) return null;
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: words.correlations,
      columns: [
        { head: words.between, kind: "head" },
        { head: words.coefficient, kind: "text" },
        { head: words.source, kind: "text" },
      ],
      rows: stated.map(({ between: [a, b], coefficient, refersTo, source }) => [
        fill("{a}, {b}", { a: inputSymbol(report, a), b: inputSymbol(report, b) }),
        coefficient === "readings"
          ? words.fromReadings
          : html`${letter("r")} = ${numbers.plain(coefficient)} ${refersTo === "ranks" ? words.ofRanks : words.ofValues}`,
        source === undefined ? html`<span class="missing">${words.noSource}</span>` : html`${source}`,
      ]),
    },
  );
}
