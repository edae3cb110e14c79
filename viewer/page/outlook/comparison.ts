import type { OpenedOutlook } from "../../api/outlooks.ts";
import { consistencySentences, equivalenceTable, referenceTable } from "../../present/tables/equivalence.ts";
import { html } from "../draw/node.ts";
import { speech } from "../language.ts";
import { paragraphs, tablesOf } from "./parts.ts";

type Opened = Extract<OpenedOutlook, { readonly kind: "comparison" }>;
type Found = Parameters<typeof referenceTable>[0];
type Comparison = Parameters<typeof referenceTable>[1];

/** A comparison of laboratories: reference values, consistency, degrees of equivalence. */
export function comparisonPart(opened: Opened): HTMLElement {
  const [found, comparison] = [opened.found as unknown as Found, opened.comparison as unknown as Comparison];
  const table = tablesOf("comparison", opened.title);
  return html(
    "div",
    {},
    html("p", {}, comparison.quantity),
    table(referenceTable(found, comparison, speech)),
    paragraphs(consistencySentences(found, comparison, speech)),
    table(equivalenceTable(found, comparison, speech)),
  );
}
