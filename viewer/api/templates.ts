import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

/** A file to fill in, as a list offers it. */
export const listedTemplate = z
  .strictObject({
    for: z.enum(["budget", "fill-in", "survey", "readings", "program"]),
    title: z.string().describe("What it is a template for, to stand in a sentence: the log of a survey"),
    files: z
      .array(z.string())
      .describe("Names it is served under, at /api/templates/FILE: CSV and XLSX of a table, JSON of a description"),
  })
  .meta({ id: "ListedTemplate" });
export type ListedTemplate = Immutable<z.output<typeof listedTemplate>>;

/** `GET /api/templates` */
export const templateList = z.array(listedTemplate);
export type TemplateList = Immutable<z.output<typeof templateList>>;
