import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elementary, propagate, readStudy } from "../../../engine/index.ts";
import { isScripted, loadEquationReader, readTypedEquation, typedEquation } from "../../../models/index.ts";
import { compiled } from "../../../server/shelves/compiled.ts";

await loadEquationReader();

/** An expression as text, and its value computed beside it by this file. */
interface Made {
  readonly text: string;
  value(x: Readonly<Record<string, number>>): number;
}

const NAMES = ["a", "b", "c"] as const;
const binary =
  (sign: string, value: (p: number, q: number) => number) =>
  (p: Made, q: Made): Made => ({
    text: `(${p.text}) ${sign} (${q.text})`,
    value: (x) => value(p.value(x), q.value(x)),
  });
const unary =
  (name: string, value: (p: number) => number) =>
  (p: Made): Made => ({
    text: `${name}(${p.text})`,
    value: (x) => value(p.value(x)),
  });

const { expression } = fc.letrec<{ expression: Made; leaf: Made }>((tie) => ({
  leaf: fc.oneof(
    fc.constantFrom(...NAMES).map((name): Made => ({ text: name, value: (x) => x[name]! })),
    fc.integer({ min: 0, max: 20 }).map((n): Made => ({ text: String(n), value: () => n })),
    fc.double({ min: 1e-9, max: 1e9, noNaN: true }).map((n): Made => ({ text: String(n), value: () => n })),
  ),
  expression: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    tie("leaf"),
    fc
      .tuple(
        fc.constantFrom(
          binary("+", (p, q) => p + q),
          binary("−", (p, q) => p - q),
          binary("·", (p, q) => p * q),
          binary("/", (p, q) => p / q),
        ),
        tie("expression"),
        tie("expression"),
      )
      .map(([join, p, q]) => join(p, q)),
    fc
      .tuple(
        fc.constantFrom(
          unary("−", (p) => -p),
          unary("exp", elementary.exp),
          unary("sin", elementary.sin),
          unary("arctan", elementary.atan),
          unary("sqrt", Math.sqrt),
          (p: Made): Made => ({ text: `(${p.text})²`, value: (x) => p.value(x) * p.value(x) }),
        ),
        tie("expression"),
      )
      .map(([apply, p]) => apply(p)),
  ),
}));

describe("one equation, three ways, equal bit for bit", () => {
  test("the tree, the script and the TypeScript file give what plain JavaScript gives", () => {
    fc.assert(
      fc.property(expression, fc.tuple(fc.double(), fc.double(), fc.double()), (made, values) => {
        const equation = `y = (a + b)·c + (${made.text})`;
        const x = { a: values[0], b: values[1], c: values[2] };
        const expected = (x.a + x.b) * x.c + made.value(x);
        const model = typedEquation.build({ equation });
        if (!isScripted(model)) throw new Error("a typed equation has a script");
        expect(model.evaluate(x)).toBe(expected);
        expect(compiled(model).evaluate(x)).toBe(expected);
      }),
      { numRuns: 100, seed: 68 },
    );
  });

  test("brackets that change the rounding are kept: a + (b + c), a·(b·c), a − (b − c), a / (b·c)", () => {
    const x = { a: 0.1, b: 0.2, c: 0.3 };
    for (const [equation, expected] of [
      ["y = a + (b + c)", x.a + (x.b + x.c)],
      ["y = a·(b·c)", x.a * (x.b * x.c)],
      ["y = a − (b − c)", x.a - (x.b - x.c)],
      ["y = a / (b·c)", x.a / (x.b * x.c)],
      ["y = (a + b)·c", (x.a + x.b) * x.c],
      ["y = −(a + b)^2", -((x.a + x.b) * (x.a + x.b))],
    ] as const) {
      const model = typedEquation.build({ equation });
      expect(isScripted(model) && compiled(model).evaluate(x), equation).toBe(expected);
      expect(model.evaluate(x), equation).toBe(expected);
      // What print shows reads as the same equation.
      expect(typedEquation.build({ equation: model.equation! }).evaluate(x), model.equation).toBe(expected);
    }
  });

  test("several lines: results are those that no other line uses", () => {
    const model = typedEquation.build({ equation: "d = a − b\nratio = d/b\nsquare = d²" });
    expect(Object.keys(model.measurands)).toEqual(["ratio", "square"]);
    expect(Object.keys(model.inputs)).toEqual(["a", "b"]);
    expect(model.evaluate({ a: 3, b: 2 })).toEqual({ ratio: 0.5, square: 1 });
    expect(isScripted(model) && compiled(model).evaluate({ a: 3, b: 2 })).toEqual({ ratio: 0.5, square: 1 });
  });
});

