import { readDocument, statedMappingSchema, type BudgetSheet, type StatedMapping } from "../../models/index.ts";
import { budgetTableQuery, tableReading, type TableReading } from "../../viewer/api/budget-tables.ts";
import { Fault, refused } from "../errors.ts";
import { loadBudgetStudy } from "../intake/budget-study.ts";
import { watchChunks } from "../intake/watched-file.ts";
import { bytes as anyBytes, json, type Described } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** A budget has some dozens of rows; a spreadsheet of it may carry pictures. */
const MOST_BYTES = 5_000_000;

/** Most of a mapping, which names each row at most once. */
const MOST_MAPPING_BYTES = 1_000_000;
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
} satisfies Described;

/**
 * A budget kept as a table, read but not run: what each column and row was taken for, what it leaves open, and the study
 * it makes. The body is the file's bytes (CSV, XLSX or pasted text). With `?mapping=SIZE` its first SIZE bytes are what
 * the reader has stated of the layout, as JSON; `?title=`, `?symbol=`, `?meaning=` and `?unit=` describe the result.
 */
export const budgetTables: RouteRegistration = (router) => {
  router.post("/budget-tables", "read", READ, async (request, response) => {
    const { name } = request.query;
    // Evidence of a study names it: a longer one would make a study that cannot be run.
    if (typeof name !== "string" || name === "" || name.length > 200)
      throw refused("name", name, "the file's name, of at most 200 characters");
    if (request.is("application/json"))
      throw refused("", "application/json", "the bytes of a CSV or XLSX file, sent as application/octet-stream");
    const text = (field: string): Record<string, string> => {
      const value = request.query[field];
      return typeof value === "string" && value.trim() !== "" ? { [field]: value.trim().slice(0, 500) } : {};
    };
    const { mapping, file } = await split(request, name, request.query["mapping"]);
    const {
      reading,
      sheets,
      file: trace,
    } = await loadBudgetStudy(watchChunks(name, file), {
      mapping,
      ...text("title"),
      measurand: { ...text("symbol"), ...text("meaning"), ...text("unit") },
    });
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
  size: unknown,
): Promise<{ readonly mapping: StatedMapping; readonly file: AsyncIterable<Uint8Array> }> {
  const accepted = `the number of bytes of the mapping, at most ${MOST_MAPPING_BYTES}`;
  const bytes = size === undefined ? 0 : Number(size);
  if (!Number.isSafeInteger(bytes) || bytes < 0 || bytes > MOST_MAPPING_BYTES) throw refused("mapping", size, accepted);
  const parts: Uint8Array[] = [];
  for await (const part of atMost(body, name, MOST_BYTES + bytes)) parts.push(part);
  const whole = Buffer.concat(parts);
  if (whole.length < bytes) throw refused("mapping", size, `${accepted}; the body has ${whole.length}`);
  return {
    mapping: bytes === 0 ? {} : mappingIn(whole.subarray(0, bytes).toString("utf8")),
    file: one(whole.subarray(bytes)),
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

async function* one(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

async function* atMost(chunks: AsyncIterable<Uint8Array>, name: string, most: number): AsyncGenerator<Uint8Array> {
  let bytes = 0;
  for await (const chunk of chunks) {
    bytes += chunk.length;
    if (bytes > most) throw new Fault("too-large", `${name} is larger than ${MOST_BYTES} bytes.`);
    yield chunk;
  }
}
