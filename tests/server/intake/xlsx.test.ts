import { strToU8, zipSync } from "fflate";
import writeXlsx from "write-excel-file/node";
import { describe, expect, it } from "vitest";
import { readSeries } from "../../../models/index.ts";
import { loadBudgetTable, openTable } from "../../../server/intake/index.ts";
import { fileOf } from "./source.ts";
import { LONG } from "../../setup/long.ts";

type Value = string | number | Date | null;

const sheet = (rows: readonly (readonly Value[])[]) =>
  rows.map((cells) =>
    cells.map((value) =>
      value === null ? null : value instanceof Date ? { value, type: Date, format: "yyyy-mm-dd hh:mm:ss" } : { value },
    ),
  );

async function workbook(...sheets: readonly (readonly [string, readonly (readonly Value[])[]])[]): Promise<Uint8Array> {
  return writeXlsx(sheets.map(([name, rows]) => ({ sheet: name, data: sheet(rows) })) as never).toBuffer();
}

const log: readonly (readonly Value[])[] = [
  ["time", "A / °C", "B / °C"],
  [new Date(Date.UTC(2026, 2, 2, 8, 0, 0)), 72.001, 72.002],
  [new Date(Date.UTC(2026, 2, 2, 8, 0, 10)), 72.003, null],
  [new Date(Date.UTC(2026, 2, 2, 8, 0, 20)), 72.005, 72.006],
];
const request = { thermometers: { A: {}, B: {} } };

/** A file of one entry each, as any program could pack it. */
const hostile = (files: Readonly<Record<string, string | Uint8Array>>): Buffer =>
  Buffer.from(
    zipSync(
      Object.fromEntries(
        Object.entries(files).map(([path, content]) => [
          path,
          typeof content === "string" ? strToU8(content) : content,
        ]),
      ),
    ),
  );

describe("XLSX", () => {
  it("gives the log that a text file of it gives", async () => {
    const { logs } = await readSeries(openTable(fileOf("log.xlsx", await workbook(["log", log]), 1000)), request);
    expect(Array.from(logs[0]!.values)).toEqual([72.001, 72.003, 72.005]);
    expect(Array.from(logs[1]!.values)).toEqual([72.002, 72.006]);
    expect(Array.from(logs[0]!.times, (time) => time - logs[0]!.times[0]!)).toEqual([0, 10, 20]);
    const text = "time,A / °C,B / °C\n2026-03-02T08:00:00,72.001,72.002\n";
    const { logs: fromText } = await readSeries(openTable(fileOf("log.csv", text)), request);
    expect(logs[0]!.times[0]).toBe(fromText[0]!.times[0]);
  });

  it("asks which of several sheets", async () => {
    const bytes = await workbook(["first", [["nothing"]]], ["second", log]);
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes, 1000)), request)).rejects.toThrow(
      /log\.xlsx, sheet: got "2 sheets: \\"first\\", \\"second\\""/,
    );
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes, 1000), "third"), request)).rejects.toThrow(
      /sheet: got "third"; expected one of "first", "second"/,
    );
    expect((await readSeries(openTable(fileOf("log.xlsx", bytes, 1000), "second"), request)).readings).toBe(5);
  });

  it("names row and column of a cell that cannot be used", async () => {
    const bytes = await workbook(["log", [...log, [new Date(Date.UTC(2026, 2, 2, 8, 0, 30)), "warm", 1]]]);
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes, 1000)), request)).rejects.toThrow(
      /log\.xlsx, row 5, column A \/ °C: got "warm"/,
    );
  });

  it("refuses what is no spreadsheet, or would unpack beyond measure", async () => {
    await expect(readSeries(openTable(fileOf("log.xlsx", "time,A\n")), request)).rejects.toThrow(
      /no packed spreadsheet/,
    );
    const bytes = Buffer.from(await workbook(["log", log]));
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes.subarray(0, 300), 1000)), request)).rejects.toThrow(
      /no packed spreadsheet/,
    );
    // The size an entry claims to unpack to, in the central directory (APPNOTE 4.3.12, 24 bytes in).
    const directory = bytes.readUInt32LE(bytes.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6])) + 16);
    bytes.writeUInt32LE(4_000_000_000, directory + 24);
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes, 1000)), request)).rejects.toThrow(/damaged data/);
  });

  it.each([
    ["a cell in the last column", '<row r="1"><c r="XFD1"><v>1</v></c></row>', /a column XFD/],
    ["a cell in the last row", '<row r="1048576"><c r="A1048576"><v>1</v></c></row>', /a row 1048576/],
    ["a far corner", '<row r="20000"><c r="RA20000"><v>1</v></c></row>', /20000 rows of 469 columns/],
    ["a cell whose place is written in entities", '<row r="1"><c r="&#88;FD1"><v>1</v></c></row>', /such as B7/],
    ["a sign inside an attribute", `<row r="1"><c t=">" r="XFD1"><v>1</v></c></row>`, /a column XFD/],
  ])("refuses %s: the reader would fill in every empty cell before it", async (_, row, message) => {
    const bytes = hostile({ "xl/worksheets/sheet1.xml": `<worksheet><sheetData>${row}</sheetData></worksheet>` });
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes, 1000)), request)).rejects.toThrow(message);
  });

  it("refuses what unpacks beyond measure, whatever size it states", LONG, async () => {
    const bytes = hostile({ "xl/worksheets/sheet1.xml": new Uint8Array(201_000_000) });
    expect(bytes.length).toBeLessThan(1_000_000);
    const directory = bytes.readUInt32LE(bytes.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6])) + 16);
    bytes.writeUInt32LE(500, directory + 24);
    await expect(readSeries(openTable(fileOf("log.xlsx", bytes, 1000)), request)).rejects.toThrow(/bytes unpacked/);
  });

  it("reads a budget", async () => {
    const bytes = await workbook([
      "budget",
      [
        ["Budget", null, null],
        ["Quantity", "Estimate", "Standard uncertainty"],
        ["a", 1, 3],
        ["b", 2, 4],
      ],
    ]);
    const { reading } = await loadBudgetTable(fileOf("budget.xlsx", bytes, 1000));
    expect(reading.combined).toBe(5);
    expect(reading).toMatchObject({ headingRow: 2, study: { title: "Budget", model: "additive" } });
  });
});
