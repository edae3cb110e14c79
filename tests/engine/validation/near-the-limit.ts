// What a verdict says near its limit and when the adaptive procedure stops: for few seeds in every run of the tests, for
// many in the long ones.
import { expect, test } from "vitest";
import {
  defineModel,
  prepare,
  propagate,
  readStudy,
  type MeasurandRecord,
  type RunRecord,
} from "../../../engine/index.ts";
import { Accumulation, openTrials } from "../../../engine/internal.ts";
import { normalQuantile } from "../../../engine/numerics/standard-normal.ts";

export const q = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
export const one = defineModel({
  id: "one",
  title: "one",
  measurands: { y: q("y") },
  inputs: { a: q("a") },
  evaluate: ({ a }) => a,
});
export const sum = defineModel({
  id: "sum",
  title: "sum",
  measurands: { y: q("y") },
  inputs: { a: q("a"), b: q("b") },
  evaluate: ({ a, b }) => a + b,
});
export const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
export const rectangular = (estimate: number, halfWidth: number) => ({
  distribution: "rectangular",
  estimate,
  halfWidth,
});
export const t = (standardUncertainty: number, degreesOfFreedom: number, estimate = 0) => ({
  distribution: "t",
  estimate,
  standardUncertainty,
  degreesOfFreedom,
});

export const runOf = (model: typeof one | typeof sum, inputs: object, more: object = {}): RunRecord =>
  propagate(model as typeof sum, readStudy({ title: "t", model: model.id, inputs, ...more }));
export const of = (model: typeof one | typeof sum, inputs: object, more: object = {}): MeasurandRecord =>
  runOf(model, inputs, more).measurands["y"]!;

/** The trials alone, without an explanation: for many seeds. */
function gather(model: typeof one | typeof sum, inputs: object, more: object): Accumulation {
  const prepared = prepare(model as never, readStudy({ title: "t", model: model.id, inputs, ...more }));
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
  return gathered;
}

// N(0, 1) + R(±h): h = 1.63145801508 makes d_low = d_high = δ = 0.05 exactly (from the distribution function of the sum,
// solved for h; computed independently).
export const AT_THE_LIMIT = { a: normal(0, 1), b: rectangular(0, 1.63145801508) };
const WELL_WITHIN = { a: normal(0, 1), b: rectangular(0, 1.2) };

/** What a verdict near its limit may say, for each of these seeds. */
export function verdictNearItsLimit(seeds: readonly string[]): void {
  test("where d = δ no run decides, and its sentence and advice say so; well within δ all do", () => {
    for (const seed of seeds) {
      const { validation, explanation, paired } = of(sum, AT_THE_LIMIT, { trials: "adaptive", seed });
      expect([seed, validation.settled, validation.firm, validation.doubts]).toEqual([seed, true, false, ["scatter"]]);
      expect(validation.sentence).toMatch(/^The trials do not decide whether the linear budget is validated/);
      // Paired trials say by how much it is not decided: of a linear model d is known to the error of its distribution.
      if (paired?.kind !== "figures") throw new Error("got no paired figures; expected some");
      expect([seed, paired.decision]).toEqual([seed, "undecided"]);
      expect(Math.max(Math.abs(paired.dLow - 0.05), Math.abs(paired.dHigh - 0.05))).toBeLessThan(1e-7);
      expect(paired.sentence).toMatch(
        /do not decide; d and δ are not known to differ by more than [\d.]+(\s×\s10⁻[⁰-⁹¹²³]+)?\.$/u,
      );
      expect(explanation!.recommendation.action).toBe("draw-more");
      expect(explanation!.recommendation.sentence).toMatch(/Draw more trials.*or report the Monte Carlo interval/);
    }
    for (const seed of seeds) {
      const { validation } = of(sum, WELL_WITHIN, { trials: "adaptive", seed });
      expect([seed, validation.firm, validation.validated]).toEqual([seed, true, true]);
    }
  });
}

/** The adaptive procedure with this many seeds. */
export function stoppingByChance(seeds: number): void {
  test("does not stop on a spread over two batches that is small by chance", () => {
    // The standard error of the end of a standard normal at 97.5 %: √(p(1 − p)/M)/φ(z).
    const [p, z] = [0.975, normalQuantile(0.975)];
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    const limit = 0.05 / 5;
    const doubled = Array.from({ length: seeds }, (_, seed) => {
      const { trials } = gather(one, { a: normal(0, 1.2) }, { trials: "adaptive", seed: `h${seed}` });
      return (2 * 1.2 * Math.sqrt((p * (1 - p)) / trials)) / density;
    });
    expect(Math.max(...doubled)).toBeLessThan(1.2 * limit);
  });
}
