import { describe, expect, test } from "vitest";
import { InputError } from "../../../../engine/index.ts";
import { checkResistance, toCelsius } from "../../../../models/evaluation/log/resistance.ts";
import { referenceRatio } from "../../../../models/platinum/index.ts";

const its90 = (subRange: string, coefficients: Record<string, number>) => ({
  its90: { subRange, triplePointResistance: 25.5, coefficients },
});

describe("a standard thermometer in a log", () => {
  // W_r at the fixed points: Metrologia 27 (1990) 3–10, table 1, last column, given to eight decimals.
  test.each([
    ["gallium", 29.7646, 1.11813889],
    ["indium", 156.5985, 1.60980185],
    ["tin", 231.928, 1.89279768],
    ["zinc", 419.527, 2.5689173],
  ])("without a deviation it reads the reference function at %s", (_, celsius, ratio) => {
    const convert = toCelsius("Ω", its90("8", { a: 0, b: 0 }));
    // Half of the eighth decimal is 1.3 µK to 1.5 µK there.
    expect(Math.abs(convert(25.5 * ratio) - celsius)).toBeLessThan(2e-6);
  });

  test("subtracts a(W − 1) + b(W − 1)²", () => {
    const [a, b] = [-1.2e-4, 3e-6];
    // W of a thermometer at t solves W − a(W − 1) − b(W − 1)² = W_r(t): a fixed point of plain arithmetic.
    const ratio = referenceRatio(273.15 + 200);
    let W = ratio;
    for (let i = 0; i < 50; i++) W = ratio + a * (W - 1) + b * (W - 1) * (W - 1);
    expect(toCelsius("Ω", its90("9", { a, b }))(25.5 * W)).toBeCloseTo(200, 8);
    expect(() => toCelsius("Ω", its90("11", { a: 0 }))(25.5 * W)).toThrow(/sub-range 11/);
  });

  test.each([
    [its90("8", { a: 0 }), /HS-1\.its90\.coefficients\.b: got nothing; expected a number/],
    [
      its90("10", { a: 0, b: 0 }),
      /HS-1\.its90\.coefficients\.b: got 0; expected nothing: sub-range 10 has the coefficients a/,
    ],
    [its90("12", { a: 0 }), /HS-1\.its90\.subRange: got "12"; expected a sub-range/],
    [{ nominalResistance: 25, ...its90("10", { a: 0 }) }, /HS-1\.its90: .*expected one conversion/],
    [{}, /HS-1\.nominalResistance: got nothing; expected R₀ in Ω/],
  ])("%j is refused with its field", (thermometer, words) => {
    expect(() => checkResistance("HS-1", thermometer)).toThrow(InputError);
    expect(() => checkResistance("HS-1", thermometer)).toThrow(words);
  });
});
