import { describe, expect, it } from "vitest";
import { prepare, readStudy } from "../../../../engine/index.ts";
import { additive, readBudgetTable, type CompleteReading, type Cell } from "../../../../models/index.ts";
import figures from "../../../reference/bath.json" with { type: "json" };

const table = (...rows: Cell[][]) => rows.map((cells, i) => ({ row: i + 1, cells }));
const read = (...rows: Cell[][]): CompleteReading => readBudgetTable(table(...rows), { title: "table" });
const budgetOf = ({ study }: CompleteReading) => {
  const model = additive.build(study.parameters!);
  return Object.values(prepare(model, readStudy(study)).linear)[0]!;
};

describe("EA-4/02 M, S11: temperature block calibrator at 180 °C", () => {
  const { table: published, computed, published: stated } = figures.blockCalibrator;
  const body = published.map(
    ([quantity, estimate, u, distribution, c, contribution, note]) =>
      [quantity, estimate, u, distribution, c, contribution, note] as Cell[],
  );

  it("from the table as printed: standard uncertainties in mK beside an estimate in °C", () => {
    const reading = read(
      [
        "Quantity",
        "Estimate",
        "Standard uncertainty (mK)",
        "Probability distribution",
        "Sensitivity coefficient",
        "Contribution (mK)",
        "Remarks",
      ],
      ...body,
      ["t_X", 180.1, "", "", "", 164, ""],
      ["Combined standard uncertainty", "", "", "", "", 164, ""],
    );
    // The row of the result names the measurand: it is not a term, and must not be taken for one.
    expect(reading.terms.map(({ quantity }) => quantity)).not.toContain("t_X");
    expect(budgetOf(reading).estimate).toBeCloseTo(stated.t_X_degC, 9);
    // The printed standard uncertainties are rounded to 1 mK; their root sum of squares is within 1 mK of the published 164 mK.
    expect(Math.abs(budgetOf(reading).standardUncertainty * 1000 - stated.u_mK)).toBeLessThan(1);
    expect(reading.remarks).toEqual([
      "taken for sums, not for inputs: row 10 (t_X), row 11 (Combined standard uncertainty)",
      "agrees with the inputs: row 10 (t_X), 164 mK, row 11 (Combined standard uncertainty), 164 mK",
    ]);
  });

  it("from half-widths and divisors: the independently computed 164.291 mK", () => {
    const halves: Readonly<Record<string, number>> = { dt_D: 40, dt_iX: 50, dt_R: 100, dt_A: 250, dt_H: 50, dt_V: 30 };
    const reading = read(
      ["Source of uncertainty", "Value", "Unit", "Uncertainty", "How stated", "Distribution", "Divisor", "c_i", "ν_i"],
      ["t_S", 180100, "mK", 30, "k = 2", "normal", 2, 1, "∞"],
      ["dt_S", 0, "mK", 10, "standard", "normal", 1, 1, "∞"],
      ...Object.entries(halves).map(
        ([name, a]) => [name, 0, "mK", a, "half-width", "rectangular", "√3", name === "dt_iX" ? -1 : 1, "∞"] as Cell[],
      ),
    );
    const budget = budgetOf(reading);
    expect(Math.abs(budget.standardUncertainty - computed.u_mK)).toBeLessThan(1e-9);
    expect(budget.estimate).toBeCloseTo(180100, 9);
    expect(reading.combined).toBeCloseTo(computed.u_mK, 9);
    expect(reading.study.inputs["dt_A"]).toEqual({
      distribution: "rectangular",
      estimate: 0,
      halfWidth: 250,
      source: "budget table, row 7",
    });
  });
});

describe("headings", () => {
  it.each([
    [
      [
        "Quantity X_i",
        "Estimate x_i",
        "Standard uncertainty u(x_i)",
        "Probability distribution",
        "Sensitivity coefficient c_i",
      ],
    ],
    [["INPUT QUANTITY", "Best estimate", "u(xi)", "Distribution", "ci"]],
    [["Component", "Value", "Std. uncertainty", "PDF", "Sensitivity"]],
    [["source of uncertainty", "estimate", "standard-uncertainty", "prob. distribution", "c"]],
  ])("%j are all understood", (headings) => {
    const { columns } = read(headings, ["a", 1, 0.1, "normal", 1]);
    expect(columns.map(({ field }) => field)).toEqual([
      "quantity",
      "estimate",
      "standard",
      "distribution",
      "sensitivity",
    ]);
  });

  it("are found below titles, and columns not understood are named", () => {
    const reading = read(
      ["Budget of 2026"],
      [null, ""],
      ["Quantity", "Colour", "± (mK)", "Divisor"],
      ["drift", "red", 4, 1.73],
    );
    expect(reading.headingRow).toBe(3);
    expect(reading.remarks).toEqual(["not used: column B (Colour)"]);
    expect(reading.terms[0]).toMatchObject({ statement: { distribution: "rectangular", halfWidth: 4 }, unit: "mK" });
    expect(reading.terms[0]!.assumed).toContain("rectangular, from its divisor 1.73");
  });

  it("may be assigned by column letter", () => {
    const options = { title: "t", mapping: { columns: { B: { field: "stated" }, C: { field: "divisor" } } } } as const;
    const reading = readBudgetTable(table(["Quantity", "Einfluss", "Teiler"], ["drift", 4, 2]), options);
    expect(reading.terms[0]!.statement).toMatchObject({
      distribution: "normal",
      expandedUncertainty: 4,
      coverageFactor: 2,
    });
  });

  it("are asked for if there are none", () => {
    expect(() => read(["a", 1, 2], ["b", 3, 4])).toThrow(
      /No row names a quantity.*Which row heads the columns of the budget\?.*There are no headings/,
    );
  });
});

