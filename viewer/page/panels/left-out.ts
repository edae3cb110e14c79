import { html } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { speech, messages } from "../language.ts";
import { leftOutTable } from "../../present/tables/left-out.ts";
import type { Panel } from "./panel.ts";

/** The checklist of optional inputs that the study takes as zero, and why. */
export const leftOut: Panel = {
  id: "left-out",
  title: messages.leftOut.title,
  appliesTo: (record) => leftOutTable(record, speech) !== null,
  render(element, record) {
    element.replaceChildren(
      html("p", {}, messages.leftOut.intro),
      wideTable(leftOutTable(record, speech)!, "left-out-table"),
    );
  },
};
