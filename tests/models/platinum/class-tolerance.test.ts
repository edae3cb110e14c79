// Limits and ranges of IEC 60751:2008, 5.1.3.
import { describe, expect, test } from "vitest";
import { InputError } from "../../../engine/index.ts";
import { classTolerance } from "../../../models/platinum/class-tolerance.ts";
import { runExample } from "../../read-example.ts";

const limits = (parameters: object, unit = "°C") =>
  classTolerance.limits(parameters as never, { name: "error", unit }, "conformity.error.tolerance.parameters");

describe("class tolerance as a study names it", () => {
  test.each([
    [{ class: "AA", temperature: 72, element: "wire" }, 0.1 + 0.0017 * 72],
    [{ class: "A", temperature: -40 }, 0.15 + 0.002 * 40],
    [{ class: "B", temperature: 134, element: "film" }, 0.3 + 0.005 * 134],
    [{ class: "C", temperature: 0 }, 0.6],
    // Sensing elements: IEC 60751:2008, 5.1.2, table 2, which has the limits of the thermometers' classes.
    [{ class: "W 0.1", temperature: -100 }, 0.1 + 0.0017 * 100],
    [{ class: "W 0.3", temperature: 660 }, 0.3 + 0.005 * 660],
    [{ class: "F 0.15", temperature: 100 }, 0.15 + 0.002 * 100],
    [{ class: "F 0.6", temperature: -50 }, 0.6 + 0.01 * 50],
  ])("%j", (parameters, limit) => {
    expect(limits(parameters).upper).toBeCloseTo(limit, 12);
    expect(limits(parameters).lower).toBeCloseTo(-limit, 12);
  });

  test("about R(t) for a resistance: 100 Ω at 0 °C, ±0.06 °C·0.39083 Ω/°C for class A at R_0", () => {
    const { lower, upper } = limits({ class: "A", temperature: 0 }, "Ω");
    expect((lower! + upper!) / 2).toBeCloseTo(100, 9);
    expect((upper! - lower!) / 2).toBeCloseTo(0.15 * 0.39083, 9);
  });

  test.each([
    [{}, "class"],
    [{ class: "D", temperature: 0 }, "class"],
    [{ class: "W 0.2", temperature: 0 }, "class"],
    [{ class: "W 0.1", temperature: 0, element: "wire" }, "element"],
    [{ class: "A" }, "temperature"],
    [{ class: "A", temperature: "72" }, "temperature"],
    [{ class: "A", temperature: 0, element: "coil" }, "element"],
    [{ class: "A", temperature: 0, nominal: 0 }, "nominal"],
    [{ class: "A", temperature: 0, colour: "red" }, "colour"],
  ])("%j is refused", (parameters, field) => {
    try {
      limits(parameters);
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).problems[0]!.place).toBe(`conformity.error.tolerance.parameters.${field}`);
    }
  });

  test("a temperature outside the class's range is refused", () => {
    expect(() => limits({ class: "AA", temperature: 300, element: "wire" })).toThrow(/-50 °C to 250 °C/);
    expect(() => limits({ class: "F 0.1", temperature: 151 })).toThrow(/from 0 °C to 150 °C, the range of class F 0.1/);
  });
});

test("a study of the scenario is decided by both methods alike", () => {
  const { conformity } = runExample("harrowfen/pasteuriser-72").measurands["error"]!;
  expect(conformity).toMatchObject({
    agree: true,
    rule: { name: "guarded acceptance" },
    monteCarlo: { decision: "accepted" },
  });
  expect(conformity!.tolerance.upper).toBeCloseTo(0.2224, 12);
});

describe("the unit of the measurand (IEC 60751:2022, 6.2: class A at 72 °C is 0.15 + 0.002·72 = 0.294 °C)", () => {
  const inUnit = (unit: string) => limits({ class: "A", temperature: 72 }, unit);
  test.each([
    ["°C", 0.294],
    ["K", 0.294],
    ["mK", 294],
    ["°F", 0.294 * 1.8],
  ])("%s", (unit, limit) => {
    expect(inUnit(unit).upper).toBeCloseTo(limit, 9);
    expect(inUnit(unit).lower).toBeCloseTo(-limit, 9);
  });

  test("mΩ are a thousandth of Ω", () => {
    expect(inUnit("mΩ").upper! / 1000).toBeCloseTo(inUnit("Ω").upper!, 9);
    expect(inUnit("mΩ").lower! / 1000).toBeCloseTo(inUnit("Ω").lower!, 9);
  });

  test.each(["V", "%", "1", "K/Ω", "div"])("%s is refused", (unit) => {
    expect(() => inUnit(unit)).toThrow(
      /conformity\.error\.tolerance\.specification: got "a class of IEC 60751 .*"; expected a measurand in °C, K or Ω/,
    );
  });
});