describe("rows", () => {
  const headings = [
    "Quantity",
    "Estimate",
    "Uncertainty",
    "How stated",
    "Distribution",
    "Divisor",
    "Sensitivity",
    "Degrees of freedom",
  ];
  const statement = (...cells: Cell[]) => read(headings, ["q", ...cells]).terms[0]!;

  it.each([
    {
      cells: [1, 0.2, "standard", "normal", 1, 1, ""],
      expected: { distribution: "normal", standardUncertainty: 0.2 },
      u: 0.2,
    },
    {
      cells: [1, 0.2, "expanded, k = 2", "normal", "", 1, "inf"],
      expected: { distribution: "normal", expandedUncertainty: 0.2, coverageFactor: 2 },
      u: 0.1,
    },
    {
      cells: [1, 0.2, "", "normal", "k=2", 1, 12],
      expected: { distribution: "t", expandedUncertainty: 0.2, coverageFactor: 2, degreesOfFreedom: 12 },
      u: 0.1,
    },
    {
      cells: [1, 0.3, "half-width", "uniform", "√3", 1, ""],
      expected: { distribution: "rectangular", halfWidth: 0.3 },
      u: 0.3 / Math.sqrt(3),
    },
    {
      cells: [1, 0.3, "", "rectangular", "2√3", 1, ""],
      expected: { distribution: "rectangular", halfWidth: 0.15 },
      u: 0.15 / Math.sqrt(3),
    },
    {
      cells: [1, 0.3, "±", "triangular", "sqrt(6)", 1, ""],
      expected: { distribution: "triangular", halfWidth: 0.3 },
      u: 0.3 / Math.sqrt(6),
    },
    {
      cells: [1, 0.3, "limits", "U-shaped", "1.41", 1, ""],
      expected: { distribution: "arcsine", halfWidth: 0.3 },
      u: 0.3 / Math.SQRT2,
    },
    {
      cells: [1, 0.3, "standard", "rectangular", "", 1, ""],
      expected: { distribution: "rectangular", halfWidth: 0.3 * Math.sqrt(3) },
      u: 0.3,
    },
    {
      cells: [1, 0.3, "half-width", "rectangular", 1.73, 1, 8],
      expected: { distribution: "rectangular", degreesOfFreedom: 8 },
      u: 0.3 / Math.sqrt(3),
    },
    { cells: [1, 0, "", "", "", 1, ""], expected: { distribution: "constant", value: 1 }, u: 0 },
    {
      cells: [1, "±0.05", "half-width", "", "", 1, ""],
      expected: { distribution: "rectangular", halfWidth: 0.05 },
      u: 0.05 / Math.sqrt(3),
    },
    {
      cells: ["1,5", "0,2", "standard", "normal", "", "−1", ""],
      expected: { distribution: "normal", estimate: 1.5, standardUncertainty: 0.2 },
      u: 0.2,
    },
  ] as { cells: Cell[]; expected: object; u: number }[])("$cells", ({ cells, expected, u }) => {
    const term = statement(...cells);
    expect(term.statement).toMatchObject(expected);
    expect(term.standardUncertainty).toBeCloseTo(u, 14);
  });

  it.each([
    {
      cells: [1, "abc", "standard", "normal", "", 1, ""],
      message: /row 2, column C \(Uncertainty\): got "abc"; expected a number/,
    },
    {
      cells: [1, "", "standard", "normal", "", 1, ""],
      message: /row 2, column C \(Uncertainty\).*0 for a quantity taken as exact/,
    },
    { cells: [1, -0.1, "standard", "normal", "", 1, ""], message: /row 2, column C \(Uncertainty\): got -0\.1/ },
    {
      cells: [1, 0.1, "standard", "lognormalish", "", 1, ""],
      message: /row 2, column E \(Distribution\): got "lognormalish"/,
    },
    {
      cells: [1, 0.1, "half-width", "rectangular", 2, 1, ""],
      message: /row 2, column F \(Divisor\): got 2; expected 1\.732/,
    },
    {
      cells: [1, 0.1, "half-width", "normal", "", 1, ""],
      message: /What are the figures of row 2 \(q\) in column C \(Uncertainty\)\? Standard uncertainties; Expanded/,
    },
    {
      cells: [1, 0.1, "expanded", "normal", "", 1, ""],
      message: /With which coverage factor.*column C \(Uncertainty\) multiplied\? k = 2;/,
    },
    { cells: [1, 0.1, "standard", "normal", "", 1, -3], message: /column H \(Degrees of freedom\): got "-3"/ },
    {
      cells: ["1,5", "0.2", "standard", "normal", "", 1, ""],
      message: /“1,5” in row 2 has a comma, “0\.2” in row 2 a point.*Which is the decimal sign/,
    },
    {
      cells: ["1.5 °C", "0.2 Ω", "standard", "normal", "", 1, ""],
      message: /row 2, column C \(Uncertainty\): got "0\.2 Ω"; expected a figure in °C/,
    },
  ] as { cells: Cell[]; message: RegExp }[])("refuses $cells", ({ cells, message }) => {
    expect(() => statement(...cells)).toThrow(message);
  });

  it("refuses all wrong cells at once", () => {
    expect(() => read(headings, ["a", "x", 1, "", "", "", 1, ""], ["b", 1, "y", "", "", "", 1, ""])).toThrow(
      /row 2, column B[\s\S]*row 3, column C/,
    );
  });

  it("makes names of what people write, each once", () => {
    const reading = read(
      headings,
      ...["Drift of the standard", "δt_ax", "δt_ax", "1st reading", "constructor", "Überhitzung"].map(
        (name) => [name, 0, 1, "standard", "", "", 1, ""] as Cell[],
      ),
    );
    expect(reading.terms.map(({ input }) => input)).toEqual([
      "driftOfTheStandard",
      "delta_t_ax",
      "delta_t_ax2",
      "stReading",
      "term6",
      "uberhitzung",
    ]);
    expect(() => budgetOf(reading)).not.toThrow();
  });

  it("keeps sums apart, and reports where they disagree", () => {
    const reading = read(
      headings,
      ["a", 0, 3, "standard", "", "", 1, ""],
      ["b", 0, 4, "standard", "", "", 1, ""],
      ["Combined uncertainty", "", 6, "", "", "", "", ""],
      ["U", "", 12, "", "", "", "", ""],
    );
    expect(reading.terms).toHaveLength(2);
    expect(reading.summary.map(({ label }) => label)).toEqual(["Combined uncertainty", "U"]);
    expect(reading.remarks).toEqual([
      "taken for sums, not for inputs: row 4 (Combined uncertainty), row 5 (U)",
      "row 4 (Combined uncertainty) says 6; the inputs combine to 5",
      "row 5 (U) says 12; with k = 2 the inputs give 10",
    ]);
  });

  // With marks in the terms theirs holds; without, a comma before three digits may part thousands and is not compared.
  it.each([
    { terms: ["3,0", "4,0"], sum: "5,00", says: null },
    { terms: ["3,0", "4,0"], sum: "7,88", says: "7.88" },
    { terms: ["3,0", "4,0"], sum: "1,234", says: "1.234" },
    { terms: ["3,0", "4,0"], sum: "−7,88", says: "7.88" },
    { terms: ["3,0", "4,0"], sum: "1.234", says: null },
    { terms: ["3,0", "4,0"], sum: "1.234,5", says: "1235" },
    { terms: ["3.0", "4.0"], sum: "7.88", says: "7.88" },
    { terms: ["3.0", "4.0"], sum: "1,234", says: null },
    { terms: ["3.0", "4.0"], sum: "1,234.5", says: "1235" },
    { terms: [3, 4], sum: "7,88", says: "7.88" },
    { terms: [3, 4], sum: "1,234", says: null },
    { terms: [3, 4], sum: "1.234", says: "1.234" },
    { terms: [3, 4], sum: "1 234,5", says: "1235" },
  ] as { terms: Cell[]; sum: string; says: string | null }[])(
    "reads the sum $sum below $terms as $says",
    ({ terms, sum, says }) => {
      const reading = read(headings, ...terms.map((u, i) => [`q${i}`, 0, u, "standard", "", "", 1, ""] as Cell[]), [
        "Combined uncertainty",
        "",
        sum,
        "",
        "",
        "",
        "",
        "",
      ]);
      expect(reading.combined).toBe(5);
      expect(reading.remarks.slice(1).filter((remark) => !remark.startsWith("agrees"))).toEqual(
        says === null ? [] : [`row 4 (Combined uncertainty) says ${says}; the inputs combine to 5`],
      );
    },
  );

  it("never takes a filled-in row for a sum, whatever it is called", () => {
    const reading = read(
      headings,
      ["a", 0, 3, "standard", "normal", "", 1, ""],
      ["Expanded uncertainty of the reference", 0, 8, "k = 2", "normal", "", 1, ""],
    );
    expect(reading.terms.map(({ standardUncertainty }) => standardUncertainty)).toEqual([3, 4]);
  });

  it("does not add terms whose units do not go together", () => {
    const mixed = [
      ["Quantity", "Estimate", "Unit", "Standard uncertainty"],
      ["a", 0, "°C", 1],
      ["b", 0, "Ω", 1],
    ] as Cell[][];
    expect(() => read(...mixed)).toThrow(/row 3, unit: got "Ω"; expected a unit that goes with °C/);
    const scaled = readBudgetTable(
      table(["Quantity", "Estimate", "Unit", "Standard uncertainty"], ["a", 0, "°C", 0.003], ["b", 0, "mK", 4]),
      {
        title: "t",
        measurand: { unit: "°C" },
      },
    );
    expect(budgetOf(scaled).standardUncertainty).toBeCloseTo(0.005, 15);
  });
});

