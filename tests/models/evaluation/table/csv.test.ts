import { csvParse } from "d3-dsv";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CsvParser } from "../../../../models/index.ts";
import { openTable } from "../../../../server/intake/index.ts";
import { fileOf } from "../../../server/intake/source.ts";

async function cellsOf(content: string | Uint8Array, size = 5): Promise<{ row: number; cells: readonly unknown[] }[]> {
  const rows: { row: number; cells: readonly unknown[] }[] = [];
  for await (const piece of openTable(fileOf("log.csv", content, size)).pieces) rows.push(...piece);
  return rows;
}

describe("a quote left open", () => {
  it("is refused after a million characters of short lines, in time that grows with their number alone", () => {
    const parser = new CsvParser("log.csv");
    parser.push("a,b\n");
    expect(() => parser.push(`1,"${'x""y\n'.repeat(200_000)}`)).toThrow(
      /log\.csv, row 2: .*more than 1000000 characters/s,
    );
  });

  it("is refused at the row where it was opened, in pieces as well", () => {
    const parser = new CsvParser("log.csv");
    parser.push('a,b\n1,"x\n');
    for (let i = 0; i < 1000; i++) expect(parser.push("2,3\n")).toEqual([]);
    expect(() => parser.end()).toThrow(/row 2.*a quote that is not closed/s);
  });
});

describe("CSV (RFC 4180)", () => {
  it.each([
    [
      "commas",
      "a,b\n1,2\n",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "semicolons and decimal commas",
      "a;b\n1,5;2\n",
      [
        ["a", "b"],
        ["1,5", "2"],
      ],
    ],
    [
      "tabs",
      "a\tb;c\n1\t2\n",
      [
        ["a", "b;c"],
        ["1", "2"],
      ],
    ],
    [
      "CRLF",
      "a,b\r\n1,2\r\n",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "no line end at the end",
      "a,b\n1,2",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "quotes",
      'a,b\n"x,y","say ""hi"""\n',
      [
        ["a", "b"],
        ["x,y", 'say "hi"'],
      ],
    ],
    [
      "line ends in quotes",
      'a,b\n"x\ny",2\n3,4\n',
      [
        ["a", "b"],
        ["x\ny", "2"],
        ["3", "4"],
      ],
    ],
    [
      "empty cells",
      "a,b,c\n,,\n1,,\n",
      [
        ["a", "b", "c"],
        ["", "", ""],
        ["1", "", ""],
      ],
    ],
    [
      "empty quoted cell at the end",
      'a,b\n1,""\n"",\n',
      [
        ["a", "b"],
        ["1", ""],
        ["", ""],
      ],
    ],
    [
      "comments and blank lines above",
      "# logger 3\n\na,b\n1,2\n",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
  ])("%s", async (_, text, expected) => {
    expect((await cellsOf(text)).map(({ cells }) => cells)).toEqual(expected);
  });

  it("counts rows by the lines of the file", async () => {
    expect((await cellsOf('# one\na,b\n"x\n\ny",2\n\n3,4\n')).map(({ row }) => row)).toEqual([2, 3, 7]);
  });

  it.each([
    ["UTF-8 with a byte-order mark", new Uint8Array([0xef, 0xbb, 0xbf, ...new TextEncoder().encode("t / °C\n1\n")])],
    [
      "UTF-16, little end first",
      new Uint8Array([
        0xff,
        0xfe,
        ...[..."t / °C\n1\n"].flatMap((c) => [c.codePointAt(0)! & 255, c.codePointAt(0)! >> 8]),
      ]),
    ],
    [
      "UTF-16, big end first",
      new Uint8Array([
        0xfe,
        0xff,
        ...[..."t / °C\n1\n"].flatMap((c) => [c.codePointAt(0)! >> 8, c.codePointAt(0)! & 255]),
      ]),
    ],
    ["Windows-1252", new Uint8Array([..."t / °C\n1\n"].map((c) => c.codePointAt(0)!))],
  ])("%s", async (_, bytes) => {
    for (const size of [1, 3, 64]) expect((await cellsOf(bytes, size))[0]).toEqual({ row: 1, cells: ["t / °C"] });
  });

  it("property: any table comes back, however it is cut; d3-dsv reads the same", async () => {
    const cell = fc.string({ unit: fc.constantFrom("a", "1", ",", '"', "\n", " ", "ü", "°"), maxLength: 6 });
    const table = fc
      .integer({ min: 2, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 8 }),
      );
    await fc.assert(
      fc.asyncProperty(table, fc.integer({ min: 4, max: 40 }), async (rows, size) => {
        const headings = rows[0]!.map((_, i) => `h${i}`);
        const text = [headings, ...rows]
          .map((cells) => cells.map((value) => `"${value.replaceAll('"', '""')}"`).join(","))
          .join("\n");
        const found = (await cellsOf(text, size)).map(({ cells }) => cells);
        expect(found).toEqual([headings, ...rows]);
        expect(csvParse(text).map((row) => headings.map((heading) => row[heading]))).toEqual(rows);
      }),
      { seed: 17, numRuns: 150 },
    );
  });

  it.each([
    ["a quote left open", 'a,b\n1,"x\n2,3\n', /log\.csv, row 2.*a quote that is not closed/],
    ["a quote inside a cell", 'a,b\n1,x"y\n', /log\.csv, row 2, cell 2: got "x\\"y"/],
    ["text after a closing quote", 'a,b\n"x"y,1\n', /log\.csv, row 2, cell 1/],
    ["a binary file", new Uint8Array([1, 2, 0, 4, 5]), /bytes of value 0/],
    ["a packed file", new Uint8Array([0x50, 0x4b, 3, 4, 5]), /a name that ends in \.xlsx/],
  ])("refuses %s", async (_, content, message) => {
    await expect(cellsOf(content as string)).rejects.toThrow(message);
  });

  it("does not let an open quote swallow a file", () => {
    const parser = new CsvParser("log.csv");
    expect(() => {
      for (let i = 0; i < 100; i++) parser.push(`"${"x".repeat(20_000)}`);
    }).toThrow(/is a quote left open/);
  });

  it("refuses a file that is not there", async () => {
    expect(() => openTable("no-such-file.csv")).toThrow(/no-such-file\.csv: got "no such file"/);
  });
});
