import { html } from "../markup.ts";
import { fromRecord, type Section } from "../report.ts";

/** What may hurt a person who makes this measurement. */
export const cautions: Section = {
  id: "cautions",
  render(report) {
    const { cautions: found } = report.record;
    const words = report.messages.cautions;
    if (found.length === 0) return html`<p>${words.none}</p>`;
    return html`<p>${words.intro}</p>
      <ul class="cautions">
        ${found.map((caution) => html`<li>${fromRecord(report, caution)}</li>`)}
      </ul>`;
  },
};
