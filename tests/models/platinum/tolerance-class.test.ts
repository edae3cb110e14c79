import { describe, expect, it } from "vitest";
import {
  RANGES_NOTE,
  resistorClassNames,
  resistorTolerance,
  tolerance,
  toleranceClasses,
  toleranceInOhms,
  type ToleranceClassName,
} from "../../../models/platinum/tolerance-class.ts";
import reference from "../../reference/platinum.json" with { type: "json" };

const published = reference["iec60751-tolerance-classes"].values;

describe("tolerance classes of IEC 60751", () => {
  it("have the published limits", () => {
    // IEC 60751:2008 and 2022, table of tolerance classes: AA 0.1 + 0.0017|t|, A 0.15 + 0.002|t|, B 0.3 + 0.005|t|, C 0.6 + 0.01|t|.
    expect(published.classes).toHaveLength(4);
    for (const { cls, a_C, b } of published.classes) {
      expect(toleranceClasses[cls as ToleranceClassName]).toMatchObject({ constant: a_C, proportion: b });
    }
  });

  it("of sensing elements have the limits and ranges of table 2", () => {
    const like = { "0.1": "AA", "0.15": "A", "0.3": "B", "0.6": "C" } as const;
    for (const name of resistorClassNames) {
      const range = reference["iec60751-class-ranges"].values.find(({ cls }) => cls === like[name.slice(2) as "0.1"])!;
      const [low, high] = name.startsWith("W") ? range.resistor_wire_C : range.resistor_film_C;
      for (const t of [low!, high!]) expect(resistorTolerance(name, t)).toBe(tolerance(range.cls as "A", t));
      for (const t of [low! - 0.1, high! + 0.1, Number.NaN]) expect(() => resistorTolerance(name, t)).toThrow(name);
    }
  });

  it("give the limits at the table points in °C and in Ω", () => {
    for (const [name, t, limit, ohms] of published.computed.rows as [ToleranceClassName, number, number, number][]) {
      expect(Math.abs(tolerance(name, t) - limit)).toBeLessThan(1e-12);
      expect(Math.abs(toleranceInOhms(name, t) - ohms)).toBeLessThan(1e-8);
    }
  });

  it("agree with the printed columns of the 1995 table for A and B", () => {
    // IEC 751 with amendment 2 (1995): two decimals; B at 650 °C and 850 °C is printed rounded up (3.6 for 3.55, 4.6
    // for 4.55), and its ohm column there departs by up to 0.0095 Ω from limit × slope.
    for (const [t, aC, aOhm, , , bC, bOhm] of published.table_1995.rows) {
      if (aC !== null) expect(tolerance("A", t!)).toBeCloseTo(aC!, 9);
      if (aOhm !== null) expect(toleranceInOhms("A", t!).toFixed(2)).toBe(aOhm!.toFixed(2));
      expect(Math.abs(tolerance("B", t!) - bC!)).toBeLessThan(0.0501);
      expect(Math.abs(toleranceInOhms("B", t!) - bOhm!)).toBeLessThan(0.0095);
    }
  });

  it("have ranges that are marked as taken from makers", () => {
    // IEC 60751:2008, 5.1.3, as makers print it: the note says so wherever a range decides.
    for (const row of reference["iec60751-class-ranges"].values) {
      const { ranges } = toleranceClasses[row.cls as ToleranceClassName];
      expect(ranges).toEqual({ wire: row.thermometer_wire_C, film: row.thermometer_film_C });
    }
    expect(RANGES_NOTE).toContain("makers print from IEC 60751:2008");
    expect(() => tolerance("AA", 200, "film")).toThrow(
      /t: got 200; expected a temperature from 0 °C to 150 °C, the range of class AA with a film element \(.*makers print/,
    );
    expect(tolerance("AA", 200, "wire")).toBeCloseTo(0.44, 12);
  });

  it("refuse what does not exist", () => {
    expect(() => tolerance("D" as ToleranceClassName, 0)).toThrow(/class: got "D"; expected one of AA, A, B, C/);
    expect(() => tolerance("A", Number.NaN)).toThrow(/t: got NaN/);
    expect(() => tolerance("A", 0, "foil" as "film")).toThrow(/element: got "foil"; expected wire or film/);
  });
});
