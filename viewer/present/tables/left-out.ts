import type { RunRecord } from "../../../engine/index.ts";
import type { Speech } from "../statement.ts";
import type { Row, Table } from "./table.ts";

/** The model's optional inputs that the study takes as zero, each with the reason it states; `null` if there are none. */
export function leftOutTable(
  { leftOut = [] }: Pick<RunRecord, "leftOut">,
  { messages, translate }: Speech,
): Table | null {
  if (leftOut.length === 0) return null;
  const words = messages.leftOut;
  return {
    caption: words.caption,
    columns: [
      { head: words.quantity, kind: "head" },
      { head: words.standing, kind: "text" },
      { head: words.reason, kind: "text" },
    ],
    rows: leftOut.map(({ symbol, meaning, because }): Row => ({
      head: [{ symbol }],
      note: translate(meaning),
      cells: [because === null ? words.unexplained : words.negligible, because ?? messages.notApplicable],
    })),
  };
}