it("reports that an estimate in K beside figures in °C is taken as a difference", () => {
  const head = ["Quantity", "Estimate", "Unit", "Standard uncertainty", "Distribution"];
  const assumed = (estimate: Cell) => read(head, ["Drift", estimate, "°C", 0.01, "normal"]).terms[0]!.assumed.join(" ");
  expect(assumed("0.02 K")).toContain("estimate in K taken as a difference of temperatures");
  expect(assumed("0.02 °C")).not.toContain("difference");
  expect(assumed(0.02)).not.toContain("difference");
});

describe("uncertainties as a part of the estimate", () => {
  const HEADS = ["Quantity", "Value", "Unit", "Uncertainty", "How stated", "k", "c"];

  it("in cells and in a heading's unit, with the divisors of GUM 4.3", () => {
    // U = 0.05 % of 100 Ω with k = 2: u = 0.025 Ω. A half-width of 200 ppm of 20.5 Ω: a = 4.1 mΩ, u = a/√3.
    const reading = read(
      HEADS,
      ["R", 100, "Ω", "0,05 %", "k = 2", 2, 1],
      ["r", -20.5, "Ω", "±200 ppm", "half-width", "", 1],
    );
    expect(reading.terms.map(({ standardUncertainty }) => standardUncertainty)).toEqual([
      expect.closeTo(0.025, 12),
      expect.closeTo(0.0041 / Math.sqrt(3), 12),
    ]);
    expect(reading.terms[0]!.assumed.join()).toContain("0,05 % taken as a part of the estimate 100: 0.05 Ω");
    expect(reading.study.inputs["R"]).toMatchObject({ expandedUncertainty: 0.05, coverageFactor: 2 });
    const headed = read(
      ["Quantity", "Value", "Unit", "Standard uncertainty / %"],
      ["R", 100, "Ω", 0.05],
      ["r", 10, "Ω", 1],
    );
    expect(headed.terms.map(({ standardUncertainty }) => standardUncertainty)).toEqual([0.05, 0.1]);
    expect(headed.remarks).toEqual([]);
  });

  it("is refused at an estimate of 0, and where there is none", () => {
    for (const estimate of [0, ""])
      expect(() => read(HEADS, ["R", estimate, "Ω", "0.5 %", "standard", "", 1])).toThrow(
        /row 2, column D \(Uncertainty\): got "0.5 %"; expected a figure in Ω: a relative figure is a part of the estimate/,
      );
  });

  it("in a row that is in per cent itself is what it says, and is told", () => {
    const reading = read(["Quantity", "Value", "Unit", "Standard uncertainty / %"], ["RH", 45, "%", 1.5]);
    expect(reading.terms[0]!.standardUncertainty).toBe(1.5);
    expect(reading.terms[0]!.assumed.join()).toContain("in %, the unit of the row");
  });
});

it("a column that says how a figure is known may name the distribution", () => {
  const reading = read(
    ["Symbol", "Quantity", "Value", "Unit", "How it is known", "Uncertainty", "Coverage factor", "ν", "Sensitivity"],
    ["a", "certificate", 0, "mK", "certificate, U with k", 10, 2, "", 1],
    ["b", "drift", 0, "mK", "triangular, ± a", 3, "", "", 1],
  );
  expect(reading.terms.map(({ statement: { distribution } }) => distribution)).toEqual(["normal", "triangular"]);
  // √(5² + 3²/6) mK.
  expect(reading.combined).toBeCloseTo(Math.sqrt(25 + 1.5), 12);
});
