// What depends on the swept quantities, at each point; documents that cannot be used, with their place.
import { describe, expect, test } from "vitest";
import { InputError, type StudyDocument } from "../../../engine/index.ts";
import { loadEquationReader, plannedPoints, readSweep, sweepStudyOf } from "../../../models/index.ts";
import { readExample } from "../../read-example.ts";

await loadEquationReader();

const study = readExample("harrowfen/cold-store-4") as unknown as StudyDocument;
const axis = { quantity: "bath temperature", unit: "°C", values: [100, 0, 50] };
const rectangular = (halfWidth: unknown) => ({ distribution: "rectangular", estimate: 0, halfWidth });
const base = { study: "study.json", over: [axis] };
const made = (document: object) => sweepStudyOf(readSweep({ ...base, ...document }), study, () => ({}));
const valuesOf = (document: object, input: string, field: string): readonly unknown[] =>
  made(document).sweep!.points.map(({ inputs }) => (inputs as Record<string, Record<string, unknown>>)[input]![field]);

describe("figures that depend on what is swept", () => {
  test("points stand in order; a table has straight lines between its pairs", () => {
    const inputs = {
      bathAxial: rectangular({
        table: [
          [0, 0.002],
          [40, 0.002],
          [100, 0.008],
        ],
      }),
    };
    expect(made({ inputs }).sweep!.points.map(({ at }) => at)).toEqual([0, 50, 100]);
    const [first, second, third] = valuesOf({ inputs }, "bathAxial", "halfWidth") as [number, number, number];
    expect([first, third]).toEqual([0.002, 0.008]);
    expect(second).toBeCloseTo(0.003, 15);
  });

  test("an expression in t and s over a grid", () => {
    const second = { quantity: "depth", unit: "mm", values: [100, 200] };
    const document = {
      over: [axis, second],
      inputs: { immersion: rectangular({ function: "0.001 + t*1e-5 + s/1e5" }) },
    };
    const found = valuesOf(document, "immersion", "halfWidth") as number[];
    [0.002, 0.003, 0.0025, 0.0035, 0.003, 0.004].forEach((value, i) => expect(found[i]).toBeCloseTo(value, 15));
    expect(made(document).sweep!.second).toEqual({ quantity: "depth", unit: "mm" });
  });

  test("the resistance by IEC 60751: its table at 0, 50 and 100 °C", () => {
    const inputs = {
      probeResistance: { distribution: "normal", estimate: { resistance: 100 }, standardUncertainty: 1e-3 },
    };
    const found = valuesOf({ inputs }, "probeResistance", "estimate") as number[];
    // IEC 60751:2008, table 1, to 0.01 Ω.
    [100, 119.4, 138.51].forEach((value, i) => expect(Math.abs(found[i]! - value)).toBeLessThan(0.005));
  });

  test("where two parts of a range meet, both are evaluated, each with its own statements", () => {
    const ranges = [
      { name: "water", from: 0, to: 60, inputs: { bathRadial: rectangular(0.001) } },
      { name: "oil", from: 60, to: 100, inputs: { bathRadial: rectangular(0.004) } },
    ];
    const { points } = made({ ranges }).sweep!;
    expect(points.map(({ at, part }) => [at, part])).toEqual([
      [0, "water"],
      [50, "water"],
      [60, "water"],
      [60, "oil"],
      [100, "oil"],
    ]);
    expect(valuesOf({ ranges }, "bathRadial", "halfWidth")).toEqual([0.001, 0.001, 0.001, 0.004, 0.004]);
  });

  test("from, to and count make an even grid with exact ends", () => {
    const planned = plannedPoints(
      readSweep({ ...base, over: [{ quantity: "t", unit: "°C", from: -40, to: 134, count: 4 }] }),
    );
    expect(planned.map(({ t }) => t)).toEqual([-40, 18, 76, 134]);
  });
});

describe("refused, with its place", () => {
  test.each<[string, object, RegExp]>([
    ["no swept quantity", { over: [] }, /^over/],
    [
      "values beside from",
      { over: [{ ...axis, from: 1 }] },
      /^over\.0.*either values, or from, to \(greater\) and count/,
    ],
    ["from beyond to", { over: [{ quantity: "t", unit: "°C", from: 9, to: 1, count: 3 }] }, /^over\.0.*either values/],
    ["a value twice", { over: [{ ...axis, values: [1, 1] }] }, /^over\.0\.values.*each value once/],
    [
      "a value in no part of the range",
      { ranges: [{ name: "water", from: 0, to: 60 }] },
      /^over\.0: got 100; expected values within a part of the range: water 0 to 60/,
    ],
    [
      "two parts of one name",
      {
        ranges: [
          { name: "a", from: 0, to: 60 },
          { name: "a", from: 60, to: 100 },
        ],
      },
      /^ranges\.1\.name: got "a"; expected another name/,
    ],
    [
      "a table that does not reach",
      {
        inputs: {
          bathAxial: rectangular({
            table: [
              [0, 1],
              [90, 2],
            ],
          }),
        },
      },
      /^inputs\.bathAxial\.halfWidth\.table: got "?0 to 90"?; expected pairs that reach 100/,
    ],
    [
      "a table out of order",
      {
        inputs: {
          bathAxial: rectangular({
            table: [
              [90, 1],
              [0, 2],
            ],
          }),
        },
      },
      /^inputs\.bathAxial\.halfWidth\.table\.1: got 0; expected a value greater than the one before it, 90/,
    ],
    [
      "another name in an expression",
      { inputs: { bathAxial: rectangular({ function: "2*x" }) } },
      /^inputs\.bathAxial\.halfWidth\.function: got "?x"?; expected t, the first swept quantity, or s/,
    ],
    [
      "the second quantity where there is one",
      { inputs: { bathAxial: rectangular({ function: "s" }) } },
      /^inputs\.bathAxial\.halfWidth\.function: got "?s"?; expected t alone/,
    ],
    [
      "no finite number",
      { inputs: { bathAxial: rectangular({ function: "1/t" }) } },
      /^inputs\.bathAxial\.halfWidth\.function: got .*; expected a finite number at t = 0/,
    ],
    [
      "an expression that cannot be read",
      { inputs: { bathAxial: rectangular({ function: "2*" }) } },
      /^inputs\.bathAxial\.halfWidth\.function/,
    ],
    [
      "more points than a sweep has",
      {
        over: [
          { quantity: "t", unit: "°C", from: 0, to: 1, count: 100 },
          { quantity: "s", unit: "1", from: 0, to: 1, count: 101 },
        ],
      },
      /^over: got "?10100 points"?; expected at most 10000/,
    ],
  ])("%s", (_, document, message) => {
    try {
      made(document);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      const [{ place, value, accepted }] = (error as InputError).problems as [
        { place: string; value: string; accepted: string },
      ];
      expect(`${place}: got ${value}; expected ${accepted}`).toMatch(message);
    }
  });
});
