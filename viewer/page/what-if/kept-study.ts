import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { labelText } from "../../present/pictures/label.ts";
import { changeLabels } from "./change-words.ts";
import { changedStudy, type StudyChange } from "./study-change.ts";

/**
 * The changed study as a document of its own, which says what was changed.
 *
 * @param named what the change was named, or ""
 */
export function keptStudy(record: RunRecord, change: StudyChange, named: string): Readonly<Record<string, unknown>> {
  const study = changedStudy(record, change);
  const changes = changeLabels(record, change, messages).map(labelText);
  return {
    ...study,
    title:
      named === ""
        ? fillText(messages.whatIfPanel.title, { title: study.title })
        : fillText(messages.whatIfPanel.titleNamed, { title: study.title, name: named }),
    notes: [study.notes, fillText(messages.whatIfPanel.notes, { changes: changes.join("; ") })]
      .filter((part) => part !== undefined)
      .join(" "),
  };
}
