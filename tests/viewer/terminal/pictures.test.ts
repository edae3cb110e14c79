// The pictures of a run in a terminal: bars and cumulative shares, and the endpoints within and beyond the marks of δ.
import pico from "picocolors";
import { describe, expect, test } from "vitest";
import { de } from "../../../viewer/present/messages/de/index.ts";
import { numbersWith } from "../../../viewer/present/numbers.ts";
import { readable } from "../../../viewer/present/readable.ts";
import { ENGLISH, type Speech } from "../../../viewer/present/statement.ts";
import { contributionLines, digitsLines } from "../../../viewer/terminal/pictures.ts";
import { summaryOf } from "../../../viewer/terminal/summary.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { RECORDS } from "../page/fixed-records.ts";

const GERMAN: Speech = { ...ENGLISH, messages: de, numbers: numbersWith(",", "; ", " bis ") };
const firstOf = (name: string) => {
  const record = RECORDS[name]!;
  return { record, measurand: readable(Object.values(record.measurands)[0]!) };
};
const every = Object.keys(RECORDS);
const number = (text: string): number => Number(text.replace("−", "-").replace(",", ".").replaceAll("\u202f", ""));

describe.each([
  ["English", ENGLISH],
  ["German", GERMAN],
] as const)("%s", (_, speech) => {
  test.each([60, 100])("every record's pictures keep within %i columns, without escape codes", (width) => {
    let drawn = 0;
    for (const name of every) {
      const { record, measurand } = firstOf(name);
      const lines = [
        ...contributionLines(record, measurand, speech, width),
        ...digitsLines(record, measurand, speech, width),
      ];
      drawn += lines.length;
      expect(
        lines.filter((line) => displayWidth(line) > width),
        name,
      ).toEqual([]);
      expect(lines.join(""), name).not.toMatch(/\u001b|NaN|undefined|\{/);
    }
    expect(drawn).toBeGreaterThan(100);
  });

  test("bars stand in the order of |c·u|, the longest of the largest, and the shares reach 100 %", () => {
    const { record, measurand } = firstOf("verdicts/another-factor");
    const lines = contributionLines(record, measurand, speech, 100).filter((line) => /[█▏▎▍▌▋▊▉]/.test(line));
    expect(lines.length).toBeGreaterThan(2);
    const bars = lines.map((line) => [...line].filter((mark) => /[█▏▎▍▌▋▊▉]/.test(mark)).length);
    expect(bars.toSorted((a, b) => b - a)).toEqual(bars);
    const reached = lines.map((line) => number(line.trim().split(/\s+/).at(-1)!));
    expect(reached.toSorted((a, b) => a - b)).toEqual(reached);
    expect(reached.at(-1)).toBe(100);
  });
});

test("correlated inputs have no cumulative share, and it is said why", () => {
  const texts = Object.values(RECORDS).flatMap((record) =>
    Object.values(record.measurands)
      .filter(({ linear }) => linear.correlatedTerms.some(({ coefficient }) => coefficient !== 0))
      .map((measurand) => contributionLines(record, readable(measurand), ENGLISH, 100).join("\n"))
      .filter((text) => text !== ""),
  );
  expect(texts.length).toBeGreaterThan(0);
  for (const text of texts) {
    expect(text).toMatch(/since inputs are\s+correlated/);
    expect(text).not.toContain("cumulative");
  }
});

/** JCGM 101, 8.1: validated at the digits within whose δ both differences lie. */
test.each(every)("%s: a mark lies within the edges of the digits at which the record is validated", (name) => {
  const { record, measurand } = firstOf(name);
  const { validation } = measurand;
  for (const width of [40, 61, 100]) {
    const lines = digitsLines(record, measurand, ENGLISH, width);
    if (validation.numericalTolerance === 0) {
      expect(lines).toEqual([]);
      continue;
    }
    const rows = lines.filter((line) => line.includes("●"));
    expect(rows).toHaveLength(2);
    for (const { significantDigits, validated } of validation.atDigits) {
      const [open, close] = significantDigits === 1 ? ["[", "]"] : ["(", ")"];
      const within = rows.every(
        (row) => row.indexOf(open!) < row.indexOf("●") && row.indexOf("●") < row.indexOf(close!),
      );
      expect(within, `${width} columns, ${significantDigits} digits`).toBe(validated);
    }
  }
});

test("a summary has them if they are asked for, and is else as it was", () => {
  const { record } = firstOf("verdicts/another-factor");
  const plain = summaryOf(record, null, pico.createColors(false), 60);
  const withThem = summaryOf(record, null, pico.createColors(false), 60, { pictures: true });
  expect(plain).not.toMatch(/[█●]/);
  for (const line of plain.split("\n")) expect(withThem.split("\n")).toContain(line);
  expect(withThem).toMatch(/█[^]*●|●[^]*█/);
  expect(withThem.split("\n").filter((line) => /[█●]/.test(line) && displayWidth(line) > 60)).toEqual([]);
});
