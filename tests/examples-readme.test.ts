// What the documents quote of the examples is what the program says of them now: each is run again. The gains of
// exploring, and the half-widths of the surveys, have tests beside their commands.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { normalDistributionFunction } from "../engine/numerics/standard-normal.ts";
import { bathComparison } from "../models/index.ts";
import { runExample } from "./read-example.ts";

const read = (path: string): string => readFileSync(new URL(`../${path}`, import.meta.url), "utf8");
const examples = read("examples/README.md");

/** The rows of the table below a heading, as cells. */
function tableBelow(heading: string): string[][] {
  const lines = examples.slice(examples.indexOf(heading)).split("\n");
  const first = lines.findIndex((line) => line.startsWith("|---"));
  const rows = lines.slice(first + 1);
  return rows.slice(0, rows.indexOf("")).map((line) =>
    line
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}
const quoted = (cell: string): string[] => [...cell.matchAll(/\*([^*]+)\*/g)].map(([, words]) => words!);

describe("examples/README.md", () => {
  const rows = tableBelow("## One example for each verdict");
  test("has a row for each verdict", () =>
    expect(rows.map(([study]) => study)).toEqual(["`kept`", "`another-factor`", "`curvature`", "`few-readings`"]));

  test.each(rows)("%s: verdict, causes and advice as quoted", (study, verdict, why, next) => {
    const { validation, explanation } = Object.values(
      runExample(`verdicts/${study!.replaceAll("`", "")}`).measurands,
    )[0]!;
    expect(validation.firm).toBe(true);
    expect(verdict).toBe(validation.validated ? "validated" : "not validated");
    expect(validation.sentence).toContain(`The linear budget is ${verdict} to`);
    expect(quoted(why!)).not.toEqual([]);
    for (const words of quoted(why!)) expect(explanation!.sentence).toContain(words);
    expect(quoted(next!)).toHaveLength(1);
    expect(explanation!.recommendation.sentence).toContain(quoted(next!)[0]);
  });

  test("the number of inputs that the example study has", () => {
    const inputs = Object.keys(bathComparison.inputs).length;
    expect(inputs).toBe(15);
    expect(examples.replace(/\s+/g, " ")).toContain("shows three of its fifteen");
  });

  test("the coverage probability of k = 2", () => {
    const share = (200 * normalDistributionFunction(2) - 100).toFixed(2);
    expect(examples.replace(/\s+/g, " ")).toContain(
      `takes the Monte Carlo interval at the ${share} % that this claims`,
    );
  });
});
