import { describe, expect, test } from "vitest";
import {
  differenceStatement,
  evaluateReadings,
  readDocument,
  readingsSchema,
  statedReadings,
} from "../../../../models/index.ts";

const described = (rows: unknown, more: object = {}) =>
  readDocument(readingsSchema, { title: "t", reference: "R", channels: { R: {}, X: {} }, rows, ...more });
const evaluated = (rows: unknown, more: object = {}) => {
  const description = described(rows, more);
  const { indications, timed } = statedReadings(description);
  return evaluateReadings(description, indications, timed)[0]!;
};

/**
 * JCGM 100, annex H.2 gives the mean and the experimental standard deviation of the mean of five simultaneous observations:
 * V = 5.007, 4.994, 5.005, 4.990, 4.999; mean 4.9990, s(mean) 0.0032 (table H.2). Here they are differences to a reference at 0.
 */
const H2 = [5.007, 4.994, 5.005, 4.99, 4.999];

describe("readings that stand in their description", () => {
  test("read together: type A of the differences, by JCGM 100, table H.2", () => {
    const found = evaluated(H2.map((X) => ({ readings: { R: 0, X } })));
    expect(found).toMatchObject({ together: true, timed: false, uncorrectedShift: 0 });
    expect(found.typeA.mean).toBeCloseTo(4.999, 10);
    expect(found.typeA.standardUncertainty).toBeCloseTo(0.0032, 4);
    expect(found.typeA.degreesOfFreedom).toBe(4);
    expect(differenceStatement(found)).toMatchObject({ distribution: "readings", values: H2 });
    expect(found.reasoning[0]).toMatch(/^5 pairs read together: /);
  });

  test("a bath that drifts leaves no trace in pairs, nor in cycles R X X R in the order of the rows", () => {
    const bath = (row: number): number => 37 + 0.004 * row;
    const pairs = evaluated(
      [0, 1, 2, 3].map((row) => ({ time: 60 * row, readings: { R: bath(row), X: bath(row) + 0.02 } })),
    );
    expect(pairs.timed).toBe(true);
    expect(pairs.typeA.mean).toBeCloseTo(0.02, 12);
    expect(pairs.reasoning.some((line) => line.startsWith("the reference drifted by 4.00 mK a minute"))).toBe(true);
    const turns = evaluated(
      ["R", "X", "X", "R", "R", "X", "X", "R"].map((channel, row) => ({
        readings: { [channel]: bath(row) + (channel === "X" ? 0.02 : 0) },
      })),
    );
    expect(turns.together).toBe(false);
    expect(turns.sequence.cycles).toHaveLength(2);
    expect(turns.typeA.mean).toBeCloseTo(0.02, 12);
  });

  test("units are converted by channel", () => {
    const found = evaluated(
      [0.001, 0.002].map((d) => ({ readings: { R: 37, X: 310.15 + d } })),
      { channels: { R: { unit: "°C" }, X: { unit: "K" } } },
    );
    expect(found.typeA.mean).toBeCloseTo(0.0015, 10);
  });

  test.each([
    [[{ readings: { R: 1, Y: 1 } }], {}, /rows\.0\.readings\.Y: got 1; expected readings of the channels R, X/],
    [[{ readings: {} }], {}, /rows\.0: .*no reading.*expected a reading of at least one channel/],
    [[{ time: 1, readings: { R: 1 } }, { readings: { X: 1 } }], {}, /rows\.1\.time: .*expected a time in every row/],
    [
      [
        { time: 5, readings: { R: 1 } },
        { time: 5, readings: { X: 1 } },
      ],
      {},
      /rows\.1\.time: .*expected a time after 5 s/,
    ],
    [[{ readings: { R: -300 } }], {}, /rows\.0\.readings\.R: got -300; expected a temperature that can be/],
    [[{ readings: { R: 1 } }], { channels: { R: { unit: "mK" }, X: {} } }, /channels: .*expected mK for every channel/],
    [[{ readings: { R: 1 } }], { channels: { R: { unit: "bar" }, X: {} } }, /channels\.R\.unit: .*expected °C/],
    [[{ readings: { R: 1 } }], { channels: { R: { unit: "Ω" }, X: {} } }, /channels\.R\.nominalResistance/],
  ])("%j is refused with its place", (rows, more, words) => {
    expect(() => statedReadings(described(rows, more))).toThrow(words);
  });
});
