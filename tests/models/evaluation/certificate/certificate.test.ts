import { describe, expect, it } from "vitest";
import { readStatement } from "../../../../engine/internal.ts";
import {
  certificateAt,
  certificateSchema,
  certificateStatement,
  driftStatement,
  evaluateDrift,
  readDocument,
  validityOf,
  type CertificateDocument,
} from "../../../../models/index.ts";
import figures from "../../../reference/bath.json" with { type: "json" };

const document: CertificateDocument = {
  thermometer: "HR-02",
  certificate: "HCR-2025-118",
  calibrated: "2025-09-15",
  intervalMonths: 12,
  points: [
    { temperature: 72, correction: -0.006, expandedUncertainty: 0.008, coverageFactor: 2 },
    { temperature: 4, correction: -0.004, expandedUncertainty: 0.006, coverageFactor: 2 },
    {
      temperature: 134,
      correction: -0.006,
      expandedUncertainty: 0.01,
      coverageProbability: 0.95,
      effectiveDegreesOfFreedom: 20,
    },
  ],
  history: [
    {
      calibrated: "2024-09-10",
      points: [
        { temperature: 4, correction: -0.001 },
        { temperature: 72, correction: -0.002 },
      ],
    },
    {
      calibrated: "2023-09-12",
      points: [
        { temperature: 4, correction: 0.001 },
        { temperature: 72, correction: 0.001 },
      ],
    },
  ],
};
const certificate = readDocument(certificateSchema, document);

describe("certificate at a temperature", () => {
  it("is the point itself if there is one", () => {
    const value = certificateAt(certificate, 72);
    expect(value).toMatchObject({
      correction: -0.006,
      standardUncertainty: 0.004,
      expandedUncertainty: 0.008,
      coverageFactor: 2,
      between: [72],
    });
    expect(certificateStatement(certificate, value)).toEqual({
      distribution: "normal",
      estimate: -0.006,
      expandedUncertainty: 0.008,
      coverageFactor: 2,
      source: "certificate HCR-2025-118 of HR-02, 2025-09-15",
    });
  });

  it("is linear between two points", () => {
    const value = certificateAt(certificate, 38);
    expect(value.correction).toBeCloseTo(-0.005, 15);
    expect(value.expandedUncertainty).toBeCloseTo(0.007, 15);
    expect(value.between).toEqual([4, 72]);
  });

  it("states what the correction may do between points, from the parabola through the nearest three", () => {
    // Corrections −4, −6, −6 mK at 4, 72, 134 °C: c₂ = ((0 − (−2))/68)/(134 − 4)·1 mK, times 34·34 °C² at 38 °C.
    expect(certificateAt(certificate, 38).interpolation).toBeCloseTo((0.002 / 68 / 130) * 34 * 34, 12);
    expect(certificateAt(certificate, 72).interpolation).toBeNull();
    const two = { ...certificate, points: certificate.points.filter(({ temperature }) => temperature < 100) };
    expect(certificateAt(two, 38)).toMatchObject({ interpolation: null });
    expect(certificateAt(two, 38).reasoning.join(" ")).toContain("state referenceInterpolation yourself");
  });

  it("takes k from coverage probability and ν_eff: t(0.975; 20) = 2.085963 (JCGM 100, table G.2: 2.09)", () => {
    const value = certificateAt(certificate, 134);
    expect(value.coverageFactor).toBeCloseTo(2.085963447, 8);
    expect(value).toMatchObject({ degreesOfFreedom: 20 });
    const { budget } = readStatement(certificateStatement(certificate, value), "x");
    expect(budget.standardUncertainty).toBeCloseTo(0.01 / 2.085963447, 10);
    expect(budget.degreesOfFreedom).toBe(20);
    // Between points of unlike k there is no U to state, but u there is.
    const between = certificateAt(certificate, 103);
    expect(between).toMatchObject({
      expandedUncertainty: null,
      degreesOfFreedom: 20,
      standardUncertainty: expect.closeTo((0.004 + 0.01 / 2.085963447) / 2, 10),
    });
  });

  it("refuses to go beyond the points", () => {
    expect(() => certificateAt(certificate, -40)).toThrow(
      /temperature: got -40; expected a temperature within the points of the certificate, 4 °C to 134 °C/,
    );
    expect(() => certificateAt(certificate, 135)).toThrow(/temperature: got 135/);
  });

  it.each([
    [{ points: [{ temperature: 4 }] }, /points\.0: .*standardUncertainty alone/],
    [{ points: [{ temperature: 4, expandedUncertainty: 0.01 }] }, /exactly one of coverageFactor/],
    [{ points: [] }, /points: got \[\]; expected a list of at least 1 values/],
    [{ calibrated: "15/09/2025" }, /calibrated: got "15\/09\/2025"; expected a day as YYYY-MM-DD/],
    [{ calibrated: "2025-02-30" }, /calibrated/],
    [{ pionts: 1 }, /pionts: got 1; expected nothing/],
  ])("refuses %j", (change, message) => {
    expect(() => readDocument(certificateSchema, { ...document, ...change })).toThrow(message);
  });

  it("refuses a point given twice", () => {
    const twice = readDocument(certificateSchema, { ...document, points: [document.points[0], document.points[0]] });
    expect(() => certificateAt(twice, 72)).toThrow(/72 °C twice/);
  });
});

