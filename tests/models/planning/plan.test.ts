// Plans on models whose distributions are known in closed form: gains of halving, steps, the cheapest combination among all,
// and a run that confirms.
import { beforeAll, describe, expect, test } from "vitest";
import { defineModel, prepare, propagate, readStudy, type Model, type Study } from "../../../engine/index.ts";
import { figuresOfPoint, studiesOfSweep, sweepRecord } from "../../../engine/internal.ts";
import {
  confirmationOf,
  loadEquationReader,
  planOf,
  readPlan,
  type Plan,
  type PlanDocument,
} from "../../../models/index.ts";

const quantity = (symbol: string) => ({ symbol, meaning: `quantity ${symbol}`, unit: "K" });
const sum = defineModel({
  id: "sum-of-three",
  title: "Sum of three quantities",
  inputs: { a: quantity("a"), b: quantity("b"), c: quantity("c") },
  measurands: { y: quantity("y") },
  evaluate: ({ a, b, c }) => a + b + c,
}) as unknown as Model;

const normal = (standardUncertainty: number) => ({ distribution: "normal", estimate: 0, standardUncertainty });
const rectangular = (halfWidth: number) => ({ distribution: "rectangular", estimate: 0, halfWidth });
/** A study at two temperatures: the second is worse by a factor. */
const studyOf = (inputs: object, second: object = {}, more: object = {}): Study =>
  readStudy({
    title: "Range",
    model: sum.id,
    coverage: { factor: 2 },
    trials: 20_000,
    seed: "plan",
    inputs,
    sweep: {
      quantity: "temperature",
      unit: "°C",
      points: [
        { at: 0, inputs: {} },
        { at: 100, inputs: second },
      ],
    },
    ...more,
  });
const planFor = (more: object): PlanDocument =>
  readPlan({ title: "Plan", sweep: "sweep.json", target: 1, levers: [], ...more });
const scale = (name: string, input: string, ...steps: readonly (readonly [to: number, cost: number])[]) => ({
  kind: "scale",
  name,
  inputs: [input],
  steps: steps.map(([to, cost]) => ({ to, cost })),
});
/** p of k = 2, for a normal quantity. */
const P = 0.954499736103642;

beforeAll(loadEquationReader);

/** The record of the first point, with the sweep of all. */
function runOf(proposed: Study) {
  const records = studiesOfSweep(proposed).map((one) => propagate(sum, one));
  const figures = records.map((one) => figuresOfPoint(one, proposed));
  return { ...records[0]!, sweep: sweepRecord(proposed, figures)! };
}

describe("three normal quantities, u = 3, 4 and 12: U is 2·13", () => {
  const study = studyOf({ a: normal(3), b: normal(4), c: normal(12) }, { c: normal(24) });
  const { plan, proposed } = planOf(
    planFor({
      target: 20,
      costUnit: "h",
      levers: [scale("half of c", "c", [0.5, 5], [0.25, 8]), scale("less of b", "b", [0.1, 1])],
    }),
    sum,
    study,
  );
  const U = (...parts: readonly number[]): number => 2 * Math.sqrt(parts.reduce((total, u) => total + u * u, 0));

  test("what it claims now, by budget and by convolution", () => {
    const [first, second] = plan.points.map(({ now }) => now);
    expect(first!.linear).toBeCloseTo(U(3, 4, 12), 12);
    expect(first!.distribution).toBeCloseTo(U(3, 4, 12), 6);
    expect(second!.claimed).toBeCloseTo(U(3, 4, 24), 6);
    expect(plan.probability).toBeCloseTo(P, 12);
  });

  test("what halving each input gains, at each point, the greatest first", () => {
    const gains = plan.points.map(({ halvings }) => halvings.map(({ input, gain }) => [input, gain]));
    const gain = (c: number, ...parts: readonly number[]): unknown => expect.closeTo(1 - U(...parts) / U(3, 4, c), 6);
    expect(gains[0]).toEqual([
      ["c", gain(12, 3, 4, 6)],
      ["b", gain(12, 3, 2, 12)],
      ["a", gain(12, 1.5, 4, 12)],
    ]);
    expect(gains[1]![0]).toEqual(["c", gain(24, 3, 4, 12)]);
  });

  test("each step by itself, the frontier, and the cheapest combination that meets the target at both points", () => {
    expect(plan.alone.map(({ cost }) => cost)).toEqual([5, 8, 1]);
    // Half of c leaves 2·√(9 + 16 + 144) = 26 at 100 °C, a quarter 2·√(9 + 16 + 36) = 15.6.
    expect(plan.alone[0]!.worst).toBeCloseTo(U(3, 4, 12) / 20, 6);
    expect(plan.frontier.map(({ cost }) => cost)).toEqual([0, 1, 5, 6, 8, 9]);
    for (const [i, { worst }] of plan.frontier.entries())
      if (i > 0) expect(worst).toBeLessThan(plan.frontier[i - 1]!.worst);
    expect(plan.proposal).toMatchObject({ choices: [{ lever: 0, step: 1 }], cost: 8 });
    expect(plan.meets).toBe(true);
    expect(plan.points[1]!.proposed.claimed).toBeCloseTo(U(3, 4, 6), 6);
  });

  test("the proposed study is the sweep with the steps in it, and its run confirms what was predicted", () => {
    const record = runOf(proposed);
    const found = confirmationOf(plan, record);
    expect(found.meets).toBe(true);
    expect(found.agrees).toBe(true);
    found.points.forEach(({ linear, claimed, predicted }, i) => {
      expect(linear).toBeCloseTo(plan.points[i]!.proposed.linear, 9);
      // Of 20 000 trials an endpoint's standard error is √(p(1 − p)/M)/φ(2) = 0.0195 u, p = 0.0228; half of that in U.
      expect(Math.abs(claimed - predicted)).toBeLessThan((5 * 0.0195 * predicted) / 2);
    });
    expect(() =>
      confirmationOf(plan, { ...record, sweep: { ...record.sweep, points: [record.sweep.points[0]!] } }),
    ).toThrow(/run.*the run of the proposed study, with 2 points/s);
  });
});

