import { messages } from "../language.ts";
import { html } from "../draw/node.ts";
import type { Panel } from "./panel.ts";

/** What may hurt a person who makes the measurement. */
export const cautions: Panel = {
  id: "cautions",
  title: messages.sections.cautions,
  appliesTo: ({ cautions: sentences }) => sentences.length > 0,
  render(element, { cautions: sentences }) {
    element.replaceChildren(
      html(
        "ul",
        { class: "sentences cautions" },
        sentences.map((sentence) => html("li", {}, sentence)),
      ),
    );
  },
};
