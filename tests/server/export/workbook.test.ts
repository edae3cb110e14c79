// The workbook as any reader finds it: its figures, its formulas, what a spreadsheet could take for a formula.
import { strFromU8, unzipSync } from "fflate";
import { expect, test } from "vitest";
import type { ReportedRecord, RunRecord } from "../../../engine/index.ts";
import { workbookOf } from "../../../server/export/workbook/workbook.ts";
import { sheetNames } from "../../../server/export/workbook/xlsx.ts";
import { runExample } from "../../read-example.ts";
import { holdBudget, sheetsOf } from "./workbook-cells.ts";

const made = new Map<string, RunRecord>();
/** An example's record, made once. */
function recordOf(id: string): RunRecord {
  const record = made.get(id) ?? runExample(id, { trials: 10_000 });
  made.set(id, record);
  return record;
}

test.each([
  "published/end-gauge",
  "published/impedance",
  "published/comparison-loss-10-correlated",
  "verdicts/few-readings",
  "harrowfen/steriliser-134",
])("%s: the figures of every cell are those of the record", async (id) => {
  const record = recordOf(id);
  const sheets = await sheetsOf(workbookOf(record, "en"));
  const names = Object.keys(record.measurands);
  expect(sheets).toHaveLength(names.length + 1);
  names.forEach((name, i) => holdBudget(sheets[i]!.rows, record, name, { relative: 1e-12, quantile: 1e-12, kept: 0 }));
});

test("the same record gives the same bytes", () => {
  const record = recordOf("published/end-gauge");
  expect(workbookOf(record, "en")).toEqual(workbookOf(record, "en"));
});

test("the sheet of the record has cautions first, the digests, seed and version", async () => {
  const record = recordOf("harrowfen/steriliser-134");
  const rows = (await sheetsOf(workbookOf(record, "en"))).at(-1)!.rows;
  const words = rows.map((row) => row.join(" "));
  expect(record.cautions.length).toBeGreaterThan(0);
  for (const [i, caution] of record.cautions.entries()) expect(words[2 + i]).toContain(caution);
  expect(words.join("\n")).toContain(record.generator.seed);
  expect(words.join("\n")).toContain(record.engine.version);
  expect(words.join("\n")).toMatch(/Digest of the record [0-9a-f]{64}/);
});

test("in German the words change, the figures do not", async () => {
  const record = recordOf("published/end-gauge");
  const [english, german] = [
    (await sheetsOf(workbookOf(record, "en")))[0]!,
    (await sheetsOf(workbookOf(record, "de")))[0]!,
  ];
  const numbersIn = (rows: readonly (readonly unknown[])[]): unknown[] =>
    rows.flat().filter((cell) => typeof cell === "number");
  expect(numbersIn(german.rows)).toEqual(numbersIn(english.rows));
  expect(german.rows.flat()).toContain("Erweiterungsfaktor k");
});

test("a text that begins like a formula stays a text, now and as CSV; what XML cannot hold is left out", async () => {
  const record = recordOf("published/end-gauge");
  const [name, input] = Object.entries(record.inputs)[0]!;
  const hostile = {
    ...record,
    study: { ...record.study, title: "=HYPERLINK(1)", notes: "@SUM(A1)\u0000\u0008 <b>&amp;</b>" },
    inputs: { ...record.inputs, [name]: { ...input, source: "+1+cmd|' /C calc'!A0", meaning: "-2" } },
  } as ReportedRecord;
  const bytes = workbookOf(hostile, "en");
  const texts = (await sheetsOf(bytes)).flatMap(({ rows }) => rows.flat()).filter((cell) => typeof cell === "string");
  expect(texts.filter((cell) => /^[=+@-]/.test(cell))).toEqual([]);
  for (const guarded of ["'=HYPERLINK(1)", "'+1+cmd|' /C calc'!A0", "'-2", "'@SUM(A1) <b>&amp;</b>"])
    expect(texts).toContain(guarded);
  const formulas = strFromU8(unzipSync(bytes)["xl/worksheets/sheet1.xml"]!).match(/<f>[^<]*<\/f>/g)!;
  expect(formulas.filter((formula) => /cmd|HYPERLINK/.test(formula))).toEqual([]);
});

test("names of sheets are short, plain and each there once", () => {
  expect(sheetNames(["a".repeat(40), "a".repeat(41), "x/y:[z]", ""])).toEqual([
    "a".repeat(31),
    `${"a".repeat(29)} 2`,
    "x y  z",
    "Sheet",
  ]);
});
