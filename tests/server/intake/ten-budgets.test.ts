// Budgets as laboratories keep them, from the bytes of the file to the linear result.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { additive, complete, type BudgetTableReading, type StatedMapping } from "../../../models/index.ts";
import { loadBudgetTable } from "../../../server/intake/index.ts";
import { joinMappings } from "../../../viewer/present/join-mappings.ts";
import { BUDGETS, TEN_BUDGETS, type KeptBudget } from "./ten-budgets.ts";

interface Figures {
  readonly unit: string;
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number | null;
  readonly contributions: readonly number[];
}
const figures = JSON.parse(readFileSync(join(import.meta.dirname, "../../reference/budgets.json"), "utf8")) as Readonly<
  Record<string, Figures>
>;

const read = async (file: string, mapping: StatedMapping): Promise<BudgetTableReading> =>
  (await loadBudgetTable(join(BUDGETS, file), { mapping })).reading;

/** Answers what is asked, one question after the other, until nothing is. */
async function answered({ file, answers }: KeptBudget): Promise<BudgetTableReading> {
  let stated: StatedMapping = {};
  let reading = await read(file, stated);
  for (const [question, answer] of answers) {
    const asked = reading.questions.find((one) => question.test(one.question));
    expect(asked, `${file}: ${reading.questions.map((one) => one.question).join("; ")}`).toBeDefined();
    const chosen = asked!.answers.find((one) => one.answer === answer);
    expect(chosen, asked!.answers.map((one) => one.answer).join("; ")).toBeDefined();
    stated = joinMappings(stated, chosen!.states);
    reading = await read(file, stated);
  }
  return reading;
}

describe.each(TEN_BUDGETS)("$file: $habits", (budget) => {
  const expected = figures[budget.file]!;

  test("gives the figures worked out from it independently", async () => {
    const reading = await answered(budget);
    const { study, unit, terms } = complete(reading);
    expect(unit).toBe(expected.unit);
    const linear = Object.values(prepare(additive.build(study.parameters!), readStudy(study)).linear)[0]!;
    expect(linear.estimate).toBeCloseTo(expected.estimate, 9);
    // A divisor printed as 1.73 stands for √3: figures agree to the last digits of doubles.
    expect(linear.standardUncertainty / expected.standardUncertainty).toBeCloseTo(1, 12);
    expect(reading.combined / expected.standardUncertainty).toBeCloseTo(1, 12);
    if (expected.degreesOfFreedom === null) expect(linear.effectiveDegreesOfFreedom).toBe(Infinity);
    else expect(linear.effectiveDegreesOfFreedom / expected.degreesOfFreedom).toBeCloseTo(1, 9);
    expect(terms.map(({ sensitivity, standardUncertainty: u }) => Math.abs(sensitivity) * u)).toEqual(
      expected.contributions.map((value) => expect.closeTo(value, 9) as number),
    );
  });

  test("compares its sums and takes nothing else for granted silently", async () => {
    const { remarks, study } = await answered(budget);
    const others = remarks.filter((remark) => !/^(taken for sums|left out|agrees with the inputs)/.test(remark));
    expect(others).toEqual(budget.remarks.map((pattern) => expect.stringMatching(pattern) as string));
    expect(study).toMatchObject({ trials: "adaptive" });
  });
});

test("a sum that the inputs do not give is reported with both figures", async () => {
  const text = readFileSync(join(BUDGETS, "brackenholt.csv"), "utf8").replace(",,,,,8.8", ",,,,,9.9");
  const source = {
    name: "b.csv",
    chunks: (async function* () {
      yield Buffer.from(text);
    })(),
  };
  const { reading } = await loadBudgetTable(source);
  expect(reading.remarks.join(" ")).toMatch(/row 9 .* says 0\.0099; k = 2 and the inputs give 0\.008716 °C/);
});
