import type { LaboratoriesEvaluation, LaboratoryComparison } from "../../models/index.ts";
import { ENGLISH } from "../present/statement.ts";
import { consistencySentences, equivalenceTable, referenceTable } from "../present/tables/equivalence.ts";
import { presentedPart, type Layout } from "./lines.ts";
import { wrap } from "./table.ts";

/** A comparison between laboratories for a terminal. */
export const equivalenceLines = (
  found: LaboratoriesEvaluation,
  comparison: LaboratoryComparison,
  layout: Layout,
): string[] => [
  layout.styles.bold(wrap(comparison.title, layout.width)),
  wrap(comparison.quantity, layout.width),
  ...presentedPart(layout, referenceTable(found, comparison, ENGLISH)),
  "",
  ...consistencySentences(found, comparison, ENGLISH).map((sentence) => wrap(sentence, layout.width)),
  ...presentedPart(layout, equivalenceTable(found, comparison, ENGLISH)),
];