test("two rectangular quantities: the triangle's U, by its closed form", () => {
  const study = studyOf({ a: rectangular(1), b: rectangular(1), c: { distribution: "constant", value: 0 } });
  const { plan } = planOf(planFor({ target: 5, levers: [scaleOnly("a")] }), sum, study);
  // P(|y| ≤ r) = 1 − (1 − r/2)² for the sum of two on [−1, 1].
  expect(plan.points[0]!.now.distribution).toBeCloseTo(2 * (1 - Math.sqrt(1 - P)), 6);
  expect(plan.points[0]!.now.claimed).toBeCloseTo(2 * Math.sqrt(2 / 3), 12);
  expect(plan.proposal.choices).toEqual([]);
  expect(plan.meets).toBe(true);
});
const scaleOnly = (input: string) => ({ kind: "scale", name: input, inputs: [input], steps: [{ to: 0.5 }] });

describe("what each kind of lever makes of a statement", () => {
  const after = (lever: object, inputs: object): number => {
    const { plan } = planOf(planFor({ target: 1e-9, levers: [lever] }), sum, studyOf(inputs));
    return plan.points[0]!.proposed.standardUncertainty;
  };
  const none = { b: { distribution: "constant", value: 0 }, c: { distribution: "constant", value: 0 } };

  test.each([
    ["zone", rectangular(0.6), { now: 60, steps: [{ to: 20 }] }, 0.2 / Math.sqrt(3)],
    ["window", rectangular(0.6), { now: 2, steps: [{ to: 8 }] }, 0.3 / Math.sqrt(3)],
    [
      "scale",
      { distribution: "normal", estimate: 0, expandedUncertainty: 4, coverageFactor: 2 },
      { steps: [{ to: 0.3 }] },
      0.6,
    ],
    [
      "readings",
      { distribution: "t", estimate: 5, standardUncertainty: 2, degreesOfFreedom: 3 },
      { steps: [{ to: 16 }] },
      1,
    ],
    // s of 1, 2, 3, 4 is √(5/3).
    ["readings", { distribution: "readings", values: [1, 2, 3, 4] }, { steps: [{ to: 15 }] }, Math.sqrt(5 / 3 / 15)],
    [
      "readings",
      { distribution: "readings", values: [1, 2], pooledStandardDeviation: 6, pooledDegreesOfFreedom: 40 },
      { steps: [{ to: 9 }] },
      2,
    ],
  ])("%s", (kind, a, fields, expected) => {
    expect(after({ kind, name: kind, inputs: ["a"], ...fields }, { a, ...none })).toBeCloseTo(expected, 12);
  });

  test("replace: figures may depend on the temperature, by table or function", () => {
    const lever = {
      kind: "replace",
      name: "reference",
      steps: [{ name: "better", inputs: { a: { ...normal(0), standardUncertainty: { function: "0.1 + 0.01*t" } } } }],
    };
    const { plan, proposed } = planOf(
      planFor({ target: 1e-9, levers: [lever] }),
      sum,
      studyOf({ a: normal(9), ...none }),
    );
    expect(plan.points.map((point) => point.proposed.standardUncertainty)).toEqual([
      expect.closeTo(0.1, 12),
      expect.closeTo(1.1, 12),
    ]);
    expect(plan.meets).toBe(false);
    expect(proposed.sweep!.points[1]!.inputs["a"]).toMatchObject({ distribution: "normal", standardUncertainty: 1.1 });
  });

  test("what a statement rested on goes with it: no evidence, and the source names the step", () => {
    const evidence = { method: "survey", figures: [], files: [{ name: "log.csv", sha256: "0".repeat(64) }] };
    const a = { ...rectangular(1), source: "survey", evidence };
    const lever = { kind: "zone", name: "zone", inputs: ["a"], now: 60, steps: [{ to: 30 }] };
    const { proposed } = planOf(planFor({ target: 1e-9, levers: [lever] }), sum, studyOf({ a, ...none }));
    expect(proposed.sweep!.points[0]!.inputs["a"]).toEqual({ ...rectangular(0.5), source: "zone: 30" });
  });
});

