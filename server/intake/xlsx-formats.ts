import type { Entry } from "./zip.ts";
import { unpack } from "./zip.ts";

/** What a cell's number format adds to its number: the percent sign, or a unit in quotation marks. */
export interface CellFormat {
  /** The number shown is the one kept times this. */
  readonly times: number;
  readonly unit: string;
}

/** Formats of a workbook's cells by sheet, in the sheets' order, and by address such as B7; cells without one are left out. */
export type SheetFormats = readonly ReadonlyMap<string, CellFormat>[];

const ATTRIBUTES = String.raw`((?:"[^"]*"|'[^']*'|[^<>"'])*)`;
/** Attributes of all tags of a name, one after the other: a sheet has millions of cells. */
function* tagsOf(xml: string, name: string): Generator<string> {
  for (const [, attributes] of xml.matchAll(new RegExp(`<(?:\\w+:)?${name}(?=[\\s/>])${ATTRIBUTES}`, "g")))
    yield attributes!;
}

const ENTITIES: Readonly<Record<string, string>> = { quot: '"', amp: "&", lt: "<", gt: ">", apos: "'" };
const unescaped = (text: string): string =>
  text.replace(/&(?:#(\d{1,7})|#x([\da-f]{1,6})|(\w+));/gi, (whole, decimal?: string, hex?: string, name?: string) => {
    if (name !== undefined) return ENTITIES[name] ?? whole;
    const code = Number.parseInt(decimal ?? hex!, decimal === undefined ? 16 : 10);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });

const attribute = (attributes: string, name: string): string | null => {
  const found = new RegExp(`\\s${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`).exec(attributes);
  return found === null ? null : unescaped(found[1] ?? found[2]!);
};

/** Formats that are known by their number alone (ECMA-376-1, 18.8.30): of them, those in per cent. */
const BUILT_IN: Readonly<Record<string, string>> = { "9": "0%", "10": "0.00%" };

/** What a format code shows besides the number (ECMA-376-1, 18.8.31); `null` for nothing. */
export function formatOf(code: string): CellFormat | null {
  // Its first section is that of positive numbers.
  const positive = /^(?:"[^"]*"|\\.|[^;"\\])*/.exec(code)![0];
  const literals = [...positive.matchAll(/"([^"]*)"|\\(.)/g)].map(([, quoted, single]) => quoted ?? single!);
  const rest = positive.replace(/"[^"]*"|\\.|\[[^\]]*\]|[_*]./g, "");
  if (rest.includes("%")) return { times: 100, unit: "%" };
  if (!/[0#?]/.test(rest)) return null;
  const unit = literals.join("").replace("±", "").trim();
  return unit === "" ? null : { times: 1, unit };
}

/**
 * Formats that change what a person reads in a cell: a workbook keeps 0.0005 for a cell that shows 0.05 %, and 5 for one
 * that shows 5.0 mK.
 *
 * @param entries of the workbook, within bounds
 * @param most bytes that one of its files may unpack to
 */
export function formatsOf(entries: readonly Entry[], most: number): SheetFormats {
  const text = (path: string): string => {
    const entry = entries.find((one) => one.path.replace(/^\//, "") === path);
    const content = entry === undefined ? "" : unpack(entry, most);
    return typeof content === "string" ? "" : content.toString("utf8");
  };
  const styles = text("xl/styles.xml");
  const codes = new Map(
    [...tagsOf(styles, "numFmt")].map(
      (tag) => [attribute(tag, "numFmtId"), attribute(tag, "formatCode") ?? ""] as const,
    ),
  );
  // Never looked for by a pattern that could begin anew at every place of a file made for that.
  const from = Math.max(0, styles.search(/<(?:\w+:)?cellXfs[\s>]/));
  const cellXfs = styles.slice(from, Math.max(from, styles.lastIndexOf("cellXfs>")));
  const byStyle = [...tagsOf(cellXfs, "xf")].map((tag) => {
    const id = attribute(tag, "numFmtId") ?? "0";
    return formatOf(codes.get(id) ?? BUILT_IN[id] ?? "");
  });
  if (byStyle.every((format) => format === null)) return [];
  const targets = new Map(
    [...tagsOf(text("xl/_rels/workbook.xml.rels"), "Relationship")].map(
      (tag) => [attribute(tag, "Id"), attribute(tag, "Target") ?? ""] as const,
    ),
  );
  // Several sheets may name one file.
  const read = new Map<string, ReadonlyMap<string, CellFormat>>();
  return [...tagsOf(text("xl/workbook.xml"), "sheet")].map((tag) => {
    const target = targets.get(/\s\w+:id\s*=\s*["']([^"']*)["']/.exec(tag)?.[1] ?? null) ?? "";
    const path = target.startsWith("/") ? target.slice(1) : `xl/${target}`;
    const known = read.get(path) ?? cellsOf(text(path), byStyle);
    read.set(path, known);
    return known;
  });
}

function cellsOf(xml: string, byStyle: readonly (CellFormat | null)[]): ReadonlyMap<string, CellFormat> {
  const found = new Map<string, CellFormat>();
  for (const cell of tagsOf(xml, "c")) {
    const style = attribute(cell, "s");
    const format = style === null ? null : byStyle[Number(style)];
    const address = format == null ? null : attribute(cell, "r");
    if (address !== null) found.set(address, format!);
  }
  return found;
}
