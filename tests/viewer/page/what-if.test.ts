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
import { readWidth, widthFigure } from "../../../viewer/page/what-if/figure.ts";
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
