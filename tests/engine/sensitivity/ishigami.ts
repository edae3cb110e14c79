// Analyses of models made on the spot, among them the Ishigami function, and how often their intervals cover what is known.
import { expect, test } from "vitest";
import { defineModel, elementary, prepare, readStudy, type Model } from "../../../engine/index.ts";
import { analyseSensitivity } from "../../../engine/sensitivity/analyse.ts";
import type { IndexRecord } from "../../../engine/record/sensitivity.ts";
import type { SensitivityFigures } from "../../../engine/record/figures.ts";
import reference from "../../reference/sensitivity.json" with { type: "json" };

const { ishigami } = reference;

export const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
export const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
export const rectangular = (lower: number, upper: number) => ({ distribution: "rectangular", lower, upper });

/** A model of inputs x1, x2, … with one measurand y. */
export const modelIn = (count: number, f: (x: readonly number[]) => number): Model =>
  defineModel({
    id: "test-function",
    title: "Test function",
    measurands: { y: quantity("y") },
    inputs: Object.fromEntries(Array.from({ length: count }, (_, i) => [`x${i + 1}`, quantity(`x_${i + 1}`)])),
    evaluate: (x) => f(Object.values(x)),
  });

export function analyse(
  model: Model,
  statements: readonly object[],
  trials = 100_000,
  more: object = {},
): SensitivityFigures {
  const inputs = Object.fromEntries(Object.keys(model.inputs).map((name, i) => [name, statements[i]!]));
  const study = readStudy({ title: "t", model: model.id, inputs, ...more });
  return analyseSensitivity(prepare(model, study), { trials })["y"]!;
}

export const ishigamiModel = defineModel({
  id: "ishigami",
  title: "Ishigami function",
  measurands: { y: quantity("y") },
  inputs: { x1: quantity("x_1"), x2: quantity("x_2"), x3: quantity("x_3") },
  evaluate: ({ x1, x2, x3 }) => {
    const s = elementary.sin(x2);
    const square = x3 * x3;
    return elementary.sin(x1) * (1 + ishigami.b * square * square) + ishigami.a * s * s;
  },
});
export const circle = rectangular(-Math.PI, Math.PI);
export const ishigamiIndices = (trials: number, seed: string): SensitivityFigures =>
  analyse(ishigamiModel, [circle, circle, circle], trials, { seed });

const holds = ({ interval: [low, high] }: IndexRecord, wanted: number): number =>
  low <= wanted && wanted <= high ? 1 : 0;

/** For this number of seeds, at least `least` intervals of each index cover its closed form. */
export function intervalsCover(seeds: number, least: number): void {
  test(`95 % intervals cover the closed form: ${seeds} seeds of the Ishigami function`, () => {
    const covered = { firstOrder: [0, 0, 0], total: [0, 0, 0], interaction: 0 };
    for (let seed = 0; seed < seeds; seed++) {
      const record = ishigamiIndices(25_000, `coverage ${seed}`);
      for (const kind of ["firstOrder", "total"] as const) {
        record.factors.forEach((factor, i) => (covered[kind][i]! += holds(factor[kind]!, ishigami[kind][i]!)));
      }
      covered.interaction += holds(record.interaction!, ishigami.total[2]!);
    }
    for (const count of [...covered.firstOrder, ...covered.total, covered.interaction])
      expect(count).toBeGreaterThanOrEqual(least);
    // Intervals that always hold would be too wide: it is rare for one count to be complete, and more so for all.
    expect(Math.min(...covered.firstOrder, ...covered.total)).toBeLessThan(seeds);
  });
}
