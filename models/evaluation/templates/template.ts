import type { Cell } from "../table/index.ts";

/** What a template is filled in for; `program` for what the command line and programs take. */
export type TemplateFor = "budget" | "fill-in" | "survey" | "readings" | "program";

/**
 * A file to fill in: complete as it stands, so that it can be opened unchanged to see where each figure goes. All of its
 * figures are invented.
 */
export interface Template {
  /** Without ending; files that belong together name one another by it. */
  readonly name: string;
  readonly for: TemplateFor;
  /** What it is a template for, with its article, to stand in a sentence. */
  readonly title: string;
  /** A table becomes CSV and XLSX, a document JSON. */
  readonly content:
    | { readonly kind: "table"; readonly rows: readonly (readonly Cell[])[] }
    | { readonly kind: "document"; readonly document: Readonly<Record<string, unknown>> };
}
