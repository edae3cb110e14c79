import { describe, expect, test } from "vitest";
import type { RunRecord } from "../../../engine/index.ts";
import { correlationPairs, inputPairs, resultPairs, settingPairs } from "../../../viewer/page/compare/differences.ts";
import { runExample } from "../../read-example.ts";

const first = runExample("published/additive-rectangular", { trials: 20_000 });
const otherSeed = runExample("published/additive-rectangular", { trials: 20_000, seed: "another" });
const normal = runExample("published/additive-normal", { trials: 20_000 });
const standings = (a: RunRecord, b: RunRecord): Record<string, string> =>
  Object.fromEntries(
    resultPairs(a.measurands["y"]!, b.measurands["y"]!).map(({ label, standing }) => [label, standing]),
  );

describe("two runs beside each other", () => {
  test("the same run does not differ from itself", () => {
    expect(new Set(Object.values(standings(first, first)))).toEqual(new Set(["same"]));
    expect(new Set(inputPairs(first, first, "y").map(({ standing }) => standing))).toEqual(new Set(["same"]));
  });

  test("another seed moves the trials' figures by scatter alone, the budget's not at all", () => {
    const found = standings(first, otherSeed);
    expect(found["linear: standard uncertainty u(y)"]).toBe("same");
    expect(found["Monte Carlo: standard uncertainty"]).toBe("scatter");
    expect(
      settingPairs(first, otherSeed)
        .filter(({ standing }) => standing === "differs")
        .map(({ label }) => label),
    ).toEqual(["seed"]);
  });

  test("rectangular and normal inputs with one u differ as inputs, not in u (JCGM 101, 9.2.2 and 9.2.3)", () => {
    const found = standings(first, normal);
    expect(found["linear: standard uncertainty u(y)"]).toBe("same");
    expect(inputPairs(first, normal, "y").every(({ standing }) => standing === "differs")).toBe(true);
    expect(inputPairs(first, normal, "y")[0]!.shares).toEqual(["25 %", "25 %"]);
  });

  test("a difference smaller than the rounding is still shown", () => {
    const moved = structuredClone(first) as unknown as { measurands: { y: { linear: { estimate: number } } } };
    moved.measurands.y.linear.estimate += 1e-6;
    const pair = resultPairs(first.measurands["y"]!, (moved as unknown as RunRecord).measurands["y"]!).find(
      ({ label }) => label === "linear: estimate y",
    )!;
    expect(pair).toMatchObject({ standing: "differs", change: "+0.000001" });
    expect(pair.first).not.toBe(pair.second);
  });

  test("a statement written in another order of fields is the same", () => {
    const turned = structuredClone(first) as unknown as { study: { inputs: Record<string, object> } };
    for (const [name, statement] of Object.entries(turned.study.inputs))
      turned.study.inputs[name] = Object.fromEntries(Object.entries(statement).toReversed());
    expect(inputPairs(first, turned as unknown as RunRecord, "y").every(({ standing }) => standing === "same")).toBe(
      true,
    );
  });

  test("inputs that only one run has, and correlations, are told", () => {
    const [plain, correlated] = [
      runExample("published/comparison-loss-10", { trials: 10_000 }),
      runExample("published/comparison-loss-10-correlated", { trials: 10_000 }),
    ];
    expect(correlationPairs(plain, correlated)).toEqual([
      { label: "imaginary and real", first: "none", second: "0.9", change: "", standing: "differs" },
    ]);
    const pairs = inputPairs(first, plain, "y");
    expect(pairs.filter((pair) => pair.first === null).map(({ name }) => name)).toEqual(
      Object.keys(plain.inputs).filter((name) => !Object.hasOwn(first.inputs, name)),
    );
  });
});
