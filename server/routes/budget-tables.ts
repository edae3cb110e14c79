import type { BudgetField, BudgetTableOptions } from "../../models/index.ts";
import { BUDGET_FIELDS, budgetTableQuery, tableReading, type TableReading } from "../../viewer/api/budget-tables.ts";
import { Fault, refused } from "../errors.ts";
import { loadBudgetStudy } from "../intake/budget-study.ts";
import { watchChunks } from "../intake/watched-file.ts";
import { bytes, json, type Described } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** A budget has some dozens of rows; a spreadsheet of it may carry pictures. */
const MOST_BYTES = 5_000_000;

const READ = {
  id: "readBudgetTable",
  summary: "A budget kept as a table, read but not run",
  description:
    "What each column and row was taken for, and the study it makes. The body is the bytes of a CSV or XLSX file.",
  query: budgetTableQuery,
  body: bytes,
  answers: { 200: { description: "The table as it was understood.", content: json(tableReading) } },
} satisfies Described;

/**
 * A budget kept as a table (the body is the file's bytes, CSV or XLSX by its name), read but not run: what each column
 * and row was taken for, and the study it makes. `?columns=C:divisor,D:source` settles columns whose headings say
 * nothing.
 */
export const budgetTables: RouteRegistration = (router) => {
  router.post("/budget-tables", "read", READ, async (request, response) => {
    const { name, title, sheet, columns } = request.query;
    if (typeof name !== "string" || name === "")
      throw refused("name", name, "the file's name, which ends in .csv or .xlsx");
    if (request.is("application/json"))
      throw refused("", "application/json", "the bytes of a CSV or XLSX file, sent as application/octet-stream");
    const options: { -readonly [K in keyof BudgetTableOptions]?: BudgetTableOptions[K] } & { sheet?: string } = {};
    if (typeof title === "string" && title.trim() !== "") options.title = title.trim();
    if (typeof sheet === "string" && sheet !== "") options.sheet = sheet;
    if (columns !== undefined) options.columns = columnsOf(columns);
    const { reading } = await loadBudgetStudy(watchChunks(name, atMost(request, name)), options);
    response.json(reading satisfies TableReading);
  });
};

async function* atMost(chunks: AsyncIterable<Uint8Array>, name: string): AsyncGenerator<Uint8Array> {
  let read = 0;
  for await (const chunk of chunks) {
    read += chunk.length;
    if (read > MOST_BYTES) throw new Fault("too-large", `${name} is larger than ${MOST_BYTES} bytes.`);
    yield chunk;
  }
}

function columnsOf(text: unknown): Record<string, BudgetField> {
  const accepted = `columns and what they hold, such as C:divisor,D:source; fields are ${BUDGET_FIELDS.join(", ")}`;
  if (typeof text !== "string") throw refused("columns", text, accepted);
  const columns: Record<string, BudgetField> = {};
  for (const part of text.split(",").filter((piece) => piece !== "")) {
    const [column, name] = part.split(":");
    const field = BUDGET_FIELDS.find((known) => known === name);
    if (!/^[A-Z]{1,3}$/.test(column!) || field === undefined) throw refused("columns", part, accepted);
    columns[column!] = field;
  }
  return columns;
}
