import { html } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import { sentenceNodes } from "../draw/symbol.ts";
import { fillText } from "../../present/fill.ts";
import { speech, messages } from "../language.ts";
import { probabilityText, whole } from "../numbers.ts";
import { readable } from "../../present/readable.ts";
import { symbolText } from "../../present/symbol.ts";
import { sensitivityTable } from "../../present/tables/sensitivity.ts";
import type { Panel } from "./panel.ts";

/** What each input does without the assumption that the model is linear, if the study states the analysis. */
export const sensitivity: Panel = {
  id: "sensitivity",
  title: messages.panels.sensitivity,
  appliesTo: ({ measurands }) => Object.values(measurands).some(({ sensitivity: found }) => found != null),
  render(element, record, name, { reading }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const found = measurand.sensitivity;
    const words = messages.sensitivity;
    if (found === null) {
      element.replaceChildren(html("p", {}, words.absent));
      return;
    }
    element.replaceChildren(
      html("p", {}, sentenceNodes(found.sentence, record)),
      wideTable(sensitivityTable(measurand, found, record, speech), "sensitivity-table"),
      html(
        "p",
        { class: "note" },
        `${words.meaning} ${fillText(words.pictureCaption, {
          confidence: probabilityText(found.confidence),
          u: "u",
          y: symbolText(measurand.symbol),
        })} ${fillText(words.estimators, { ...found.estimators, trials: whole(found.trials) })}`,
      ),
    );
  },
};
