import type { BudgetField, BudgetTableOptions } from "../../models/index.ts";
import type { TableReading } from "../../viewer/api/budget-tables.ts";
import { Fault, refused } from "../errors.ts";
import { loadBudgetStudy } from "../intake/budget-study.ts";
import { watchChunks } from "../intake/watched-file.ts";
import type { RouteRegistration } from "./route.ts";

/** A budget has some dozens of rows; a spreadsheet of it may carry pictures. */
const MOST_BYTES = 5_000_000;

/** What a column may be taken for. */
const FIELDS = [
  "quantity",
  "symbol",
  "estimate",
  "unit",
  "stated",
  "standard",
  "howStated",
  "distribution",
  "divisor",
  "sensitivity",
  "degreesOfFreedom",
  "contribution",
  "source",
] as const satisfies readonly BudgetField[];

/**
 * A budget kept as a table (the body is the file's bytes, CSV or XLSX by its name), read but not run: what each column
 * and row was taken for, and the study it makes. `?columns=C:divisor,D:source` settles columns whose headings say
 * nothing.
 */
export const budgetTables: RouteRegistration = (router) => {
  router.post("/budget-tables", "read", async (request, response) => {
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
  let bytes = 0;
  for await (const chunk of chunks) {
    bytes += chunk.length;
    if (bytes > MOST_BYTES) throw new Fault("too-large", `${name} is larger than ${MOST_BYTES} bytes.`);
    yield chunk;
  }
}

function columnsOf(text: unknown): Record<string, BudgetField> {
  const accepted = `columns and what they hold, such as C:divisor,D:source; fields are ${FIELDS.join(", ")}`;
  if (typeof text !== "string") throw refused("columns", text, accepted);
  const columns: Record<string, BudgetField> = {};
  for (const part of text.split(",").filter((piece) => piece !== "")) {
    const [column, name] = part.split(":");
    const field = FIELDS.find((known) => known === name);
    if (!/^[A-Z]{1,3}$/.test(column!) || field === undefined) throw refused("columns", part, accepted);
    columns[column!] = field;
  }
  return columns;
}
