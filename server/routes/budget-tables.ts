import { readDocument, statedMappingSchema, type BudgetSheet, type StatedMapping } from "../../models/index.ts";
import { budgetTableQuery, tableReading, type TableReading } from "../../viewer/api/budget-tables.ts";
import { Fault, refused } from "../errors.ts";
import { bytes as anyBytes, json, type Described } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

/** A budget has some dozens of rows; a spreadsheet of it may carry pictures. */
const MOST_BYTES = 5_000_000;
/** Rows and columns that a page draws. */
const DRAWN_ROWS = 300;
const DRAWN_COLUMNS = 60;
const DRAWN_LETTERS = 300;

const READ = {
  id: "readBudgetTable",
  summary: "A budget kept as a table, read but not run",
  description:
    "What each column and row was taken for, what it leaves open, and the study it makes. The body is the bytes of a CSV or XLSX file or of pasted cells, after those of a mapping if its size is given.",
  query: budgetTableQuery,
  body: anyBytes,
  answers: { 200: { description: "The table as far as it was understood.", content: json(tableReading) } },
  faults: ["busy", "worker-lost"],
} satisfies Described;

/**
 * A budget kept as a table, read but not run: what each column and row was taken for, what it leaves open, and the study
 * it makes. The body is the file's bytes (CSV, XLSX or pasted text). With `?mapping=SIZE` its first SIZE bytes are what
 * the reader has stated of the layout, as JSON; `?title=`, `?symbol=`, `?meaning=` and `?unit=` describe the result.
 */
export const budgetTables: RouteRegistration = (router, { reader }) => {
  router.post("/budget-tables", "read", READ, async (request, response) => {
    const { name, mapping: size = 0, ...words } = bodyOf(budgetTableQuery, request.query);
    if (request.is("application/json"))
      throw refused("", "application/json", "the bytes of a CSV or XLSX file, sent as application/octet-stream");
    const text = (field: keyof typeof words): Record<string, string> => {
      const { [field]: value = "" } = words;
      return value === "" ? {} : { [field]: value };
    };
    const { mapping, file } = await split(request, name, size);
    const {
      reading,
      sheets,
      file: trace,
    } = await reader.budget(
      { name, bytes: file },
      { mapping, ...text("title"), measurand: { ...text("symbol"), ...text("meaning"), ...text("unit") } },
      leaving(response),
    );
    response.json({ ...reading, file: trace, ...drawn(sheets, reading.mapping.sheet) } satisfies TableReading);
  });
};

function drawn(sheets: readonly BudgetSheet[], name: string | null): Pick<TableReading, "sheets" | "rows" | "more"> {
  const { rows } = sheets.find((sheet) => sheet.name === name) ?? sheets[0]!;
  return {
    sheets: sheets.flatMap((sheet) => sheet.name ?? []),
    rows: rows.slice(0, DRAWN_ROWS).map(({ row, cells }) => ({
      row,
      cells: cells.slice(0, DRAWN_COLUMNS).map((cell) => (cell === null ? "" : String(cell).slice(0, DRAWN_LETTERS))),
    })),
    more: Math.max(0, rows.length - DRAWN_ROWS),
  };
}

/** Parts the body: what the reader has stated, if its size is given, and the file. */
async function split(
  body: AsyncIterable<Uint8Array>,
  name: string,
  size: number,
): Promise<{ readonly mapping: StatedMapping; readonly file: Uint8Array }> {
  const parts: Uint8Array[] = [];
  for await (const part of atMost(body, name, MOST_BYTES + size)) parts.push(part);
  const whole = Buffer.concat(parts);
  if (whole.length < size)
    throw refused("mapping", size, `the number of bytes of the mapping; the body has ${whole.length}`);
  return {
    mapping: size === 0 ? {} : mappingIn(whole.subarray(0, size).toString("utf8")),
    file: whole.subarray(size),
  };
}

function mappingIn(text: string): StatedMapping {
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    throw refused("mapping", text.slice(0, 60), "JSON");
  }
  return readDocument(statedMappingSchema, document);
}

async function* atMost(chunks: AsyncIterable<Uint8Array>, name: string, most: number): AsyncGenerator<Uint8Array> {
  let bytes = 0;
  for await (const chunk of chunks) {
    bytes += chunk.length;
    if (bytes > most) throw new Fault("too-large", `${name} is larger than ${MOST_BYTES} bytes.`);
    yield chunk;
  }
}