test("the proposal is the cheapest of all combinations that meet the target, each computed by itself", () => {
  const inputs = { a: rectangular(1.5), b: rectangular(2), c: normal(0.8) };
  const levers = [
    scale("a", "a", [0.8, 3], [0.5, 7], [0.2, 9]),
    scale("b", "b", [0.7, 4], [0.4, 6], [0.1, 12]),
    scale("c", "c", [0.6, 2], [0.3, 8]),
  ];
  /** u of each input by its step, none first. */
  const parts = [
    [1.5 / Math.sqrt(3), 1, 0.8, 0.5, 0.2],
    [2 / Math.sqrt(3), 1, 0.7, 0.4, 0.1],
    [0.8, 1, 0.6, 0.3],
  ];
  const costs = [
    [0, 3, 7, 9],
    [0, 4, 6, 12],
    [0, 2, 8],
  ];
  for (const target of [2.9, 2.2, 1.6, 1.1]) {
    const { plan } = planOf(planFor({ target, costUnit: "h", levers }), sum, studyOf(inputs));
    let cheapest = Infinity;
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++)
        for (let k = 0; k < 3; k++) {
          const cost = costs[0]![i]! + costs[1]![j]! + costs[2]![k]!;
          const u = [i, j, k].map((step, lever) => parts[lever]![0]! * parts[lever]![1 + step]!);
          // The linear budget's U; the distribution's is less where rectangular parts dominate, which the plan minds too.
          if (2 * Math.hypot(...u) <= target) cheapest = Math.min(cheapest, cost);
        }
    expect(plan.meets, String(target)).toBe(true);
    expect(plan.proposal.cost, String(target)).toBe(cheapest);
  }
});

describe("correlated inputs", () => {
  test("halving one of two that cancel each other", () => {
    const study = studyOf(
      { a: normal(1), b: normal(1), c: normal(0.1) },
      {},
      {
        correlations: [{ between: ["a", "b"], coefficient: -0.9 }],
      },
    );
    const { plan } = planOf(planFor({ levers: [scaleOnly("c")] }), sum, study);
    // √(u_a² + u_b² − 2·0.9·u_a·u_b + u_c²), with u_a halved: less cancels.
    const halved = plan.points[0]!.halvings.find(({ input }) => input === "a")!;
    expect(halved.claimed).toBeCloseTo(2 * Math.sqrt(0.25 + 1 - 0.9 + 0.01), 6);
    expect(halved.gain).toBeLessThan(0);
    expect(plan.points[0]!.now.claimed).toBeCloseTo(2 * prepare(sum, study).linear["y"]!.standardUncertainty, 6);
  });
});

