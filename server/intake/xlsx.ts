import readXlsx from "read-excel-file/node";
import { InputError, refuse, show } from "../../engine/index.ts";
import type { Cell, TableRow } from "../../models/index.ts";

/** Largest spreadsheet that is opened, packed and unpacked: the whole of it has to be held. */
const MOST_PACKED = 50_000_000;
const MOST_UNPACKED = 400_000_000;

export const MOST_SPREADSHEET_BYTES = MOST_PACKED;

/**
 * Rows of one sheet of an XLSX file. Dates become text such as 2026-03-02T08:15:00.000.
 *
 * @param sheet name of the sheet; needed where the file has several
 * @throws {InputError} no spreadsheet, several sheets and none named, or one that would unpack beyond measure
 */
export async function xlsxRows(bytes: Buffer, name: string, sheet: string | undefined): Promise<readonly TableRow[]> {
  const unpacked = unpackedSize(bytes);
  if (unpacked === null) refuse(name, "no packed spreadsheet", "an XLSX file that is whole");
  if (unpacked! > MOST_UNPACKED)
    refuse(name, `${unpacked} bytes unpacked`, `at most ${MOST_UNPACKED}: save large logs as CSV`);
  const sheets = await open(bytes, name);
  const names = sheets.map(({ sheet: title }) => title);
  if (sheet === undefined && sheets.length > 1) {
    refuse(
      `${name}, sheet`,
      `${sheets.length} sheets: ${names.map(show).join(", ")}`,
      "the name of one of them, as log.sheet of the description or an option",
    );
  }
  const chosen = sheet === undefined ? sheets[0] : sheets.find(({ sheet: title }) => title === sheet);
  if (chosen === undefined) return refuse(`${name}, sheet`, sheet, `one of ${names.map(show).join(", ")}`);
  return chosen.data.map((cells, i) => ({ row: i + 1, cells: cells.map(plainCell) }));
}

async function open(bytes: Buffer, name: string) {
  try {
    return await readXlsx(bytes);
  } catch (error) {
    if (error instanceof InputError) throw error;
    return refuse(name, error instanceof Error ? error.message : error, "an XLSX file that is whole");
  }
}

function plainCell(cell: unknown): Cell {
  if (cell instanceof Date) {
    // A spreadsheet keeps times as fractions of a day: whole seconds come back a millisecond off.
    const second = Math.round(cell.getTime() / 1000) * 1000;
    const moment = Math.abs(cell.getTime() - second) <= 2 ? new Date(second) : cell;
    return moment.toISOString().replace("Z", "");
  }
  if (typeof cell === "string" || typeof cell === "number" || typeof cell === "boolean") return cell;
  return null;
}

/**
 * What a ZIP file says it unpacks to, from its central directory (APPNOTE 6.3.9, 4.3.12 and 4.3.16); `null` where it is
 * no ZIP file. Read before anything is unpacked.
 */
function unpackedSize(bytes: Buffer): number | null {
  let end = bytes.length - 22;
  while (end >= 0 && end >= bytes.length - 22 - 65535 && bytes.readUInt32LE(end) !== 0x06054b50) end--;
  if (end < 0 || bytes.readUInt32LE(end) !== 0x06054b50) return null;
  const entries = bytes.readUInt16LE(end + 10);
  let at = bytes.readUInt32LE(end + 16);
  let total = 0;
  for (let i = 0; i < entries; i++) {
    if (at + 46 > bytes.length || bytes.readUInt32LE(at) !== 0x02014b50) return null;
    total += bytes.readUInt32LE(at + 24);
    at += 46 + bytes.readUInt16LE(at + 28) + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return total;
}