/** A day for every half degree above 20 °C. */
const day = (t: number): string => `2020-01-${String(Math.round((t - 20) * 2)).padStart(2, "0")}`;

describe("drift", () => {
  it("within the largest change between successive calibrations, rectangular", () => {
    const drift = evaluateDrift(certificate, 72, "2026-03-02", "bounds");
    expect(drift).toMatchObject({ days: 168, method: "bounds", halfWidth: expect.closeTo(0.004, 15) });
    expect(driftStatement(certificate, drift)).toMatchObject({
      distribution: "rectangular",
      estimate: 0,
      halfWidth: expect.closeTo(0.004, 15),
    });
    expect(drift.reasoning.join(" ")).not.toContain("may be too small");
    expect(evaluateDrift(certificate, 72, "2027-03-02", "bounds").reasoning.join(" ")).toContain("may be too small");
  });

  it("by a fitted rate: slope and its u as in the straight line of JCGM 100, H.3", () => {
    // The thermometer of H.3, a day for each degree, so that the slope and its u are those of the published line.
    const { t_degC, b_degC } = figures.straightLine.inputs;
    const grid = t_degC.map((t) => Math.round((t - 20) * 2) / 2);
    const points = b_degC.map((correction, i) => ({
      calibrated: day(t_degC[i]!),
      points: [{ temperature: 0, correction }],
    }));
    const last = points.pop()!;
    const line = readDocument(certificateSchema, {
      thermometer: "H3",
      calibrated: last.calibrated,
      points: [{ temperature: 0, correction: last.points[0]!.correction, standardUncertainty: 0.001 }],
      history: points,
    });
    const drift = evaluateDrift(line, 0, "2020-01-23", "rate");
    // Temperatures of H.3 lie within 0.03 °C of the half-degree grid the days stand on: of a span of 5 °C, 1 %.
    expect(grid[0]).toBe(1.5);
    expect(drift).toMatchObject({ method: "rate", degreesOfFreedom: 9 });
    if (drift.method !== "rate") return;
    expect(Math.abs(drift.rate * 2 - figures.straightLine.results.y2)).toBeLessThan(
      0.02 * figures.straightLine.results.y2,
    );
    expect(Math.abs(drift.rateStandardUncertainty * 2 - figures.straightLine.results.u2)).toBeLessThan(
      0.02 * figures.straightLine.results.u2,
    );
    expect(driftStatement(line, drift)).toMatchObject({
      distribution: "t",
      degreesOfFreedom: 9,
      estimate: drift.change,
    });
  });

  // The value is Σ g_i·y_i with g_i = d·(t_i − t̄)/S, and 1 more for the last; u² = s²·Σ g_i² (JCGM 100, 5.1.2).
  it.each(["2025-09-15", "2026-03-02", "2027-09-15"])(
    "by rate: the scatter of a new calibration stands beside it, on %s",
    (on) => {
      const drift = evaluateDrift(certificate, 72, on, "rate");
      if (drift.method !== "rate") throw new Error("another method");
      const t = ["2023-09-12", "2024-09-10", "2025-09-15"].map((date) => Date.parse(date) / 86_400_000);
      const y = [0.001, -0.002, -0.006];
      const mean = (t[0]! + t[1]! + t[2]!) / 3;
      const S = t.reduce((sum, time) => sum + (time - mean) ** 2, 0);
      const b = t.reduce((sum, time, i) => sum + ((time - mean) * y[i]!) / S, 0);
      const level = (y[0]! + y[1]! + y[2]!) / 3;
      const s = Math.sqrt(t.reduce((sum, time, i) => sum + (y[i]! - level - b * (time - mean)) ** 2, 0));
      const weights = t.map((time, i) => (drift.days * (time - mean)) / S + (i === 2 ? 1 : 0));
      expect(drift.change).toBeCloseTo(b * drift.days, 12);
      expect(drift.standardUncertainty).toBeCloseTo(s * Math.hypot(...weights), 12);
      expect(drift.standardUncertainty).toBeGreaterThanOrEqual(s * (1 - 1e-12));
    },
  );

  it("by bounds: warns if every change went one way", () => {
    const drift = evaluateDrift(certificate, 72, "2026-03-02", "bounds");
    expect(drift).toMatchObject({ oneWay: true });
    expect(drift.reasoning.join(" ")).toContain("Warning: all 2 changes go the same way");
    expect(driftStatement(certificate, drift).source).toContain("all of them one way and not corrected");
    const back = readDocument(certificateSchema, {
      ...document,
      points: [{ temperature: 72, correction: 0.002, standardUncertainty: 0.004 }],
    });
    const both = evaluateDrift(back, 72, "2026-03-02", "bounds");
    expect(both).toMatchObject({ oneWay: false });
    expect(both.reasoning.join(" ")).not.toContain("Warning");
  });

  it("refuses too short a history, a temperature it does not reach, and a day before the calibration", () => {
    const bare = readDocument(certificateSchema, { ...document, history: undefined });
    expect(() => evaluateDrift(bare, 72, "2026-03-02", "bounds")).toThrow(/history: got "0 earlier calibrations"/);
    expect(() => evaluateDrift(certificate, 134, "2026-03-02", "bounds")).toThrow(/temperature: got 134/);
    expect(() => evaluateDrift(certificate, 72, "2025-01-01", "bounds")).toThrow(/on: got "2025-01-01"/);
  });
});

describe("age", () => {
  it("counts days and warns once overdue", () => {
    expect(validityOf(certificate, "2026-03-02")).toEqual({
      on: "2026-03-02",
      days: 168,
      due: "2026-09-15",
      overdueDays: 0,
      warning: null,
    });
    expect(validityOf(certificate, "2026-10-01")).toMatchObject({
      overdueDays: 16,
      warning: expect.stringContaining("was due on 2026-09-15"),
    });
    expect(validityOf({ ...certificate, intervalMonths: undefined }, "2026-03-02").warning).toContain(
      "no day is stated",
    );
  });

  it("ends a month where it ends", () => {
    expect(validityOf({ ...certificate, calibrated: "2024-01-31", intervalMonths: 1 }, "2024-02-10").due).toBe(
      "2024-02-29",
    );
    expect(validityOf({ ...certificate, calibrated: "2024-12-31", intervalMonths: 2 }, "2025-01-10").due).toBe(
      "2025-02-28",
    );
  });
});
