import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import { fieldName } from "../field-name.ts";
import { words } from "../later-words.ts";
import type { Column } from "./columns.ts";
import type { Draft } from "./draft.ts";
import { isNewKey, type Row } from "./row.ts";
import type { Pasted } from "./spreadsheet.ts";

/** What stands for a text that a study at hand leaves out. */
export const takenAs = ({ name }: Column, { key, symbol }: Row, { results }: Draft): string =>
  isNewKey(key)
    ? ""
    : name === "meaning" && symbol === ""
      ? fieldName(key)
      : name === "unit"
        ? results[0]?.unit || "1"
        : "";

/** What became of rows that were pasted. */
export function pastedWords({ count, unknown, lost, unread }: Pasted): string {
  const part = (list: readonly string[], what: string): string =>
    list.length === 0 ? "" : ` ${what}: ${[...new Set(list)].map((one) => `“${one}”`).join(", ")}.`;
  return (
    counted(words.studyTable.pasted, count) +
    part(unknown, words.studyTable.unknownColumns) +
    part(unread, words.studyTable.unreadHows) +
    (lost === 0 ? "" : fillText(words.studyTable.lost, { n: String(lost) }))
  );
}
