import type { Cell, Template } from "../../models/index.ts";
import { csvText } from "../../viewer/present/csv.ts";

/** Endings of the files that a template can be had as, with their media types. */
const TYPES = {
  csv: "text/csv; charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  json: "application/json",
} as const;
/** The media types of templates, without what follows them. */
export const TEMPLATE_TYPES: readonly string[] = Object.values(TYPES).map((type) => type.split(";")[0]!);
type Ending = keyof typeof TYPES;

/** A template as a file. */
export interface TemplateFile {
  readonly type: string;
  readonly bytes: Uint8Array;
}

const endingsOf = ({ content }: Template): readonly Ending[] => (content.kind === "table" ? ["csv", "xlsx"] : ["json"]);

/** The names of the files that a template can be had as. */
export const filesOf = (template: Template): readonly string[] =>
  endingsOf(template).map((ending) => `${template.name}.${ending}`);

/** A template as the file of that name, or `null` if it has none. */
export async function writeTemplate(template: Template, file: string): Promise<TemplateFile | null> {
  const ending = endingsOf(template).find((known) => file === `${template.name}.${known}`);
  if (ending === undefined) return null;
  return { type: TYPES[ending], bytes: await bytesOf(template.content, ending) };
}

async function bytesOf(content: Template["content"], ending: Ending): Promise<Uint8Array> {
  if (content.kind === "document") return Buffer.from(`${JSON.stringify(content.document, null, 2)}\n`);
  if (ending === "xlsx") return workbook(content.rows);
  // The mark at the beginning has a spreadsheet read the letters of other alphabets as UTF-8.
  return Buffer.from(`\u{feff}${csvText(content.rows.map((cells) => cells.map((cell) => String(cell ?? ""))))}`);
}

/** The writer is loaded with the first workbook that is asked for. */
async function workbook(rows: readonly (readonly Cell[])[]): Promise<Uint8Array> {
  const { default: writeXlsx } = await import("write-excel-file/node");
  const data = rows.map((cells) => cells.map((value) => (value === null ? null : { value })));
  const columns = rows[0]!.map((_, i) => ({ width: widthOf(rows, i) }));
  return writeXlsx([{ sheet: "Template", data, columns }] as never).toBuffer();
}

const widthOf = (rows: readonly (readonly Cell[])[], i: number): number =>
  Math.max(8, ...rows.map((cells) => String(cells[i] ?? "").length + 2));
