import { describe, expect, it } from "vitest";
import { prepare, readStudy } from "../../../../engine/index.ts";
import { additive, readBudgetTable, type CompleteReading, type Cell } from "../../../../models/index.ts";

const table = (...rows: Cell[][]) => rows.map((cells, i) => ({ row: i + 1, cells }));
const read = (...rows: Cell[][]): CompleteReading => readBudgetTable(table(...rows), { title: "table" });
const budgetOf = ({ study }: CompleteReading) => {
  const model = additive.build(study.parameters!);
  return Object.values(prepare(model, readStudy(study)).linear)[0]!;
};

describe("units of sensitivity coefficients", () => {
  // EA-4/02, 2.2 and 4.1: c_i is a derivative and has a unit, output over input; 0.6 mΩ·2.6 K/Ω = 1.56 mK.
  const heading = ["Quantity", "Estimate", "Unit", "Standard uncertainty", "Distribution", "c_i", "u_i(y) (mK)"];
  const plain: Cell[] = ["Bath", 0, "°C", 0.004, "normal", 1, 4];

  it.each<readonly [string, Cell[], string]>([
    ["in the cell", ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 K/Ω", 1.56], "c_i"],
    ["in multiples of both", ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 mK/mΩ", 1.56], "c_i"],
    ["with a raised exponent", ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 °C·Ω⁻¹", 1.56], "c_i"],
    ["in the heading", ["Bridge", 0, "mΩ", 0.6, "normal", 2.6, 1.56], "c_i (K/Ω)"],
  ])("%s", (_, row, column) => {
    const reading = read(heading.with(5, column), column === "c_i" ? plain : plain.with(5, "1 K/K"), row);
    const bridge = reading.terms[1]!;
    expect(bridge.sensitivity).toBeCloseTo(0.0026, 15);
    expect(budgetOf(reading).standardUncertainty).toBeCloseTo(Math.hypot(0.004, 0.00156), 12);
    expect(reading.combined).toBeCloseTo(Math.hypot(0.004, 0.00156), 12);
    // Contributions in mK agree with a measurand in °C.
    expect(reading.remarks).toEqual([]);
  });

  it("a contribution column that disagrees is told in the measurand's unit", () => {
    const reading = read(heading, plain, ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 K/Ω", 1560]);
    expect(reading.remarks).toEqual(["row 3, column G (u_i(y) (mK)) says 1.56, the row gives 0.00156"]);
  });

  it("the measurand takes the unit above the line if no term is in its unit", () => {
    const reading = read(heading, ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 mK/mΩ", 1.56]);
    expect(reading.study.parameters).toMatchObject({ measurand: { unit: "mK" } });
    expect(reading.combined).toBeCloseTo(1.56, 12);
  });

  it.each<readonly [string, Cell[], RegExp]>([
    [
      "that does not lead to the measurand",
      ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 K/V", 1.56],
      /row 3, column F \(c_i\): got "2\.6 K\/V for a figure in mΩ"; expected a coefficient in °C\/mΩ/,
    ],
    ["of the output alone", ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 K", 1.56], /got "2\.6 K for a figure in mΩ"/],
    ["that is no unit", ["Bridge", 0, "mΩ", 0.6, "normal", "2.6 see note", 1.56], /expected a number/],
  ])("a unit %s is refused", (_, row, message) => {
    expect(() => read(heading, plain, row)).toThrow(message);
  });

  it("a bare coefficient of a term in a multiple of the unit: the contribution decides, else it is asked for", () => {
    const half = (contribution: Cell) => read(heading, plain, ["Drift", 0, "mK", 6, "normal", 0.5, contribution]);
    expect(half(3).terms[1]!.sensitivity).toBeCloseTo(0.0005, 15);
    expect(half(3000).terms[1]!.sensitivity).toBe(0.5);
    expect(() => half("")).toThrow(/sensitivity coefficient 0\.5 of row 3 \(Drift\)\? 0\.5 °C\/°C; 0\.5 °C\/mK/);
    // What is itself the conversion needs no telling.
    const converted = read(heading, plain, ["Drift", 0, "mK", 6, "normal", 0.001, ""]);
    expect(converted.terms[1]!.sensitivity).toBe(0.001);
  });

  it("a bare coefficient between units that do not go together is taken in measurand over term, and told", () => {
    const reading = read(heading, plain, ["Bridge", 0, "Ω", 0.0006, "normal", 2.6, 1.56]);
    expect(reading.terms[1]!.sensitivity).toBe(2.6);
    expect(reading.terms[1]!.assumed).toContain("sensitivity coefficient taken in °C/Ω");
    expect(reading.remarks).toEqual([]);
  });
});

describe("the additive model by hand", () => {
  it("refuses a coefficient of 1 for a term in a multiple of the measurand's unit", () => {
    const build = (coefficient: number, unit: string) => () =>
      additive.build({ coefficients: { a: coefficient }, measurand: { unit: "°C" }, terms: { a: { unit } } });
    expect(build(1, "mK")).toThrow(
      /parameters\.coefficients\.a: got "1 for a term in mK of a sum in °C"; .*0\.001 °C\/mK/,
    );
    expect(build(-1, "mK")).toThrow(/-0\.001 °C\/mK/);
    expect(build(0.001, "mK")).not.toThrow();
    expect(build(1, "K")).not.toThrow();
    expect(build(2.6, "Ω")).not.toThrow();
  });
});
