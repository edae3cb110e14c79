// @module-tag long
// Time against size of every reader: four times as much takes about four times as long, whatever the file holds.
import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import {
  certificateSchema,
  evaluateCertificate,
  evaluateReadings,
  evaluateSurvey,
  readDocument,
  readingsSchema,
  surveySchema,
  type ReadingsDescription,
} from "../../../models/index.ts";
import { loadBudgetTable, readIndications, readSurveyLog } from "../../../server/intake/load.ts";
import { readDsi } from "../../../server/intake/d-si.ts";
import { parseJson } from "../../../server/intake/json.ts";
import type { FileSource } from "../../../server/intake/source.ts";

/** Bytes as they come from a file or a request: 256 kB at a time. */
const PIECE = 1 << 18;
function asFile(name: string, content: string | Uint8Array): FileSource {
  const bytes = typeof content === "string" ? Buffer.from(content) : content;
  return {
    name,
    chunks: (async function* () {
      for (let from = 0; from < bytes.length; from += PIECE) yield bytes.subarray(from, from + PIECE);
    })(),
  };
}

const lines = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => line(i)).join("\n");
const HEADINGS = "quantity,estimate,unit,standard uncertainty,distribution";
const budget = (rows: string): Promise<unknown> => loadBudgetTable(asFile("b.csv", `${HEADINGS}\n${rows}\n`));