describe("refused, with the place", () => {
  const study = studyOf({ a: normal(1), b: { distribution: "poisson", estimate: 4 }, c: rectangular(1) });
  const lever = scaleOnly("a");
  test.each<[string, object, RegExp]>([
    ["no lever", { levers: [] }, /levers.*at least 1/s],
    ["a kind that there is not", { levers: [{ ...lever, kind: "money" }] }, /levers\.0\.kind.*readings/s],
    [
      "two levers on one input",
      { levers: [lever, { ...lever, name: "again" }] },
      /levers\.1: got "a"; expected an input that no other lever changes: a does/s,
    ],
    ["two levers of one name", { levers: [lever, { ...scaleOnly("c"), name: "a" }] }, /levers\.1\.name.*another name/s],
    [
      "a cost without a unit",
      { levers: [scale("a", "a", [0.5, 3])] },
      /levers\.0\.steps\.0\.cost: got 3; expected no cost, or a costUnit/s,
    ],
    [
      "a unit without a cost",
      { costUnit: "h", levers: [lever] },
      /levers\.0\.steps\.0\.cost: got nothing; expected a cost in h/s,
    ],
    ["an input that is not there", { levers: [scaleOnly("zeta")] }, /levers\.0\.inputs.*"?zeta"?.*a, b, c/s],
    ["a statement without a width", { levers: [scaleOnly("b")] }, /levers\.0\.inputs: b.*poisson.*halfWidth/s],
    [
      "readings of what was not read",
      { levers: [{ ...scaleOnly("c"), kind: "readings", steps: [{ to: 9 }] }] },
      /levers\.0\.inputs: c.*rectangular.*readings, or a t distribution/s,
    ],
    ["a target of 0", { target: 0, levers: [lever] }, /target: got 0; expected a number greater than 0/s],
    [
      "a target that ends before the range",
      {
        target: {
          table: [
            [0, 1],
            [50, 2],
          ],
        },
        levers: [lever],
      },
      /target\.table.*pairs that reach 100/s,
    ],
    ["another measurand", { measurand: "z", levers: [lever] }, /measurand.*z.*one of y/s],
    [
      "too many combinations",
      {
        levers: ["a", "b", "c"]
          .map((input) => ({
            ...scaleOnly(input),
            name: input,
            steps: Array.from({ length: 12 }, (_, i) => ({ to: i + 1 })),
          }))
          .concat(
            ["d", "e"].map((input) => ({
              ...scaleOnly(input),
              name: input,
              steps: Array.from({ length: 12 }, (_, i) => ({ to: i + 1 })),
            })),
          ),
      },
      /levers: got "?371293 combinations.*at most 50000/s,
    ],
  ])("%s", (_, more, message) => {
    expect(() => planOf(planFor(more), sum, study)).toThrow(message);
  });

  test("a study without a sweep, or over two quantities", () => {
    const plan = planFor({ levers: [lever] });
    expect(() => planOf(plan, sum, { ...study, sweep: null })).toThrow(/sweep.*a sweep over one quantity/s);
    const grid = { ...study.sweep!, second: { quantity: "s", unit: "1" } };
    expect(() => planOf(plan, sum, { ...study, sweep: grid })).toThrow(/sweep.*two quantities/s);
  });
});

test("a target that depends on the temperature: the worst is a share of it", () => {
  const study = studyOf({ a: normal(1), b: normal(1), c: normal(1) });
  const target = {
    table: [
      [0, 2],
      [100, 7],
    ],
  };
  const found: Plan = planOf(planFor({ target, levers: [scaleOnly("a")] }), sum, study).plan;
  expect(found.target).toBeNull();
  expect(found.present.worst).toBeCloseTo((2 * Math.sqrt(3)) / 2, 6);
  expect(found.meets).toBe(false);
});

describe("a target at the margin of the prediction: U = 26 by k = 2, 20 000 trials", () => {
  const study = studyOf({ a: normal(3), b: normal(4), c: normal(12) });
  const half = scale("half of c", "c", [0.5, 5]);
  const plannedFor = (target: number) => planOf(planFor({ target, costUnit: "h", levers: [half] }), sum, study);

  test("the margin is twice the standard error of a quantile of M normal values, √(q(1 − q)/M)/φ(z), as a share of k", () => {
    // q = 0.97725, φ(2) = 0.053991 (tables of the normal distribution).
    const expected = (2 * Math.sqrt((0.97725 * 0.02275) / 20_000)) / 0.053991 / 2;
    expect(plannedFor(20).plan.margin / expected).toBeCloseTo(1, 4);
  });

  test("of an adaptive run it is the numerical tolerance at which it ends: u = 13 to two digits, δ = 0.5", () => {
    const { plan } = planOf(planFor({ target: 20, costUnit: "h", levers: [half] }), sum, {
      ...study,
      trials: "adaptive",
    });
    expect(plan.margin).toBeCloseTo(0.5 / 26, 6);
    expect(plan.trials).toBeNull();
  });

  test.each([
    [27, "met"],
    [26.4, "undecided"],
    [26.01, "undecided"],
    [25.9, "missed"],
  ])("target %d: %s as it is", (target, standing) => {
    expect(plannedFor(target).plan.present.standing).toBe(standing);
  });

  test.each([
    [11.67, "undecided"],
    [11.8, "undecided"],
    [12.2, "met"],
    [11.65, "missed"],
  ])("proposal with U = 2·√34 = 11.66 for target %d: %s, by prediction and by its run", (target, standing) => {
    const quarter = scale("quarter of c", "c", [0.25, 8]);
    const { plan, proposed } = planOf(planFor({ target, costUnit: "h", levers: [quarter] }), sum, study);
    expect(plan.proposal.choices).toHaveLength(1);
    expect(plan.proposal.standing).toBe(standing);
    expect(plan.points.map((point) => point.standing)).toEqual([standing, standing]);
    const found = confirmationOf(plan, runOf(proposed));
    // What the linear budget misses by itself, 11.65 < 11.66, is missed, whatever the trials leave open.
    expect(found.standing).toBe(standing);
    expect(found.agrees).toBe(true);
  });
});
