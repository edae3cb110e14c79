import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Model, ModelFamily } from "../../../engine/index.ts";
import { models } from "../../../models/index.ts";
import { runWithoutExplanation } from "./run-without-explanation.ts";

const folder = new URL("../../../examples/platinum/", import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith(".json"));

describe("example studies of platinum thermometry", () => {
  it("has at least one for each of the models", () => {
    const used = new Set(files.map((file) => JSON.parse(readFileSync(new URL(file, folder), "utf8")).model));
    expect([...used].sort()).toEqual(["probe-fit", "sprt-bath", "sprt-fixed-points", "two-wire-plant"]);
  });

  it.each(files)("%s runs, with sources, cautions and fixed bits", (file) => {
    const study = JSON.parse(readFileSync(new URL(file, folder), "utf8"));
    const found = models.find(({ id }) => id === study.model)!;
    const model: Model = "build" in found ? (found as ModelFamily).build(study.parameters) : found;
    const record = runWithoutExplanation(model, { ...study, trials: 20_000 });
    expect(record.model.fixedBits).toBe(true);
    expect(record.cautions.length).toBeGreaterThan(2);
    expect(Object.values(record.inputs).every(({ source }) => source !== null)).toBe(true);
    for (const { linear, monteCarlo } of Object.values(record.measurands)) {
      // s.e. of the mean u/√M, 5 of them; readings have fewer than 12 values, so that the t widens u by up to 15 %.
      expect(Math.abs(monteCarlo.estimate! - linear.estimate)).toBeLessThan(
        (5 * 1.15 * linear.standardUncertainty) / Math.sqrt(20_000) + 2e-3 * linear.standardUncertainty,
      );
      expect(monteCarlo.standardUncertainty! / linear.standardUncertainty).toBeLessThan(1.2);
      expect(monteCarlo.standardUncertainty! / linear.standardUncertainty).toBeGreaterThan(0.95);
    }
  });
});
