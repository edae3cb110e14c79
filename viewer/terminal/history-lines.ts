import type { HistoryEvaluation } from "../../models/index.ts";
import { ENGLISH } from "../present/statement.ts";
import {
  historyEntriesTable,
  historySentences,
  historyStatementsTable,
  historyTable,
} from "../present/tables/history.ts";
import { presentedPart, type Layout } from "./lines.ts";
import { wrap } from "./table.ts";

/** A history for a terminal. */
export const historyLines = (title: string, found: HistoryEvaluation, layout: Layout): string[] => [
  layout.styles.bold(wrap(title, layout.width)),
  wrap(found.subject, layout.width),
  ...presentedPart(layout, historyTable(found, ENGLISH)),
  "",
  ...found.quantities.flatMap((quantity) =>
    historySentences(quantity, ENGLISH).map((text) => wrap(text, layout.width)),
  ),
  wrap(ENGLISH.messages.history.rule, layout.width),
  ...found.quantities.flatMap((quantity) => [
    ...presentedPart(layout, historyEntriesTable(quantity, ENGLISH)),
    ...presentedPart(layout, historyStatementsTable(quantity, ENGLISH)),
  ]),
];
