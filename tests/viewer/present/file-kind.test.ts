// What a file is that holds no table: the same in English and German, and as sentences that read.
import { describe, expect, test } from "vitest";
import { acceptedBeside, isWorkbook, otherFile } from "../../../viewer/present/file-kind.ts";
import { translated } from "../../../viewer/present/messages/phrases/index.ts";

const packed = (entry: string): string => `PK\u0003\u0004\u0014\0\0\0${entry}`;

describe("a file that holds no table", () => {
  // First bytes: ISO 32000-1, 7.5.2; ISO/IEC 15948, 5.2; ITU-T T.81, B.1.1; APPNOTE 4.3.7; common practice for the rest.
  test.each([
    ["scan.pdf", "%PDF-1.7", "a PDF document"],
    ["bath.png", "\u0089PNG", "a picture"],
    ["bath.jpg", "\u00ff\u00d8\u00ff\u00e0", "a picture"],
    ["bath.heic", "\0\0\0\u0018ftypheic", "a picture"],
    ["old.xls", "\u00d0\u00cf\u0011\u00e0", "an older format"],
    ["letter.rtf", "{\\rtf1", "a word processor"],
    ["letter.docx", packed("word/document.xml"), "a word processor"],
    ["budget.ods", packed("mimetypeapplication/vnd.oasis.opendocument.spreadsheet"), "another format (ODS)"],
    ["several.zip", packed("a.csv"), "a packed file"],
    ["dcc.xml", "<?xml version='1.0'?><dcc:digitalCalibrationCertificate>", "a digital calibration certificate"],
    ["page.html", "<!doctype html><html>", "a page or a document in XML"],
  ])("%s is told, in both languages", (name, start, is) => {
    const other = otherFile(start, name);
    expect(other?.is).toContain(is);
    for (const text of [other!.is, other!.instead]) expect(translated(text, "de"), text).not.toBeNull();
    const accepted = acceptedBeside("a budget as a table (CSV, XLSX or pasted cells)", other!.instead);
    // "got …; expected …" has a colon before it already.
    expect(accepted).toMatch(/^[^:]+\. \p{Lu}/u);
    expect(translated(accepted, "de"), accepted).toMatch(/^ein Budget als Tabelle[^:]+\. \p{Lu}/u);
  });

  test.each([
    ["budget.csv", "Quantity;u\n"],
    ["bmp.csv", "BM,1\n"],
    ["budget.xlsx", packed("[Content_Types].xml")],
  ])("%s may hold one", (name, start) => {
    expect(otherFile(start, name)).toBeNull();
  });

  test("a workbook is known by its content, not by its name", () => {
    expect(isWorkbook(packed("xl/workbook.xml"))).toBe(true);
    expect(isWorkbook(packed("word/document.xml"))).toBe(false);
  });
});
