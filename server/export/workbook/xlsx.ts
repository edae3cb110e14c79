import { strToU8, zipSync, type Zippable } from "fflate";
import type { XMLBuilder } from "xmlbuilder2/lib/interfaces.js";
import { xmlDocument, xmlText } from "../xml.ts";
import { guarded } from "../../../viewer/present/csv.ts";
import { place, type Cell, type Sheet, type Style } from "./cell.ts";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships";
const DOCUMENT = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const CONTENT = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/** Index of each look in the list of `stylesXml`. */
const STYLES: Readonly<Record<Style, number>> = { title: 1, head: 2, caution: 3, wrapped: 4 };

/** Longest text of a cell (ECMA-376-1, 18.3.1.96 with the limits of common spreadsheets). */
const LONGEST = 32_767;

export interface About {
  readonly title: string;
  readonly creator: string;
  /** ISO 8601, or `null` if it is not known. */
  readonly created: string | null;
}

/**
 * Sheets as the bytes of an XLSX file (ECMA-376): formulas with the value they had when it was written, so that a program
 * that computes nothing shows figures too; one that computes does so when it opens the file.
 *
 * A text that a spreadsheet would take for a formula gets an apostrophe before it. The same sheets give the same bytes.
 */
export function xlsxBytes(sheets: readonly Sheet[], about: About): Uint8Array<ArrayBuffer> {
  const parts: Record<string, XMLBuilder> = {
    "[Content_Types].xml": contentTypes(sheets),
    "_rels/.rels": relations([
      [`${DOCUMENT}/officeDocument`, "xl/workbook.xml"],
      ["http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties", "docProps/core.xml"],
    ]),
    "docProps/core.xml": core(about),
    "xl/workbook.xml": workbookXml(sheets),
    "xl/_rels/workbook.xml.rels": relations([
      ...sheets.map((_, i) => [`${DOCUMENT}/worksheet`, `worksheets/sheet${i + 1}.xml`] as const),
      [`${DOCUMENT}/styles`, "styles.xml"],
    ]),
    "xl/styles.xml": stylesXml(),
  };
  sheets.forEach((sheet, i) => (parts[`xl/worksheets/sheet${i + 1}.xml`] = sheetXml(sheet)));
  const files: Zippable = {};
  for (const [path, xml] of Object.entries(parts)) files[path] = strToU8(xml.end());
  // One moment for every file: the bytes depend on the content alone.
  return zipSync(files, { mtime: "1980-01-02" });
}

function contentTypes(sheets: readonly Sheet[]): XMLBuilder {
  const root = xmlDocument().ele("http://schemas.openxmlformats.org/package/2006/content-types", "Types");
  root.ele("Default", {
    Extension: "rels",
    ContentType: "application/vnd.openxmlformats-package.relationships+xml",
  });
  root.ele("Default", { Extension: "xml", ContentType: "application/xml" });
  const override = (path: string, type: string): void =>
    void root.ele("Override", { PartName: path, ContentType: type });
  override("/xl/workbook.xml", `${CONTENT}.sheet.main+xml`);
  override("/xl/styles.xml", `${CONTENT}.styles+xml`);
  override("/docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml");
  sheets.forEach((_, i) => override(`/xl/worksheets/sheet${i + 1}.xml`, `${CONTENT}.worksheet+xml`));
  return root;
}

function relations(targets: readonly (readonly [type: string, target: string])[]): XMLBuilder {
  const root = xmlDocument().ele(RELATIONS, "Relationships");
  targets.forEach(([Type, Target], i) => root.ele("Relationship", { Id: `rId${i + 1}`, Type, Target }));
  return root;
}

function core({ title, creator, created }: About): XMLBuilder {
  const [DC, TERMS] = ["http://purl.org/dc/elements/1.1/", "http://purl.org/dc/terms/"];
  const root = xmlDocument()
    .ele("http://schemas.openxmlformats.org/package/2006/metadata/core-properties", "cp:coreProperties")
    .att("http://www.w3.org/2000/xmlns/", "xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance");
  root.ele(DC, "dc:title").txt(xmlText(title));
  root.ele(DC, "dc:creator").txt(xmlText(creator));
  if (created !== null)
    root
      .ele(TERMS, "dcterms:created")
      .att("http://www.w3.org/2001/XMLSchema-instance", "xsi:type", "dcterms:W3CDTF")
      .txt(xmlText(created));
  return root;
}

