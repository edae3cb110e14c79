// What an import says of a table has German words: all questions, answers and reasons, what was taken for granted, compared,
// and cannot be used. The tables are those of invented laboratories, and some that leave much open.
import { join } from "node:path";
import { expect, test } from "vitest";
import { readMapped, writtenRows, type BudgetTableReading } from "../../../models/index.ts";
import { loadBudgetTable } from "../../../server/intake/index.ts";
import { translated } from "../../../viewer/present/messages/phrases/index.ts";
import { BUDGETS, TEN_BUDGETS } from "../../server/intake/ten-budgets.ts";

const textsOf = ({ questions, terms, remarks, complaints }: BudgetTableReading): readonly string[] => [
  ...questions.flatMap(({ question, because, answers }) => [question, because, ...answers.map(({ answer }) => answer)]),
  ...terms.flatMap(({ assumed }) => assumed),
  ...remarks,
  ...complaints.map(({ accepted }) => accepted),
];

/** Units, numbers and names of sheets are the same in all languages. */
const hasWords = (text: string): boolean => /\p{L}{4,}/u.test(text);

const untranslated = (reading: BudgetTableReading): readonly string[] =>
  textsOf(reading).filter((text) => hasWords(text) && translated(text, "de") === null);

test.each(TEN_BUDGETS)("$file", async ({ file }) => {
  const { reading } = await loadBudgetTable(join(BUDGETS, file), { mapping: {} });
  expect(untranslated(reading)).toEqual([]);
});

test.each<[what: string, table: string]>([
  ["letters", "Source;± (mK);Shape\nA;8;N\nB;6;U\nC;3;T\nD;2;normal k=2"],
  ["readings", "Quantity;Mean;s;n;Unit\nA;1;2;9;mK\nB;1;2;2.5;mK"],
  ["beside", "Left;;;Right;;\nQuantity;u;c;Quantity;u;c\nA;1;1;B;2;1"],
  ["no headings", "a;b;c\nd;1;2"],
  ["a log", "time;t\n08:00:00;1\n08:00:10;2\n08:00:20;3\n08:00:30;3"],
  ["decimal signs", "Quantity;u;c\nA;1,5;1\nB;0.2;1"],
  ["no factor", "Source;U95 / mK\nA;5.0\nB;4.0"],
  ["no distribution", "Source;Uncertainty;Type;Unit\nA;5;B;mK\nB;4;A;mK\nC;x;B;mK\nD;;B;mK"],
  [
    "limits",
    "Quantity;Value;Uncertainty;Unit;Distribution;Divisor\nA;0;6;mK;rect;\nB;0;6;mK;rect;2\nC;0;6;mK;normal;1.73",
  ],
  ["no uncertainty", "Quantity;Unit;Distribution;Amount;Other\nA;mK;normal;2;3\nB;mK;rect;2;3"],
  ["rivals", "Quantity;Uncertainty;Standard uncertainty;Unit\nA;5;1.1;mK\nB;6;1.3;mK"],
  ["factors", "Quantity;Half-width;Factor;Unit\nA;5;0.9;mK\nB;6;0.8;mK"],
  ["estimates", "Quantity;Value;u / mK\nA;72.013;5\nB;0;3"],
  ["coefficients", "Quantity;Value;Unit;u;c\nA;72;°C;0.005;1\nB;0;mK;3;0.5\nC;0;Ω;0.1;1"],
  ["sums", "Quantity;Unit;u;c;u(y)\nA;mK;3;1;4\nB;mK;4;1;4\nCombined;;;;7\nExpanded;;;;17\nk = 2;;;;"],
  [
    "parts",
    "Quantity;Estimate;Unit;U;k\nA;100;Ω;0.01 % of reading;2\nB;1.3;1;12 ppm;2\nC;1;Ω;0.1 % of range;2\nD;0;Ω;1 %;2",
  ],
  [
    "exact",
    "Quantity;Value;Unit;u;Distribution\nA;1;mm;0;normal\nB;2;mm;;normal\nC;2;mm;#REF!;normal\nD;2(3);mm;1;blob",
  ],
  ["turned", "Quantity;A;B\nUnit;mK;mK\nEstimate;0;0\nUncertainty;4;3\nDistribution;normal;rect\nDivisor;2;1.73"],
])("%s", (_, table) => {
  const reading = readMapped([{ name: null, rows: writtenRows(table, "table") }], {}, { otherwise: "table" });
  expect(textsOf(reading).length).toBeGreaterThan(0);
  expect(untranslated(reading)).toEqual([]);
});
