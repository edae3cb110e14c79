import { html } from "../draw/node.ts";
import { tableNode, wideTable } from "../draw/table.ts";
import { speech, messages } from "../language.ts";
import { readable } from "../../present/readable.ts";
import { comparisonTable } from "../../present/tables/comparison.ts";
import { resultTable } from "../../present/tables/results.ts";
import type { Panel } from "./panel.ts";

/** Both methods' figures in full, and the comparison that the verdict rests on. */
export const figures: Panel = {
  id: "figures",
  title: messages.panels.figures,
  concludes: true,
  appliesTo: () => true,
  render(element, record, name, { reading }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    element.replaceChildren(
      html(
        "div",
        { class: "figures" },
        tableNode(resultTable(measurand, record, speech), "results", "side-by-side"),
        wideTable(comparisonTable(measurand, speech), "comparison"),
      ),
    );
  },
};