function workbookXml(sheets: readonly Sheet[]): XMLBuilder {
  const root = xmlDocument().ele(MAIN, "workbook").att("http://www.w3.org/2000/xmlns/", "xmlns:r", DOCUMENT);
  const list = root.ele("sheets");
  sheets.forEach(({ name }, i) =>
    list.ele("sheet", { name: xmlText(name), sheetId: i + 1 }).att(DOCUMENT, "r:id", `rId${i + 1}`),
  );
  root.ele("calcPr", { fullCalcOnLoad: 1 });
  return root;
}

function stylesXml(): XMLBuilder {
  const root = xmlDocument().ele(MAIN, "styleSheet");
  const fonts = root.ele("fonts", { count: 3 });
  for (const [size, bold] of [
    [11, false],
    [14, true],
    [11, true],
  ] as const) {
    const font = fonts.ele("font");
    if (bold) font.ele("b");
    font.ele("sz", { val: size });
    font.ele("name", { val: "Calibri" });
  }
  const fills = root.ele("fills", { count: 3 });
  fills.ele("fill").ele("patternFill", { patternType: "none" });
  fills.ele("fill").ele("patternFill", { patternType: "gray125" });
  fills.ele("fill").ele("patternFill", { patternType: "solid" }).ele("fgColor", { rgb: "FFFFF2CC" });
  root.ele("borders", { count: 1 }).ele("border");
  root.ele("cellStyleXfs", { count: 1 }).ele("xf", { fontId: 0, fillId: 0, borderId: 0 });
  const looks = root.ele("cellXfs", { count: 5 });
  const look = (fontId: number, fillId: number, wrapped: boolean): void => {
    const xf = looks.ele("xf", { fontId, fillId, borderId: 0, xfId: 0, applyFont: 1, applyFill: 1 });
    if (wrapped) xf.att("applyAlignment", "1").ele("alignment", { wrapText: 1, vertical: "top" });
  };
  look(0, 0, false);
  look(1, 0, false);
  look(2, 0, true);
  look(0, 2, true);
  look(0, 0, true);
  return root;
}

function sheetXml({ widths, rows }: Sheet): XMLBuilder {
  const root = xmlDocument().ele(MAIN, "worksheet");
  // Printed across, a sheet as wide as the paper.
  root.ele("sheetPr").ele("pageSetUpPr", { fitToPage: 1 });
  if (widths.length > 0) {
    const columns = root.ele("cols");
    widths.forEach((width, i) => columns.ele("col", { min: i + 1, max: i + 1, width, customWidth: 1 }));
  }
  const data = root.ele("sheetData");
  rows.forEach((cells, row) => {
    const line = data.ele("row", { r: row + 1 });
    cells.forEach((cell, column) => writeCell(line, cell, place(column, row)));
  });
  root.ele("pageSetup", { paperSize: 9, orientation: "landscape", fitToWidth: 1, fitToHeight: 0 });
  return root;
}

function writeCell(line: XMLBuilder, cell: Cell, r: string): void {
  if (cell === null) return;
  const style = cell.style === undefined ? {} : { s: STYLES[cell.style] };
  if ("text" in cell) {
    if (cell.text === "") return;
    line
      .ele("c", { r, ...style, t: "inlineStr" })
      .ele("is")
      .ele("t")
      .att("http://www.w3.org/XML/1998/namespace", "xml:space", "preserve")
      .txt(xmlText(guarded(cell.text).slice(0, LONGEST)));
    return;
  }
  if ("number" in cell) {
    line
      .ele("c", { r, ...style })
      .ele("v")
      .txt(String(cell.number));
    return;
  }
  const holder = line.ele("c", { r, ...style, ...(typeof cell.value === "string" ? { t: "str" } : {}) });
  holder.ele("f").txt(xmlText(cell.formula));
  holder.ele("v").txt(xmlText(String(cell.value)));
}

/** Names of sheets as a workbook takes them: 31 characters at most, without its own signs, each once. */
export function sheetNames(wanted: readonly string[]): string[] {
  const taken = new Set<string>();
  return wanted.map((name) => {
    const plain =
      name
        .replace(/[[\]:*?/\\']/g, " ")
        .slice(0, 31)
        .trim() || "Sheet";
    let found = plain;
    for (let n = 2; taken.has(found.toLowerCase()); n++) found = `${plain.slice(0, 31 - String(n).length - 1)} ${n}`;
    taken.add(found.toLowerCase());
    return found;
  });
}
