import { html } from "../draw/node.ts";
import type { Panel } from "./panel.ts";

/** What a reader must know to read the figures rightly. */
export const remarks: Panel = {
  id: "remarks",
  title: "To bear in mind",
  appliesTo: ({ remarks: sentences }) => sentences.length > 0,
  render(element, { remarks: sentences }) {
    element.replaceChildren(
      html(
        "ul",
        { class: "sentences" },
        sentences.map((sentence) => html("li", {}, sentence)),
      ),
    );
  },
};
