import { show } from "../../../engine/index.ts";
import { equationMarkup } from "../equation.ts";
import { equationIn } from "../../present/messages/phrases/index.ts";
import { html } from "../markup.ts";
import { mathematicsMarkup } from "../mathematics.ts";
import { fromRecord, unitText, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";

/** What is measured, and the function that gives it from the input quantities. */
export const model: Section = {
  id: "model",
  render(report) {
    const { record, messages, symbols, typed } = report;
    const words = messages.model;
    const measurands = Object.values(record.measurands);
    const { parameters } = record.study;
    // A typed equation and its quantities stand in this report already.
    const entries = typed === null ? Object.entries(parameters ?? {}) : [];
    return html`<dl class="facts">
      <div>
        <dt>${measurands.length === 1 ? words.measurand : words.measurands}</dt>
        <dd>
          ${measurands.map(
            ({ symbol, meaning, unit }) =>
              html`<div>
                ${symbolMarkup(symbol)} – ${fromRecord(report, meaning)}; ${words.unit}: ${unitText(report, unit)}
              </div>`,
          )}
        </dd>
      </div>
      <div>
        <dt>${words.equation}</dt>
        <dd>
          ${
            typed !== null
              ? mathematicsMarkup(typed, messages.decimalSign)
              : record.model.equation === null
                ? words.noEquation
                : equationMarkup(equationIn(record.model.equation, messages.language), symbols)
          }
        </dd>
      </div>
      <div>
        <dt>${words.source}</dt>
        <dd>${record.model.source === null ? words.noSource : fromRecord(report, record.model.source)}</dd>
      </div>
      <div>
        <dt>${words.id}</dt>
        <dd>${fromRecord(report, record.model.title)} (<code>${record.model.id}</code>)</dd>
      </div>
      ${
        entries.length === 0
          ? null
          : html`<div>
              <dt>${words.parameters}</dt>
              <dd>
                ${entries.map(([name, value]) => html`<div><code>${name}</code> = <code>${show(value)}</code></div>`)}
              </dd>
            </div>`
      }
    </dl>`;
  },
};
