import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { BATHS } from "../../../examples/survey/baths.ts";
import { generate, tableOf } from "../../../examples/survey/generate.ts";
import { PROBE_ERROR } from "../../../examples/survey/readings.ts";
import {
  additive,
  bathComparison,
  comparisonStatements,
  complete,
  evaluateImmersion,
  evaluateReadings,
  evaluateSurvey,
  immersionStatement,
  surveyStatements,
} from "../../../models/index.ts";
import { loadBudgetTable, loadImmersion, loadReadings, loadSurvey } from "../../../server/intake/index.ts";

const folder = "examples/survey";
const surveys = await Promise.all(
  BATHS.map(async (bath) => {
    const { description, logs, series } = await loadSurvey(join(folder, `${bath.name}.json`));
    return { bath, series, evaluation: evaluateSurvey(description, logs) };
  }),
);

describe("the logs of the four baths", () => {
  it("are those the generator writes", () => {
    for (const [name, text] of generate()) expect(readFileSync(join(folder, name), "utf8"), name).toBe(text);
  });

  it("make the table of half-widths that stands beside them, read from the files", () => {
    expect(tableOf(surveys.map(({ bath, evaluation }) => [bath, evaluation] as const))).toBe(
      readFileSync(join(folder, "half-widths.md"), "utf8"),
    );
  });

  it("stay small", () => {
    const bytes = BATHS.reduce((sum, { name }) => sum + readFileSync(join(folder, `${name}.csv`)).length, 0);
    expect(bytes).toBeLessThan(300_000);
  });

  it.each(surveys)(
    "$bath.name: evaluated half-widths agree with those it was generated with",
    ({ bath, evaluation }) => {
      const { axial, radial, stability, map } = evaluation;
      // Four standard uncertainties of the difference that decides, and half of the last digit the logger writes.
      const rounding = 0.5e-5;
      expect(Math.abs(axial!.quantity.halfWidth - bath.axial)).toBeLessThan(4 * axial!.limits.noise + rounding);
      expect(Math.abs(radial!.quantity.halfWidth - bath.radial)).toBeLessThan(4 * radial!.limits.noise + rounding);
      for (const { offset, standardUncertainty } of map.offsets)
        expect(Math.abs(offset - bath.offset)).toBeLessThan(4 * standardUncertainty + rounding);
      // The noise of a single reading widens the span at either end: by four of its standard deviations at most, which 181
      // readings reach in one case of a hundred.
      expect(stability.halfWidth).toBeGreaterThan(bath.stability - bath.noise);
      expect(stability.halfWidth).toBeLessThan(bath.stability + 4 * bath.noise + rounding);
    },
  );

  it.each(surveys)("$bath.name: every check passes, by swaps alone", ({ evaluation }) => {
    expect(evaluation.checks.filter(({ passed }) => !passed)).toEqual([]);
    expect(evaluation.map.comparisons.map(({ method }) => method)).toEqual([
      "swapped",
      "swapped",
      "swapped",
      "swapped",
    ]);
    expect(evaluation.stability.window).toBe(1800);
  });

  it.each(surveys)("$bath.name: its quantities fit the study of the bath", ({ bath, evaluation }) => {
    const study = JSON.parse(readFileSync(`examples/harrowfen/${bath.name}.json`, "utf8")) as {
      inputs: Record<string, { halfWidth?: number }>;
    };
    const statements = surveyStatements(evaluation);
    for (const name of ["bathAxial", "bathRadial", "bathStability"] as const) {
      // The study states what the log was generated with.
      expect(study.inputs[name]!.halfWidth, name).toBe(
        { bathAxial: bath.axial, bathRadial: bath.radial, bathStability: bath.stability }[name],
      );
    }
    const { linear } = prepare(bathComparison, readStudy({ ...study, inputs: { ...study.inputs, ...statements } }));
    expect(linear["error"]!.standardUncertainty).toBeGreaterThan(0);
  });

  it("warn of the water bath at 4 °C and of nothing else", () => {
    const warned = surveys.flatMap(({ bath, evaluation }) =>
      evaluation.safety!.warnings.map(({ place }) => [bath.name, place]),
    );
    expect(warned).toEqual([["cold-store-4", "bath.setTemperature"]]);
  });

  it("come in four ways of writing", () => {
    expect(surveys.map(({ series }) => series.units["HS-11"])).toEqual(["°C", "°C", "°C", "K"]);
    expect(surveys.every(({ series }) => series.readings === 2 * 1074)).toBe(true);
  });
});

describe("the other records", () => {
  it("readings of HF-034 at 72 °C give the error they were generated with", async () => {
    const { description, indications } = await loadReadings(join(folder, "readings-72.json"));
    const [evaluation] = evaluateReadings(description, indications);
    expect(evaluation!.typeA).toMatchObject({ count: 8, degreesOfFreedom: 7 });
    expect(Math.abs(evaluation!.typeA.mean - PROBE_ERROR)).toBeLessThan(4 * evaluation!.typeA.standardUncertainty);
    const study = JSON.parse(readFileSync("examples/harrowfen/pasteuriser-72.json", "utf8")) as { inputs: object };
    const { linear } = prepare(
      bathComparison,
      readStudy({ ...study, inputs: { ...study.inputs, ...comparisonStatements(evaluation!) } }),
    );
    // e = t(R_X) − t_S − corrections: the difference less the study's own correction of the reference, −6 mK.
    expect(linear["error"]!.estimate).toBeCloseTo(evaluation!.typeA.mean + 0.006, 9);
  });

  it("immersion of HF-042 at 134 °C is enough", async () => {
    const description = await loadImmersion(join(folder, "immersion-134.json"));
    const evaluation = evaluateImmersion(description);
    expect([...evaluation.withdrawal!.checks, ...evaluation.fit!.checks].filter(({ passed }) => !passed)).toEqual([]);
    expect(immersionStatement(evaluation, description)).toMatchObject({ distribution: "rectangular", estimate: 0 });
  });

  it("budget at 72 °C becomes a study with nothing retyped", async () => {
    const reading = complete((await loadBudgetTable(join(folder, "budget-72.csv"))).reading);
    expect(reading.terms).toHaveLength(11);
    expect(reading.columns.every(({ field }) => field !== null)).toBe(true);
    const model = additive.build(reading.study.parameters!);
    const budget = Object.values(prepare(model, readStudy(reading.study)).linear)[0]!;
    // √(4² + (4² + 3² + 5² + 4² + 4² + 3² + 3² + 5²)/3 + 2² + 0.6²) mK, by hand.
    expect(budget.standardUncertainty * 1000).toBeCloseTo(Math.sqrt(16 + 125 / 3 + 4 + 0.36), 9);
    expect(budget.estimate).toBeCloseTo(0.0183 + 0.006, 12);
  });
});
