// What may be meant in two ways is asked, and settled by the table's own figures where they tell. Expected figures by hand:
// JCGM 100, 4.2.3 (s/√n), 4.2.6 (ν = n − 1), 4.3.7 and 4.3.9 (a/√3, a/√6); EA-4/02, 3.3 (a/√2).
import { describe, expect, test } from "vitest";
import { readMapped, writtenRows, type BudgetTableReading, type StatedMapping } from "../../../../models/index.ts";

const read = (text: string, mapping: StatedMapping = {}): BudgetTableReading =>
  readMapped([{ name: null, rows: writtenRows(text, "table") }], mapping, { otherwise: "table" });

/** The reading after the answer that begins so was given to the only question. */
function answered(text: string, answer: string): BudgetTableReading {
  const { questions, study } = read(text);
  expect(study).toBeNull();
  expect(questions).toHaveLength(1);
  const chosen = questions[0]!.answers.find((one) => one.answer.startsWith(answer));
  expect(chosen, questions[0]!.answers.map((one) => one.answer).join("; ")).toBeDefined();
  return read(text, chosen!.states);
}

describe("a standard deviation beside a number of readings", () => {
  const budget = (more: readonly [head: string, cell: string, other: string]): string =>
    `Quantity;Mean;s;n;Half-width;Distribution;Unit${more[0]}
Readings;72.013;0.0021;9;;;°C${more[1]}
Bath;0;;;0.006;rectangular;°C${more[2]}`;
  const plain = budget(["", "", ""]);

  test.each([
    ["Of single readings", 0.0021 / 3],
    ["Of their mean", 0.0021],
  ])("%s", (answer, u) => {
    const [readings] = answered(plain, answer).terms;
    expect(readings!.standardUncertainty).toBeCloseTo(u, 12);
    expect(readings!.statement).toMatchObject({ distribution: "t", degreesOfFreedom: 8 });
  });

  test.each([
    ["the table's own contribution is s/√n", 0.0007, 0.0007],
    ["the table's own contribution is s", 0.0021, 0.0021],
  ])("%s: nothing is asked", (_, own, u) => {
    const { questions, terms } = read(budget([";u(y)", `;${own}`, ";0.0035"]));
    expect(questions).toEqual([]);
    expect(terms[0]!.standardUncertainty).toBeCloseTo(u, 12);
  });

  test("what is divided by the root of n already is not divided again", () => {
    const { questions, terms } = read(
      "Quantity;Uncertainty;Type;Distribution;Divisor;n;Unit\nReadings;2.1;A;normal;3;9;mK\nBath;6;B;rectangular;√3;;mK",
    );
    expect(questions).toEqual([]);
    expect(terms[0]!.standardUncertainty).toBeCloseTo(0.7, 12);
    expect(terms[0]!.statement).toMatchObject({ degreesOfFreedom: 8 });
  });

  test.each(["2.5", "0", "many"])("%s readings are refused with their cell", (n) => {
    const { complaints } = read(plain.replace(";9;", `;${n};`));
    expect(complaints).toEqual([expect.objectContaining({ row: 2, column: "D" })]);
  });

  test("without a number of readings the standard deviation of single readings says nothing of the mean", () => {
    const { complaints } = read("Quantity;Standard deviation of readings;Unit\nReadings;2.1;mK");
    expect(complaints[0]!.accepted).toMatch(/number of readings/);
  });
});

describe("a letter that stands for two distributions", () => {
  const budget = (letter: string, divisor: string): string =>
    `Source;± (mK);Shape;Divisor;Sens.\nCertificate;8;N;2;1\nBath;6;R;√3;1\nBridge;3;${letter};${divisor};2`;

  test.each([
    ["U", "rectangular", 3 / Math.sqrt(3)],
    ["U", "arcsine", 3 / Math.SQRT2],
    ["T", "triangular", 3 / Math.sqrt(6)],
  ])("%s is asked about: %s", (letter, shape, u) => {
    const { terms } = answered(budget(letter, ""), shape);
    expect(terms[2]!.standardUncertainty).toBeCloseTo(u, 12);
    // "Sens." is the coefficient.
    expect(terms[2]!.sensitivity).toBe(2);
  });

  test.each([
    ["U", "1.73", "rectangular"],
    ["U", "1.41", "arcsine"],
    ["T", "2.45", "triangular"],
  ])("%s with the divisor %s is %s", (letter, divisor, distribution) => {
    const { questions, terms } = read(budget(letter, divisor));
    expect(questions).toEqual([]);
    expect(terms[2]!.statement).toMatchObject({ distribution });
  });
});

describe("two budgets side by side", () => {
  const text = `Bath at −40 °C;;;;;;Bath at 134 °C;;;
Quantity;u;Distribution;c;u·c;;Quantity;u;Distribution;c
Reference;4 mK;normal;1;4;;Reference;6 mK;normal;1
Gradient;3 mK;rectangular;1;3;;Gradient;8 mK;rectangular;1`;

  test.each([
    ["The one in columns A to E: Bath at −40 °C", 5],
    ["The one in columns G to J: Bath at 134 °C", 10],
  ])("%s", (answer, combined) => {
    const reading = answered(text, answer);
    expect(reading.combined).toBeCloseTo(combined, 12);
    expect(reading.study).not.toBeNull();
  });
});

describe("parts of something", () => {
  const budget = (cell: string, unit = "Ω"): string =>
    `Quantity;Estimate;Unit;Uncertainty;Distribution;Divisor\nShunt;100;${unit};${cell};rectangular;√3`;

  test.each(["0.01 % of reading", "0.01% rdg", "0.01 % v. M.W.", "0,01 % vom Messwert", "0.01 % de la lecture"])(
    "%s is a part of the estimate, as is said",
    (cell) => {
      const { terms } = read(budget(cell));
      expect(terms[0]!.standardUncertainty).toBeCloseTo(0.01 / Math.sqrt(3), 12);
      expect(terms[0]!.assumed.join()).toMatch(/part of the estimate 100/);
    },
  );

  test("also of a ratio, whose ppm are otherwise taken as they are written, as is said", () => {
    expect(read(budget("12 ppm of reading", "1")).terms[0]!.standardUncertainty).toBeCloseTo(12e-4 / Math.sqrt(3), 15);
    const { terms } = read(budget("12 ppm", "1"));
    expect(terms[0]!.standardUncertainty).toBeCloseTo(12e-6 / Math.sqrt(3), 15);
    expect(terms[0]!.assumed.join()).toMatch(/12 ppm taken as it is written/);
  });

  test("a part of the range is refused with what is known", () => {
    expect(read(budget("0.01 % of range")).complaints[0]!.accepted).toMatch(/percentage of the row's own estimate/);
  });
});

test("an uncertainty in brackets behind the last digits is no thousand and some", () => {
  const { complaints } = read("Quantity;Value;Unit;u\nReference;72.013(5);°C;5 mK");
  expect(complaints[0]!.accepted).toMatch(/column of its own/);
});

describe("a column of distributions under a heading that is not known", () => {
  test.each([
    ["words", "normal", "Rechteck", "rectangular"],
    ["letters that return", "R", "R", "rectangular"],
  ])("%s", (_, first, second, distribution) => {
    const { terms } = read(`Größe;u;Kennung\nA;3 mK;${first}\nB;4 mK;${second}`);
    expect(terms[1]!.statement).toMatchObject({ distribution });
  });

  test("letters that do not return may be symbols", () => {
    expect(read("Größe;u;Kennung\nA;3 mK;R\nB;4 mK;N").remarks.join()).toMatch(/not used: column C/);
  });
});
