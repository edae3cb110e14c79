import { describe, expect, test } from "vitest";
import type { RunRecord } from "../../../engine/index.ts";
import {
  correlationPairs,
  inputPairs,
  parameterPairs,
  resultPairs,
  settingPairs,
} from "../../../viewer/present/differences.ts";
import { labelText } from "../../../viewer/present/pictures/label.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { ENGLISH } from "../../../viewer/present/statement.ts";
import { runExample } from "../../read-example.ts";

const first = runExample("published/additive-rectangular", { trials: 20_000 });
const otherSeed = runExample("published/additive-rectangular", { trials: 20_000, seed: "another" });
const normal = runExample("published/additive-normal", { trials: 20_000 });
const standings = (a: RunRecord, b: RunRecord): Record<string, string> =>
  Object.fromEntries(
    resultPairs(a.measurands["y"]!, b.measurands["y"]!, ENGLISH).map(({ id, standing }) => [id, standing]),
  );

describe("two runs beside each other", () => {
  test("the same run does not differ from itself", () => {
    expect(new Set(Object.values(standings(first, first)))).toEqual(new Set(["same"]));
    expect(new Set(inputPairs(first, first, "y", ENGLISH).map(({ standing }) => standing))).toEqual(new Set(["same"]));
  });

  test("another seed moves the trials' figures by scatter alone, the budget's not at all", () => {
    const found = standings(first, otherSeed);
    expect(found["linear uncertainty"]).toBe("same");
    expect(found["trials uncertainty"]).toBe("scatter");
    expect(
      settingPairs(first, otherSeed, ENGLISH)
        .filter(({ standing }) => standing === "differs")
        .map(({ id }) => id),
    ).toEqual(["seed"]);
  });

  test("rectangular and normal inputs with one u differ as inputs, not in u (JCGM 101, 9.2.2 and 9.2.3)", () => {
    const found = standings(first, normal);
    expect(found["linear uncertainty"]).toBe("same");
    expect(inputPairs(first, normal, "y", ENGLISH).every(({ standing }) => standing === "differs")).toBe(true);
    expect(inputPairs(first, normal, "y", ENGLISH)[0]!.shares).toEqual(["25.0\u00a0%", "25.0\u00a0%"]);
  });

  test("a difference smaller than the rounding is still shown", () => {
    const moved = structuredClone(first) as unknown as { measurands: { y: { linear: { estimate: number } } } };
    moved.measurands.y.linear.estimate += 1e-6;
    const pair = resultPairs(first.measurands["y"]!, (moved as unknown as RunRecord).measurands["y"]!, ENGLISH).find(
      ({ id }) => id === "linear estimate",
    )!;
    expect(pair).toMatchObject({ standing: "differs", change: "+0.000001" });
    expect(pair.first).not.toBe(pair.second);
  });

  test("each figure has its own unit: those of the measurand, and pure numbers", () => {
    const probe = runExample("harrowfen/steriliser-134", { trials: 10_000 }).measurands["error"]!;
    const pairs = resultPairs(probe, probe, ENGLISH);
    const pure = pairs.filter(({ unit }) => unit === "1");
    expect(pure.map(({ id }) => id)).toEqual(["verdict", "linear factor", "linear freedom", "trials"]);
    expect(new Set(pairs.map(({ unit }) => unit))).toEqual(new Set(["1", probe.unit]));
  });

  test("rows are named as in the other tables, in either language", () => {
    const y = first.measurands["y"]!;
    const labels = (language: "en" | "de"): string[] =>
      resultPairs(y, y, { ...ENGLISH, messages: languages[language] }).map(({ label }) => labelText(label));
    expect(labels("en").slice(0, 3)).toEqual([
      "Verdict",
      "Estimate Y (linear budget)",
      "Standard uncertainty u(Y) (linear budget)",
    ]);
    expect(labels("de").slice(0, 3)).toEqual([
      "Urteil",
      "Schätzwert Y (lineares Budget)",
      "Standardunsicherheit u(Y) (lineares Budget)",
    ]);
    expect(new Set(labels("en")).size).toBe(labels("en").length);
  });

  test("a statement written in another order of fields is the same", () => {
    const turned = structuredClone(first) as unknown as { study: { inputs: Record<string, object> } };
    for (const [name, statement] of Object.entries(turned.study.inputs))
      turned.study.inputs[name] = Object.fromEntries(Object.entries(statement).toReversed());
    expect(
      inputPairs(first, turned as unknown as RunRecord, "y", ENGLISH).every(({ standing }) => standing === "same"),
    ).toBe(true);
  });

  test("only the figures of an input that differ are marked, with their units", () => {
    const name = Object.keys(first.study.inputs)[0]!;
    const [unit, stated] = ["mK", { distribution: "rectangular", estimate: 0.5, halfWidth: 2 }];
    const of = (statement: object): RunRecord => {
      const made = structuredClone(first) as unknown as {
        study: { inputs: Record<string, object> };
        inputs: Record<string, { unit: string }>;
      };
      made.study.inputs[name] = statement;
      made.inputs[name]!.unit = unit;
      return made as unknown as RunRecord;
    };
    const [pair] = inputPairs(of(stated), of({ ...stated, halfWidth: 3 }), "y", ENGLISH, () => ({
      estimate: "input",
      halfWidth: "input",
    }));
    expect(pair!.statements[0]).toEqual([
      { text: "rectangular", differs: false },
      { text: "estimate 0.5\u00a0mK", differs: false },
      { text: "half-width 2\u00a0mK", differs: true },
    ]);
    expect(pair!.statements[1][2]).toEqual({ text: "half-width 3\u00a0mK", differs: true });
  });

  test("parameters are told one by one, by the symbols of their quantities", () => {
    const scaled = structuredClone(first) as unknown as {
      study: { parameters: { coefficients: Record<string, number> } };
    };
    const name = Object.keys(scaled.study.parameters.coefficients)[1]!;
    scaled.study.parameters.coefficients[name] = -2.5;
    const pairs = parameterPairs(first, scaled as unknown as RunRecord, ENGLISH);
    const differing = pairs.filter(({ standing }) => standing === "differs");
    expect(differing.map(({ label, first: before, second }) => [labelText(label), before, second])).toEqual([
      [`Sensitivity coefficient of ${first.inputs[name]!.symbol}`, "1", "−2.5"],
    ]);
    expect(pairs[0]).toMatchObject({ id: "model", standing: "same" });
    expect(parameterPairs(first, normal, ENGLISH).every(({ standing }) => standing === "same")).toBe(true);
  });

  test("inputs that only one run has, and correlations, are told", () => {
    const [plain, correlated] = [
      runExample("published/comparison-loss-10", { trials: 10_000 }),
      runExample("published/comparison-loss-10-correlated", { trials: 10_000 }),
    ];
    const { real, imaginary } = plain.inputs;
    expect(
      correlationPairs(plain, correlated, ENGLISH).map(({ label, ...pair }) => ({ label: labelText(label), ...pair })),
    ).toEqual([
      {
        id: "correlation imaginary real",
        label: `Correlation of ${imaginary!.symbol} and ${real!.symbol}`,
        unit: "1",
        first: "none",
        second: "0.9",
        change: "",
        standing: "differs",
      },
    ]);
    const pairs = inputPairs(first, plain, "y", ENGLISH);
    expect(pairs.filter((pair) => pair.first === null).map(({ name }) => name)).toEqual(
      Object.keys(plain.inputs).filter((name) => !Object.hasOwn(first.inputs, name)),
    );
  });
});
