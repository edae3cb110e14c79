// Files that a budget may come in, and those that are something else.
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import writeXlsx from "write-excel-file/node";
import { describe, expect, test } from "vitest";
import { openSheets } from "../../../server/intake/sheets.ts";
import { fileOf } from "./source.ts";

const packed = (entries: Readonly<Record<string, string>>): Uint8Array =>
  zipSync(Object.fromEntries(Object.entries(entries).map(([name, text]) => [name, strToU8(text)])), { level: 0 });

describe("what is no table says what it is and where it would fit", () => {
  test.each<[string, string | Uint8Array, RegExp]>([
    ["certificate.pdf", "%PDF-1.7\n", /a PDF document.*paste them here/],
    ["bath.jpg", Uint8Array.from([0xff, 0xd8, 0xff, 0xe0]), /a picture.*type them into a new study/],
    ["bath.png", Uint8Array.from([0x89, 0x50, 0x4e, 0x47]), /a picture/],
    ["old.xls", Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), /an older format.*save it as XLSX or CSV/],
    ["budget.ods", packed({ mimetype: "application/vnd.oasis.opendocument.spreadsheet" }), /ODS.*Save it as XLSX/],
    ["report.docx", packed({ "word/document.xml": "<w/>" }), /word processor.*paste/],
    ["several.zip", packed({ "a.csv": "a,b" }), /a packed file.*Unpack it/],
    ["dcc.xml", '<?xml version="1.0"?><dcc:digitalCalibrationCertificate>', /digital calibration certificate/],
    ["empty.csv", "\n\n", /nothing.*a row of headings/],
  ])("%s", async (name, content, message) => {
    await expect(openSheets(fileOf(name, content, 1000))).rejects.toThrow(message);
  });
});

describe("texts", () => {
  test.each([
    [
      "a title without separators above the table",
      "Budget of the bath\nQuantity;u\nA;1,5\n",
      [["Budget of the bath"], ["Quantity", "u"], ["A", "1,5"]],
    ],
    [
      "a separator that the first line states",
      "sep=;\nQuantity;u\nA;1,5\n",
      [
        ["Quantity", "u"],
        ["A", "1,5"],
      ],
    ],
    [
      "a table drawn with strokes",
      "| Quantity | u |\n|---|---|\n| A | 1.5 |\n",
      [
        ["Quantity", "u"],
        ["A", "1.5"],
      ],
    ],
    [
      "columns set apart by spaces",
      "Quantity      u\nA drift     1,5\n",
      [
        ["Quantity", "u"],
        ["A drift", "1,5"],
      ],
    ],
    [
      "a quote that parts nothing",
      'Quantity,Note\nA,5" tube\n',
      [
        ["Quantity", "Note"],
        ["A", '5" tube'],
      ],
    ],
  ])("%s", async (_, text, cells) => {
    const { sheets } = await openSheets(fileOf("b.csv", text));
    expect(sheets[0]!.rows.map((row) => row.cells)).toEqual(cells);
  });

  test("of a long sheet the first rows are read, and that is said", async () => {
    const { sheets, notes } = await openSheets(fileOf("log.csv", "t;T\n".repeat(3000), 1000));
    expect(sheets[0]!.rows).toHaveLength(2000);
    expect(notes).toEqual([expect.stringMatching(/of the 3000 rows of log\.csv the first 2000 were read: a log/)]);
  });
});

test("formulas that a program wrote without computing them are counted, whatever the file is called", async () => {
  const data = [
    ["Quantity", "u"],
    ["A", 3],
    ["B", 4],
  ].map((row) => row.map((value) => ({ value })));
  const entries = unzipSync(new Uint8Array(await writeXlsx([{ sheet: "b", data }] as never).toBuffer()));
  const path = "xl/worksheets/sheet1.xml";
  const xml = strFromU8(entries[path]!).replace(/(<c r="B3"[^>]*>)<v>4<\/v>/, "$1<f>B2+1</f>");
  expect(xml).toContain("<f>");
  const bytes = zipSync({ ...entries, [path]: strToU8(xml) });
  const { sheets, notes } = await openSheets(fileOf("budget.xlsm", bytes, 1000));
  expect(sheets[0]!.rows[2]!.cells).toEqual(["B", null]);
  expect(notes[0]).toMatch(/one cell has a formula without its value/);
});

test("a number whose cell shows a percentage or a unit is read as its cell shows it (ECMA-376-1, 18.8.31)", async () => {
  const cell = (value: string | number, format?: string) => ({ value, ...(format === undefined ? {} : { format }) });
  const bytes = await writeXlsx([
    {
      sheet: "Budget",
      data: [
        [cell("Quantity"), cell("Uncertainty"), cell("Price")],
        [cell("Shunt"), cell(0.0005, "0.00%"), cell(3, '0.00" EUR"')],
        [cell("Lead"), cell(5, '0.0" mΩ";-0.0" mΩ"'), cell(2, "0.000")],
        [cell("Bath"), cell(2.5, '"± "0.0\\ \\m\\K'), cell(1, "[Red]0.0")],
      ],
    },
  ]).toBuffer();
  const { sheets } = await openSheets(fileOf("b.xlsx", new Uint8Array(bytes), 1000));
  expect(sheets[0]!.rows.map(({ cells }) => cells)).toEqual([
    ["Quantity", "Uncertainty", "Price"],
    ["Shunt", "0.05 %", 3],
    ["Lead", "5 mΩ", 2],
    ["Bath", "2.5 mK", 1],
  ]);
});

test("formats that were made to cost time are passed over", async () => {
  const bytes = await writeXlsx([
    {
      sheet: "Budget",
      data: [
        [{ value: "Quantity" }, { value: "u" }],
        [{ value: "A" }, { value: 0.05, format: "0%" }],
      ],
    },
  ]).toBuffer();
  const entries = unzipSync(new Uint8Array(bytes));
  const styles = strFromU8(entries["xl/styles.xml"]!);
  entries["xl/styles.xml"] = strToU8(
    styles.replace("</styleSheet>", `<!-- ${"<cellXfs ".repeat(200_000)}--></styleSheet>`),
  );
  const { sheets } = await openSheets(fileOf("b.xlsx", zipSync(entries), 100_000));
  expect(sheets[0]!.rows).toHaveLength(2);
});
