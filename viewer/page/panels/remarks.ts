import { messages } from "../language.ts";
import { sentenceNodes } from "../draw/symbol.ts";
import { html } from "../draw/node.ts";
import type { Panel } from "./panel.ts";

/** What a reader must know to read the figures rightly. */
export const remarks: Panel = {
  id: "remarks",
  title: messages.sections.remarks,
  appliesTo: ({ remarks: sentences }) => sentences.length > 0,
  render(element, record) {
    element.replaceChildren(
      html(
        "ul",
        { class: "sentences" },
        record.remarks.map((remark) => html("li", {}, sentenceNodes(remark, record))),
      ),
    );
  },
};
