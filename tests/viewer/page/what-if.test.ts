import { describe, expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { bathComparison } from "../../../models/index.ts";
import {
  changedStatement,
  changedStudy,
  changeText,
  KINDS,
  readChange,
  widened,
} from "../../../viewer/page/what-if/study-change.ts";
import { changeLabels } from "../../../viewer/page/what-if/change-words.ts";
import { readEstimate, readFreedom, readWidth, widthFigure } from "../../../viewer/page/what-if/figure.ts";
import { labelText } from "../../../viewer/present/pictures/label.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { RECORDS } from "./fixed-records.ts";

const record = RECORDS["harrowfen/pasteuriser-72"]!;
const names = Object.keys(record.inputs).filter((name) => record.inputs[name]!.standardUncertainty > 0);

describe("a changed input", () => {
  test("keeps its estimate, and its standard uncertainty is the old one times the width", () => {
    for (const name of names) {
      for (const kind of KINDS) {
        const study = changedStudy(record, { inputs: { [name]: { kind, width: 2 } }, correlations: {} });
        const { budget } = prepare(bathComparison as never, readStudy(study)).knowledge[name]!;
        const { estimate, standardUncertainty: u } = record.inputs[name]!;
        // Fixtures keep eight digits: the difference of large readings has fewer.
        expect(Math.abs(budget.estimate - estimate), `${name} ${kind}`).toBeLessThanOrEqual(1e-6 * Math.abs(estimate));
        expect(budget.standardUncertainty / u, `${name} ${kind}`).toBeCloseTo(2, 2);
      }
    }
  });

  test("of width 0 is a constant and leaves its correlations", () => {
    const [a, b] = names as [string, string];
    const study = changedStudy(record, {
      inputs: { [a]: { kind: "stated", width: 0 } },
      correlations: { [`${a}:${b}`]: 0.5 },
    });
    expect(study.inputs[a]).toMatchObject({ distribution: "constant", value: record.inputs[a]!.estimate });
    expect(study.correlations).toEqual([]);
  });

  test("with limits keeps its middle", () => {
    expect(widened({ distribution: "rectangular", lower: 9.8, upper: 10.4 }, 0.5)).toMatchObject({
      lower: expect.closeTo(9.95, 12) as number,
      upper: expect.closeTo(10.25, 12) as number,
    });
    expect(widened({ distribution: "gamma", shape: 2, scale: 1 }, 2)).toBeNull();
    expect(
      changedStatement({ distribution: "gamma" }, record.inputs[names[0]!]!, { kind: "normal", width: 1 }),
    ).toMatchObject({
      distribution: "normal",
    });
  });
});

test("a change survives the address; nonsense in it is left out", () => {
  const [a, b] = names as [string, string];
  const change = {
    inputs: { [a]: { kind: "normal", width: 1.6 } },
    correlations: { [`${a}:${b}`]: -0.3 },
  } as const;
  const { tries, pairs } = changeText(change);
  expect(readChange(tries!, pairs!, record)).toEqual(change);
  expect(
    readChange(
      `nobody:normal:1 ${a}:odd:1 ${a}:normal:7777 ${a}:normal:-1 ${a}:normal`,
      `${a}:${a}:0.5 ${a}:${b}:7`,
      record,
    ),
  ).toEqual({
    inputs: {},
    correlations: {},
  });
});

describe("a width as people type it", () => {
  // An input in °C, rectangular, half-width 0.0025 °C; and one of readings, whose width is its standard uncertainty.
  const known = {
    ...record,
    inputs: {
      ...record.inputs,
      bathAxial: { ...record.inputs["bathAxial"]!, unit: "°C", standardUncertainty: 0.0025 / Math.sqrt(3) },
    },
    study: {
      ...record.study,
      inputs: { ...record.study.inputs, bathAxial: { distribution: "rectangular", estimate: 0, halfWidth: 0.0025 } },
    },
  } as typeof record;
  test.each([
    ["4 mK", 1.6],
    ["4mK", 1.6],
    ["0.004", 1.6],
    ["0,004 °C", 1.6],
    ["0.004 K", 1.6],
    ["4e-3", 1.6],
    ["×1.2", 1.2],
    ["x 1,2", 1.2],
    ["* 1.2", 1.2],
    ["+10 %", 1.1],
    ["−10%", 0.9],
    ["-10 %", 0.9],
    ["50 %", 0.5],
    ["0", 0],
    ["", 1],
    [" ", 1],
  ])("%j", (text, width) => {
    const read = readWidth(text, known, "bathAxial", "stated");
    expect(read).toEqual({ width: expect.closeTo(width, 12) as number });
  });

  test.each([
    ["wide", "nothing read"],
    ["-4 mK", "nothing read"],
    ["−150 %", "nothing read"],
    ["1.2.3", "unit"],
    ["4 mV", "unit"],
    ["1e999", "too wide"],
    ["×1001", "too wide"],
    ["__proto__", "nothing read"],
  ])("%j is refused", (text, wrong) => {
    expect(readWidth(text, known, "bathAxial", "stated")).toMatchObject({ wrong });
  });

  test("of another distribution is its own figure: a half-width, or the standard uncertainty", () => {
    const u = 0.0025 / Math.sqrt(3);
    expect(widthFigure(known, "bathAxial", "normal")).toEqual({ name: "standard", value: u });
    expect(widthFigure(known, "bathAxial", "triangular")).toEqual({
      name: "halfWidth",
      value: expect.closeTo(Math.sqrt(6) * u, 15) as number,
    });
    expect(readWidth("4 mK", known, "bathAxial", "normal")).toEqual({ width: expect.closeTo(0.004 / u, 10) as number });
  });

  test("of a distribution that has no single one is only 0 or as stated", () => {
    const gamma = {
      ...known,
      study: { ...known.study, inputs: { bathAxial: { distribution: "gamma", shape: 2, scale: 1 } } },
    } as unknown as typeof record;
    expect(readWidth("×2", gamma, "bathAxial", "stated")).toMatchObject({ wrong: "no single width" });
    expect(readWidth("×2", gamma, "bathAxial", "normal")).toEqual({ width: 2 });
    expect(readWidth("0", gamma, "bathAxial", "stated")).toEqual({ width: 0 });
  });

  test("stands in the words of a change, in both languages", () => {
    const change = { inputs: { bathAxial: { kind: "stated", width: 1.6 } }, correlations: {} } as const;
    const words = (language: "en" | "de"): string[] => changeLabels(known, change, languages[language]).map(labelText);
    expect(words("en")).toEqual(["δt_ax: half-width 0.0025\u00a0°C → 0.004\u00a0°C"]);
    expect(words("de")[0]).toMatch(/^δt_ax: Halbweite /);
  });
});

/** The record with an input stated otherwise; what is known of it follows from the engine. */
function stating(statement: Readonly<Record<string, unknown>>, quantity: Readonly<Record<string, unknown>> = {}) {
  const study = {
    ...record.study,
    inputs: { ...record.study.inputs, bathAxial: statement },
  } as unknown as typeof record.study;
  const { budget } = prepare(bathComparison as never, readStudy(study)).knowledge["bathAxial"]!;
  return {
    ...record,
    study,
    inputs: {
      ...record.inputs,
      bathAxial: {
        ...record.inputs["bathAxial"]!,
        ...budget,
        distribution: String(statement["distribution"]),
        ...quantity,
      },
    },
  } as typeof record;
}

describe("an estimate as people type it", () => {
  const difference = stating(
    { distribution: "normal", estimate: 0.01, standardUncertainty: 0.002 },
    { unit: "°C", difference: true },
  );
  const temperature = stating(
    { distribution: "normal", estimate: 72, standardUncertainty: 0.002 },
    { unit: "°C", difference: false },
  );

  test.each([
    ["4 mK", 0.004],
    ["0,004", 0.004],
    ["=-4 mK", -0.004],
    ["=−0,004 K", -0.004],
    ["+0.5 mK", 0.0105],
    ["−0.5 mK", 0.0095],
    ["- 0,5 mK", 0.0095],
    ["+0.001", 0.011],
    ["×1.2", 0.012],
    ["+10 %", 0.011],
    ["−10 %", 0.009],
    ["", null],
  ])("of a difference: %j", (text, estimate) => {
    expect(readEstimate(text, difference, "bathAxial", "stated")).toEqual({ estimate });
  });

  test.each([
    // 0 °C is 273.15 K exactly (SI Brochure, 2.3.1).
    ["345.16 K", 72.01],
    ["72.01 °C", 72.01],
    ["+10 mK", 72.01],
    ["+0.01 °C", 72.01],
    ["−0.01 K", 71.99],
  ])("of a temperature: %j", (text, estimate) => {
    expect(readEstimate(text, temperature, "bathAxial", "stated")).toEqual({
      estimate: expect.closeTo(estimate, 10) as number,
    });
  });

  test.each([
    ["warm", "nothing read"],
    ["72 mK", "unit"],
    ["+1 Ω", "unit"],
    ["1e999", "not finite"],
    ["1.2.3", "unit"],
    ["=", "nothing read"],
  ])("%j is refused", (text, wrong) => {
    expect(readEstimate(text, temperature, "bathAxial", "stated")).toMatchObject({ wrong });
  });

  test("of a distribution that states no place is refused until another one is chosen", () => {
    const gamma = stating({ distribution: "gamma", shape: 2, scale: 0.001 });
    expect(readEstimate("1 mK", gamma, "bathAxial", "stated")).toMatchObject({ wrong: "no single estimate" });
    expect(readEstimate("1 mK", gamma, "bathAxial", "normal")).toEqual({ estimate: 0.001 });
  });
});

describe("what is changed of an input reaches the engine", () => {
  const after = (known: typeof record, change: Partial<Parameters<typeof changedStudy>[1]["inputs"][string]>) => {
    const study = changedStudy(known, {
      inputs: { bathAxial: { kind: "stated", width: 1, ...change } },
      correlations: {},
    });
    return prepare(bathComparison as never, readStudy(study)).knowledge["bathAxial"]!.budget;
  };
  const STATEMENTS = [
    { distribution: "normal", estimate: 0.01, standardUncertainty: 0.002 },
    { distribution: "t", estimate: 0.01, standardUncertainty: 0.002, degreesOfFreedom: 9 },
    { distribution: "rectangular", lower: 0.004, upper: 0.016 },
    { distribution: "triangular", estimate: 0.01, halfWidth: 0.002 },
    { distribution: "trapezoidal", estimate: 0.01, halfWidth: 0.002, topRatio: 0.5 },
    { distribution: "asymmetric-rectangular", lower: 0.004, estimate: 0.009, upper: 0.016 },
    { distribution: "asymmetric-triangular", lower: 0.004, mode: 0.009, upper: 0.016 },
    { distribution: "readings", values: [0.01, 0.011, 0.009] },
    { distribution: "constant", value: 0.01 },
    { distribution: "normal", estimate: 10, expandedUncertainty: 4, coverageFactor: 2, unit: "mK" },
  ];

  test.each(STATEMENTS)("an estimate, and what is known about it stays: %j", (statement) => {
    const known = stating(statement);
    const { estimate, standardUncertainty: u } = known.inputs["bathAxial"]!;
    const found = after(known, { estimate: 0.0125 });
    expect(found.estimate).toBeCloseTo(0.0125, 14);
    expect(found.standardUncertainty).toBeCloseTo(u, 14);
    expect(estimate).not.toBeCloseTo(0.0125, 5);
    // With another width it is where it was typed, too.
    if (u > 0) {
      const wider = after(known, { estimate: 0.0125, width: 3 });
      expect(wider.estimate).toBeCloseTo(0.0125, 14);
      if (!statement.distribution.startsWith("asym") && statement.distribution !== "trapezoidal")
        expect(wider.standardUncertainty).toBeCloseTo(3 * u, 14);
    }
  });

  test("degrees of freedom, of a t, of doubtful limits and of a pooled deviation", () => {
    const [, t, limits] = STATEMENTS.map((one) => stating(one));
    expect(after(t!, { freedom: 4 }).degreesOfFreedom).toBe(4);
    expect(after(limits!, { freedom: 12.5 }).degreesOfFreedom).toBe(12.5);
    expect(after(limits!, {}).degreesOfFreedom).toBe(Infinity);
    expect(after(t!, { kind: "triangular", freedom: 8 }).degreesOfFreedom).toBe(8);
    const pooled = stating({
      distribution: "readings",
      values: [0.01],
      pooledStandardDeviation: 0.002,
      pooledDegreesOfFreedom: 19,
    });
    expect(after(pooled, { freedom: 7 }).degreesOfFreedom).toBe(7);
  });

  test.each([
    [1, "9", { freedom: 9 }],
    [1, "4,5", { freedom: 4.5 }],
    [1, "×2", { freedom: 18 }],
    [1, "∞", { wrong: "infinite" }],
    [1, "0.2", { wrong: "nothing read" }],
    [1, "many", { wrong: "nothing read" }],
    [2, "∞", { freedom: Infinity }],
    [2, "inf", { freedom: Infinity }],
    [0, "8", { wrong: "none" }],
    [7, "8", { wrong: "none" }],
    [1, "", { freedom: null }],
  ])("statement %i: ν typed as %j", (i, text, read) => {
    expect(readFreedom(text, stating(STATEMENTS[i]!), "bathAxial", "stated")).toEqual(read);
  });

  test("the address keeps estimate and ν, and leaves out what the statement has no place for", () => {
    const known = stating(STATEMENTS[1]!);
    const change = {
      inputs: { bathAxial: { kind: "stated", width: 1, estimate: -0.0125, freedom: 4 } },
      correlations: {},
    } as const;
    expect(changeText(change).tries).toBe("bathAxial:stated:1:-0.0125:4");
    expect(readChange(changeText(change).tries!, undefined, known)).toEqual(change);
    const only = { inputs: { bathAxial: { kind: "stated", width: 1, freedom: 4 } }, correlations: {} } as const;
    expect(readChange(changeText(only).tries!, undefined, known)).toEqual(only);
    expect(readChange("bathAxial:stated:1:-0.0125:4", undefined, stating(STATEMENTS[7]!)).inputs).toEqual({
      bathAxial: { kind: "stated", width: 1, estimate: -0.0125 },
    });
    expect(readChange("bathAxial:stated:1:1e999:-4", undefined, known).inputs).toEqual({});
    expect(readChange("bathAxial:stated:1::Infinity", undefined, known).inputs).toEqual({});
  });

  test("stands in the words of a change", () => {
    const change = {
      inputs: { bathAxial: { kind: "stated", width: 1, estimate: 0.0125, freedom: 4 } },
      correlations: {},
    } as const;
    expect(changeLabels(stating(STATEMENTS[1]!), change, languages.en).map(labelText)).toEqual([
      expect.stringMatching(/^δt_ax: Estimate 0\.01.0?°?.* → 0\.0125.*, ν 9 → 4$/) as string,
    ]);
  });

  test("the width of a statement in a unit of its own is told in the input's", () => {
    const known = stating(STATEMENTS[9]!);
    // U = 4 mK with k = 2.
    expect(widthFigure(known, "bathAxial", "stated")).toEqual({
      name: "expanded",
      value: expect.closeTo(0.004, 14) as number,
    });
  });
});
