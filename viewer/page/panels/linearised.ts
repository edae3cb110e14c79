import { speech, messages } from "../language.ts";
import { readable } from "../../present/readable.ts";
import { linearisedTable } from "../../present/tables/linearised.ts";
import { html } from "../draw/node.ts";
import { threeDensitiesPicture } from "../draw/three-densities-picture.ts";
import { wideTable } from "../draw/table.ts";
import { sentenceNodes } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** What stands between the budget and the trials: the linearised model with the stated distributions. */
export const linearised: Panel = {
  id: "linearised",
  title: messages.sections.linearised,
  appliesTo: ({ measurands }) => Object.values(measurands).some((measurand) => measurand.linearised !== undefined),
  render(element, record, name, { reading, width }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const found = measurand.linearised;
    if (found === undefined) {
      element.replaceChildren(html("p", {}, messages.linearised.absent));
      return;
    }
    element.replaceChildren(
      html("p", { class: "sentence", id: "linearised-sentence" }, sentenceNodes(found.sentence, record)),
      found.kind === "unavailable" || found.curve.length === 0
        ? ""
        : threeDensitiesPicture(measurand, found, record, width),
      found.kind === "unavailable"
        ? ""
        : wideTable(linearisedTable(measurand, found, record, speech), "linearised-table"),
    );
  },
};
