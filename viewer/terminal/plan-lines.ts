import type { Confirmation, Plan } from "../../models/index.ts";
import { ENGLISH } from "../present/statement.ts";
import {
  aloneTable,
  frontierTable,
  gainingInputsTable,
  halvingsTable,
  planPointsTable,
  planRemarks,
  planSentences,
} from "../present/tables/planning.ts";
import { presentedPart, type Layout } from "./lines.ts";
import { wrap } from "./table.ts";

/** A plan and what its run confirmed, for a terminal. */
export const planLines = (title: string, plan: Plan, confirmation: Confirmation | null, layout: Layout): string[] => [
  layout.styles.bold(wrap(title, layout.width)),
  "",
  ...planSentences(plan, confirmation, ENGLISH).map((text) => wrap(text, layout.width)),
  ...presentedPart(layout, planPointsTable(plan, confirmation, ENGLISH)),
  "",
  ...planRemarks(plan, ENGLISH).map((text) => wrap(text, layout.width)),
  ...presentedPart(layout, frontierTable(plan, ENGLISH)),
  ...presentedPart(layout, aloneTable(plan, ENGLISH)),
  ...presentedPart(layout, halvingsTable(plan, ENGLISH)),
  ...presentedPart(layout, gainingInputsTable(plan, ENGLISH)),
];
