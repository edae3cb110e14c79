import { html } from "../markup.ts";
import { spoken, type Section } from "../report.ts";

/** What a reader must know to read the figures. */
export const remarks: Section = {
  id: "remarks",
  render(report) {
    const { remarks: found } = report.sentences;
    if (found.length === 0) return html`<p>${report.messages.remarks.none}</p>`;
    return html`<ul>
      ${found.map((remark) => html`<li>${spoken(report, remark)}</li>`)}
    </ul>`;
  },
};