const sheet = (rows: string): Uint8Array =>
  zipSync({
    "xl/worksheets/sheet1.xml": strToU8(
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${rows}</sheetData></worksheet>`,
    ),
    "xl/workbook.xml": strToU8(
      '<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets></workbook>',
    ),
    "xl/_rels/workbook.xml.rels": strToU8(
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
    ),
  });
const cells = (i: number, texts: readonly string[]): string =>
  `<row r="${i + 1}">${texts.map((text, j) => `<c r="${"ABCDE"[j]}${i + 1}" t="inlineStr"><is><t>${text}</t></is></c>`).join("")}</row>`;

const DCC = (inside: string): string => `<a xmlns:si="https://ptb.de/si">${inside}</a>`;
const REAL = "<si:real><si:value>23.0</si:value><si:unit>\\degreecelsius</si:unit></si:real>";

const SURVEY = readDocument(surveySchema, {
  title: "Growing",
  log: { file: "log.csv" },
  thermometers: { A: {}, B: {} },
  positions: { centre: { depth: 280, radius: 0 }, high: { depth: 260, radius: 0 } },
  reference: "centre",
  calibrationMinutes: 20,
  arrangement: "anywhere",
  steps: [{ from: 0, to: 100_000_000, at: { A: "high", B: "centre" } }],
});
const survey = async (log: string): Promise<unknown> =>
  evaluateSurvey(SURVEY, (await readSurveyLog(SURVEY, () => asFile("log.csv", log))).logs);
const wave = (i: number): string => (72 + 0.01 * Math.sin(i / 7)).toFixed(5);

const READINGS: ReadingsDescription = readDocument(readingsSchema, {
  title: "Growing",
  log: { file: "log.csv" },
  reference: "R",
  channels: { R: { unit: "°C" }, P: { unit: "°C" } },
});
const readings = async (log: string): Promise<unknown> => {
  const { indications } = await readIndications(READINGS, () => asFile("log.csv", log));
  return evaluateReadings(READINGS, indications);
};

const point = (i: number) => ({
  temperature: i / 100,
  correction: 0.001,
  expandedUncertainty: 0.01,
  coverageFactor: 2,
});
const certificate = (points: number, history: number) =>
  evaluateCertificate(
    readDocument(certificateSchema, {
      thermometer: "A",
      certificate: "1",
      calibrated: "2025-09-15",
      intervalMonths: 12,
      points: Array.from({ length: points }, (_, i) => point(i)),
      history: Array.from({ length: history }, (_, i) => ({
        calibrated: new Date(Date.UTC(2024, 0, 1) - 86_400_000 * i).toISOString().slice(0, 10),
        points: [0, 0.01, 0.04].map((at) => ({ temperature: at, correction: 0.001 })),
      })),
    }),
    0.005,
    "2026-01-01",
    undefined,
  );

/** What is read: its content of a size, and the smaller size, within what the reader takes. Refusals take time too. */
const CASES: readonly (readonly [name: string, size: number, read: (size: number) => unknown])[] = [
  ["CSV: a sound budget", 450, (n) => budget(lines(n, (i) => `t${i},1,K,0.1,normal`))],
  ["CSV: rows that cannot be used", 450, (n) => budget(lines(n, () => "t,x,K,y,z"))],
  ["CSV: one long row", 50_000, (n) => budget("a,".repeat(n))],
  ["CSV: a quote that stays open", 60_000, (n) => budget(`"${"a\n".repeat(n)}`)],
  ["CSV: a quote that stays open, doubled ones in it", 40_000, (n) => budget(`"${'""a\n'.repeat(n)}`)],
  ["CSV: misplaced quotes", 40_000, (n) => budget('a,"\n'.repeat(n))],
  ["CSV: nothing but line ends", 400_000, (n) => budget("\n".repeat(n))],
  [
    "XLSX: a sound budget",
    450,
    (n) =>
      loadBudgetTable(
        asFile(
          "b.xlsx",
          sheet(lines(n, (i) => cells(i, i === 0 ? HEADINGS.split(",") : [`t${i}`, "1", "K", "0.1", "normal"]))),
        ),
      ),
  ],
  ["XLSX: what unpacks to much", 300_000, (n) => loadBudgetTable(asFile("b.xlsx", sheet(" ".repeat(n))))],
  ["XLSX: rows that never end", 5_000, (n) => loadBudgetTable(asFile("b.xlsx", sheet("<row>".repeat(n))))],
  ["XML: quantities", 4000, (n) => readDsi(asFile("a.xml", DCC(REAL.repeat(n))))],
  ["XML: elements that stay open", 50_000, (n) => readDsi(asFile("a.xml", "<a>".repeat(n)))],
  ["XML: deep elements", 500, (n) => readDsi(asFile("a.xml", DCC("<b>".repeat(n) + "</b>".repeat(n))))],
  ["XML: a comment that stays open", 500_000, (n) => readDsi(asFile("a.xml", `<a><!--${"-".repeat(n)}`))],
  ["XML: attributes", 4000, (n) => readDsi(asFile("a.xml", DCC(`<b ${lines(n, (i) => `a${i}="1"`)}/>`)))],
  ["JSON: a long list", 500_000, (n) => parseJson(`[${"1,".repeat(n)}1]`, "a.json")],
  ["JSON: one that breaks at its end", 200_000, (n) => parseJson(`[${'"a\\n",'.repeat(n)}`, "a.json")],
  ["JSON: lists that stay open", 200_000, (n) => parseJson("[".repeat(n), "a.json")],
  [
    "log: a survey",
    10_000,
    (n) => survey(`time / s,A / °C,B / °C\n${lines(n, (i) => `${10 * i},${wave(i)},${wave(i + 3)}`)}\n`),
  ],
  [
    "log: rows that cannot be read",
    40_000,
    (n) => survey(`time / s,A / °C,B / °C\n${lines(n, (i) => `${10 * i},x,y`)}\n`),
  ],
  [
    "log: a clock that goes back at every row",
    20_000,
    (n) => survey(`time / s,A / °C,B / °C\n${lines(n, (i) => `${10 * (n - i)},72,72`)}\n`),
  ],
  [
    "readings: comparisons",
    1000,
    (n) =>
      readings(
        `time,channel,value,unit\n${lines(4 * n, (i) => `${15 * i},${i % 4 === 0 || i % 4 === 3 ? "R" : "P"},${wave(i)},°C`)}\n`,
      ),
  ],
  ["certificate: points", 2000, (n) => certificate(n, 2)],
  ["certificate: earlier calibrations", 1000, (n) => certificate(5, n)],
];

/** Seconds of the processor that work takes: another program on the machine takes none of them. */
async function processorTime(work: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  try {
    await work();
  } catch {
    // Refused in words: tests beside this one hold them.
  }
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

const ROUNDS = 5;
/** Between linear with all its logarithms (4.5) and quadratic (16), with room for caches that no longer hold the content. */
const MOST = 9;
/** Below this, collecting and compiling weigh more than reading: the size is grown until reading is seen. */
const LEAST_SECONDS = 0.004;

describe("four times the size takes about four times as long", () => {
  test.each(CASES)("%s", async (_name, size, read) => {
    const least = async (n: number): Promise<number> => {
      let found = Infinity;
      for (let round = 0; round < ROUNDS; round++) found = Math.min(found, await processorTime(() => read(n)));
      return found;
    };
    // Once each, so that what is compiled is compiled.
    await processorTime(() => read(size));
    await processorTime(() => read(4 * size));
    const [small, large] = [await least(size), await least(4 * size)];
    expect(
      large / Math.max(small, LEAST_SECONDS),
      `${(1000 * small).toFixed(1)} ms, ${(1000 * large).toFixed(1)} ms`,
    ).toBeLessThan(MOST);
  });
});
