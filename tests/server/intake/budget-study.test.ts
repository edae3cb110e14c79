// A shipped budget table from its file to its verdict.
import { expect, test } from "vitest";
import { propagate, type Model, readStudy } from "../../../engine/index.ts";
import { additive, complete } from "../../../models/index.ts";
import { loadBudgetStudy } from "../../../server/intake/budget-study.ts";
import { watchFile } from "../../../server/intake/watched-file.ts";

const table = new URL("../../../examples/survey/budget-72.csv", import.meta.url).pathname;

test("budget-72.csv: where the interval lies is told from the signs of both ends", async () => {
  const { reading } = await loadBudgetStudy(await watchFile(table), {});
  const { study } = complete(reading);
  const record = propagate(additive.build(study.parameters!) as Model, readStudy({ ...study, trials: 500_000 }));
  const { linear, monteCarlo, validation, explanation } = record.measurands["result"]!;
  const [low, high] = monteCarlo.intervals.symmetric;
  const errors = monteCarlo.standardErrors.symmetric;
  // Both ends lie further out, beyond three of their standard errors: nothing lies "at another place".
  expect((linear.interval[0] - low) / errors[0]).toBeGreaterThan(3);
  expect((high - linear.interval[1]) / errors[1]).toBeGreaterThan(3);
  expect(validation.sentence).toMatch(/The linear interval is 0\.\d+ % too narrow\. A coverage factor k = 1\.98 would/);
  expect(validation.sentence).not.toMatch(/equally wide|lies (higher|lower)|lies further/);
  // ν_eff and k by JCGM 100, G.4: k is that of a normal but for the two inputs with few degrees of freedom.
  expect(linear.coverageFactor).toBeCloseTo(1.96, 2);
  expect(explanation!.sentence).toMatch(/few degrees of freedom, above all x_10 \(ν = 9\)/);
});