describe("the model", () => {
  const quantities = {
    e: { symbol: "e", meaning: "error of the probe", unit: "°C", difference: true },
    probe: { symbol: "R_X", meaning: "resistance of the probe", unit: "Ω" },
    readout: { symbol: "δR_{ro}", meaning: "correction of the readout", unit: "Ω" },
    nominal: { symbol: "R_0", meaning: "nominal resistance", unit: "Ω" },
    bath: { symbol: "t_S", meaning: "temperature of the bath", unit: "°C" },
  };
  const parameters = { equation: "e = t(R_X + δR_{ro}, R_0) − t_S", quantities };

  test("takes symbols or names, and shows symbols", () => {
    const model = typedEquation.build(parameters);
    expect(Object.keys(model.inputs)).toEqual(["probe", "readout", "nominal", "bath"]);
    expect(model.inputs["probe"]).toEqual(quantities.probe);
    expect(model.equation).toBe("e = t(R_X + δR_{ro}, R_0) − t_S");
    const byName = typedEquation.build({ ...parameters, equation: "e = t(probe + readout, nominal) − bath" });
    expect(byName.equation).toBe(model.equation);
  });

  test("gives the figures of the model that is written by hand, bit for bit", () => {
    const inputs = {
      probe: { distribution: "normal", estimate: 127.7, standardUncertainty: 0.002 },
      readout: { distribution: "rectangular", estimate: 0, halfWidth: 0.003 },
      nominal: { distribution: "constant", value: 100 },
      bath: { distribution: "t", estimate: 71.8, standardUncertainty: 0.002, degreesOfFreedom: 5 },
    };
    const study = {
      title: "t",
      inputs,
      coverage: { probability: 0.95 },
      significantDigits: 2,
      trials: 20_000,
      seed: "s",
    };
    const typed = typedEquation.build(parameters);
    if (!isScripted(typed)) throw new Error("a typed equation has a script");
    const runs = [typed, compiled(typed)].map((model) =>
      propagate(model, readStudy({ ...study, model: "equation", parameters })),
    );
    const figures = runs.map(({ measurands }) => measurands["e"]!.monteCarlo);
    expect(figures[1]).toEqual(figures[0]);
    // The difference of two normals and a rectangular about 71.8 °C; slope of IEC 60751 there about 0.38 Ω/°C.
    expect(figures[0]!.standardUncertainty).toBeGreaterThan(0.006);
    expect(figures[0]!.standardUncertainty).toBeLessThan(0.009);
  });

  test.each([
    [{ equation: 3 }, "parameters.equation"],
    [{ ...parameters, formula: "x" }, "parameters.formula"],
    [{ ...parameters, quantities: { ...quantities, other: { symbol: "z" } } }, "no z in the equation"],
    [{ ...parameters, quantities: { ...quantities, "2x": {} } }, "parameters.quantities.2x"],
    [{ ...parameters, quantities: { ...quantities, bath: { colour: "red" } } }, "parameters.quantities.bath.colour"],
    [{ ...parameters, quantities: { ...quantities, bath: { unit: 3 } } }, "parameters.quantities.bath.unit"],
    [{ ...parameters, quantities: [] }, "parameters.quantities"],
  ])("refuses %j", (wrong, message) => {
    expect(() => typedEquation.build(wrong)).toThrow(message);
  });

  test("is saved as a TypeScript file that names its functions", async () => {
    const { read } = await readTypedEquation(parameters, "Error of a probe, 72 °C");
    expect(read!.typescript.file).toBe("error-of-a-probe-72-c.ts");
    expect(read!.typescript.text).toContain(`algebra.t(x.probe + x.readout, x.nominal) - x.bath`);
    expect(read!.typescript.text).toContain(`id: "error-of-a-probe-72-c"`);
  });

  test("says of which quantities no unit is stated", async () => {
    const some = await readTypedEquation({ ...parameters, quantities: { ...quantities, bath: { symbol: "t_S" } } }, "");
    expect(some.read!.withoutUnit).toEqual(["t_S"]);
    expect((await readTypedEquation(parameters, "")).read!.withoutUnit).toEqual([]);
    expect((await readTypedEquation({ ...parameters, equation: "e = t(" }, "")).read).toBeNull();
  });
});
