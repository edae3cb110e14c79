import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readStatement } from "../../../../engine/internal.ts";
import {
  evaluateSurvey,
  movedDifference,
  readDocument,
  sampleStatistics,
  surveySchema,
  surveyStatements,
  swapDifference,
  synchronousDifference,
  thermometerLog,
  type SurveyDocument,
  type ThermometerLog,
} from "../../../../models/index.ts";
import figures from "../../../reference/bath.json" with { type: "json" };

const relative = (value: number, expected: number): number => Math.abs(value - expected) / Math.abs(expected);
const typeA = (values: readonly number[]) => {
  const { mean, standardDeviation, count } = sampleStatistics(values);
  return { mean, standardUncertainty: standardDeviation / Math.sqrt(count), degreesOfFreedom: count - 1 };
};

/** Differences in mK of two series in °C. */
const minus = (a: readonly number[], b: readonly number[]) => typeA(a.map((value, i) => 1000 * (value - b[i]!)));

const exact = (mean: number) => ({ mean, standardUncertainty: 1e-4, degreesOfFreedom: 9 });

describe("swapping a pair", () => {
  it("gives the difference and the offset of the computed case", () => {
    const { inputs, results } = figures.swap;
    const found = swapDifference(typeA(inputs.d12_mK), typeA(inputs.d21_mK));
    expect(found.difference).toBeCloseTo(results.zoneDifference_mK, 12);
    expect(found.offset).toBeCloseTo(results.offset_mK, 12);
  });

  it("gives difference, offset, u and degrees of freedom of a position surveyed with ten readings each way", () => {
    const { config1, config2, ...expected } = figures.typeAOnePosition.values;
    // B at P1 − A at P0; then, in the same order B − A, B at P0 − A at P1.
    const found = swapDifference(minus(config1.B_P1_C, config1.A_P0_C), minus(config2.B_P0_C, config2.A_P1_C));
    // Temperatures of 100 °C carry 1.4e-14 each; in mK that is 1.4e-11 a difference.
    expect(Math.abs(found.difference - expected.g_mK)).toBeLessThan(1e-7);
    expect(Math.abs(found.offset - expected.offset_mK)).toBeLessThan(1e-7);
    expect(relative(found.standardUncertainty, expected.u_g_mK)).toBeLessThan(1e-8);
    expect(relative(found.degreesOfFreedom, expected.nu_eff)).toBeLessThan(1e-8);
  });

  it("agrees with moving one against the other fixed", () => {
    // Position 2 mK warmer, P reads 5 mK more than Q.
    expect(swapDifference(exact(0.007), exact(0.003)).difference).toBeCloseTo(0.002, 15);
    expect(movedDifference(exact(0.007), exact(0.005)).difference).toBeCloseTo(0.002, 15);
    expect(movedDifference(exact(0.007), exact(0.005)).offset).toBeCloseTo(0.005, 15);
  });
});

/** A log of a function of time. */
const log = (
  thermometer: string,
  samples: number,
  interval: number,
  value: (time: number, i: number) => number,
): ThermometerLog => {
  const times = Array.from({ length: samples }, (_, i) => i * interval);
  return thermometerLog(thermometer, times, times.map(value));
};

const drifting = (time: number): number => 4 + 1e-5 * time;

describe("synchronous differences", () => {
  it("interpolate the second thermometer to the moments of the first, so that drift cancels", () => {
    const first = thermometerLog(
      "A",
      [5, 15, 25, 35],
      [5, 15, 25, 35].map((time) => drifting(time) + 0.01),
    );
    const second = thermometerLog("B", [0, 10, 20, 30, 40], [0, 10, 20, 30, 40].map(drifting));
    const found = synchronousDifference(first, second, 0, 40, 25);
    expect(found.typeA.mean).toBeCloseTo(0.01, 12);
    expect(found.interpolated).toBe(4);
    // Taken one after the other, half an interval of drift would have come in.
    expect(Math.abs(first.values[0]! - second.values[0]! - 0.01)).toBeGreaterThan(4e-5);
  });

  it("do not interpolate over a gap, nor beyond the step", () => {
    const first = thermometerLog("A", [0, 10, 20, 30, 100, 110], [1, 1, 1, 1, 1, 1]);
    const second = thermometerLog("B", [0, 10, 20, 30, 130], [0, 0, 0, 0, 5]);
    expect(synchronousDifference(first, second, 0, 130, 25).samples).toBe(4);
  });
});

const NAMES = ["P", "Q"] as const;
/** A survey with both at the centre once and every position swapped, of any zone and offset. */
function invented(zone: Readonly<Record<string, number>>, offset: number, drift: number, ripple: number) {
  const positions: SurveyDocument["positions"] = {
    centre: { depth: 280 },
    high: { depth: 260 },
    low: { depth: 300 },
    east: { depth: 280, radius: 30, direction: "east" },
    west: { depth: 280, radius: 30, direction: "west" },
  };
  const placements = [
    { P: "centre", Q: "centre" },
    ...["high", "low", "east", "west"].flatMap((place) => [
      { P: place, Q: "centre" },
      { P: "centre", Q: place },
    ]),
  ];
  const steps = placements.map((at, i) => ({ from: i * 2000, to: i * 2000 + 1990, at }));
  const samples = placements.length * 200;
  const logs = NAMES.map((name, k) =>
    log(name, samples, 10, (time, i) => {
      const at = placements[Math.floor(i / 200)]![name];
      return 72 + drift * time + ripple * Math.sin(time / 97) + (zone[at] ?? 0) + (k === 0 ? offset : 0);
    }),
  );
  const description = readDocument(surveySchema, {
    title: "invented",
    thermometers: { P: {}, Q: {} },
    positions,
    reference: "centre",
    steps,
    settlingMinutes: 2,
    calibrationMinutes: 20,
  } satisfies SurveyDocument);
  return { description, logs };
}

/** Equal but for sums of numbers near 72, one ulp of which is 1.4e-14. */
const close = (a: number, b: number): boolean => Math.abs(a - b) < 1e-12;

describe("survey", () => {
  const difference = fc.double({ min: -0.05, max: 0.05, noNaN: true });

  it("property: for any zone, offset, drift and ripple, the swap recovers the zone differences and the offset", () => {
    fc.assert(
      fc.property(
        fc.record({ high: difference, low: difference, east: difference, west: difference }),
        difference,
        fc.double({ min: -1e-5, max: 1e-5, noNaN: true }),
        fc.double({ min: 0, max: 0.01, noNaN: true }),
        (zone, offset, drift, ripple) => {
          const { description, logs } = invented(zone, offset, drift, ripple);
          const { map } = evaluateSurvey(description, logs);
          // Every position once, in the order of the description, and every determination of the offset.
          expect(map.unresolved).toEqual([]);
          expect(
            map.points.map(({ position, depth, radius, direction }) => [position, depth, radius, direction]),
          ).toEqual(
            Object.entries(description.positions).map(([position, { depth, radius = 0, direction = null }]) => [
              position,
              depth,
              radius,
              direction,
            ]),
          );
          const differences = Object.keys(description.positions).map((place) => zone[place as keyof typeof zone] ?? 0);
          expect(map.points.filter((point, i) => !close(point.difference, differences[i]!))).toEqual([]);
          expect(map.offsets.map(({ pair }) => pair)).toEqual(Array.from({ length: 5 }, () => ["P", "Q"]));
          expect(map.offsets.filter((found) => !close(found.offset, offset))).toEqual([]);
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  const { description, logs } = invented({ high: 0.002, low: -0.004, east: 0.003, west: 0.001 }, 0.01, 1e-7, 0.001);

  it.each([
    { arrangement: "reference-fixed", axial: [0, 0.004], radial: [0, 0.003], kind: "rectangular" },
    { arrangement: "midpoint", axial: [-0.001, 0.003], radial: [0.0015, 0.0015], kind: "rectangular" },
    { arrangement: "anywhere", axial: [0, 0.006], radial: [0, 0.003], kind: "triangular" },
  ] as const)("$arrangement: estimate and half-width (common practice)", ({ arrangement, axial, radial, kind }) => {
    const evaluation = evaluateSurvey({ ...description, arrangement }, logs);
    const statements = surveyStatements(evaluation);
    for (const [name, [estimate, halfWidth]] of [
      ["bathAxial", axial],
      ["bathRadial", radial],
    ] as const) {
      const statement = statements[name]!;
      expect(statement.distribution).toBe(kind);
      expect(statement).toMatchObject({
        estimate: expect.closeTo(estimate, 10),
        halfWidth: expect.closeTo(halfWidth, 10),
      });
      expect(readStatement(statement, name).budget.standardUncertainty).toBeCloseTo(
        halfWidth / Math.sqrt(kind === "triangular" ? 6 : 3),
        10,
      );
    }
  });

  it("states what a smaller zone would gain, by straight lines between positions", () => {
    const { axial } = evaluateSurvey(description, logs);
    expect(
      axial!.smaller.map(({ from, to, halfWidth, gain }) => [
        from,
        to,
        Number(halfWidth.toFixed(9)),
        Number(gain.toFixed(9)),
      ]),
    ).toEqual([
      [265, 295, 0.003, 0.001],
      [270, 290, 0.002, 0.002],
      [275, 285, 0.001, 0.003],
    ]);
    const chosen = evaluateSurvey({ ...description, zone: { depth: [270, 300], radius: 15 } }, logs);
    expect(chosen.axial!.limits.highest).toBeCloseTo(0.001, 9);
    expect(chosen.radial!.quantity.halfWidth).toBeCloseTo(0.0015, 9);
  });

  it("refuses a zone wider than was surveyed", () => {
    expect(() => evaluateSurvey({ ...description, zone: { depth: [250, 300] } }, logs)).toThrow(
      /zone\.depth.*from 260 mm to 300 mm/,
    );
    expect(() => evaluateSurvey({ ...description, zone: { radius: 40 } }, logs)).toThrow(/zone\.radius: got 40/);
  });

  it("refuses a zone that one direction alone reaches", () => {
    const shorter = {
      ...description,
      positions: { ...description.positions, west: { ...description.positions["west"]!, radius: 20 } },
    };
    const { radial } = evaluateSurvey(shorter, logs);
    expect(radial!.zone).toEqual([0, 20]);
    expect(() => evaluateSurvey({ ...shorter, zone: { radius: 30 } }, logs)).toThrow(
      /zone\.radius: got 30; expected no more than was surveyed, in two directions at least: radii from 0 mm to 20 mm/,
    );
    const { west: _, ...positions } = description.positions;
    const one = { ...description, positions, steps: description.steps.slice(0, 7) };
    const alone = evaluateSurvey(one, logs);
    expect(alone.radial).toBeNull();
    expect(surveyStatements(alone).bathRadial).toBeUndefined();
    expect(alone.checks.filter(({ passed }) => !passed).map(({ check }) => check)).toEqual([
      expect.stringContaining("at least two directions"),
    ]);
    expect(() => evaluateSurvey({ ...one, zone: { radius: 10 } }, logs)).toThrow(/zone\.radius: got 10/);
  });

  // Variances add (JCGM 100, 5.1.2): a²/3 of the limits and u² of the differences, and a²/6 for the triangular.
  it.each([
    ["reference-fixed", 3],
    ["midpoint", 3],
    ["anywhere", 6],
  ] as const)("%s: the half-width holds the survey's own uncertainty", (arrangement, divisor) => {
    const noisy = logs.map((own, k) =>
      k === 0 ? { ...own, values: own.values.map((value, i) => value + 1e-4 * (((i * 7919) % 13) - 6)) } : own,
    );
    const { axial } = evaluateSurvey({ ...description, arrangement }, noisy);
    const { halfWidth, ofDifferences } = axial!.quantity;
    expect(axial!.limits.noise).toBeGreaterThan(1e-5);
    expect((halfWidth * halfWidth) / divisor).toBeCloseTo(
      (ofDifferences * ofDifferences) / divisor + axial!.limits.noise ** 2,
      15,
    );
  });

  it("uses one moved against a fixed one if a position was not swapped", () => {
    const once = { ...description, steps: description.steps.filter((_, i) => i !== 2) };
    const { map } = evaluateSurvey(once, logs);
    const high = map.comparisons.find(({ position }) => position === "high")!;
    expect(high.method).toBe("moved");
    expect(high.difference).toBeCloseTo(0.002, 10);
    const other = { ...description, steps: description.steps.filter((_, i) => i !== 1) };
    const moved = evaluateSurvey(other, logs).map.comparisons.find(({ position }) => position === "high")!;
    expect(moved).toMatchObject({
      method: "moved",
      difference: expect.closeTo(0.002, 10),
      offset: expect.closeTo(0.01, 10),
    });
  });

  it("states which position nothing connects with the reference", () => {
    const loose = {
      ...description,
      steps: [...description.steps.slice(1, 2), ...description.steps.slice(3)],
      stability: { windowMinutes: 25 },
    };
    const { map, reasoning } = evaluateSurvey(loose, logs);
    expect(map.unresolved).toEqual(["high"]);
    expect(reasoning.at(-1)).toContain("high is not compared with centre");
  });

  it("notices an offset that did not stay, and a step that has not settled", () => {
    const shifted = logs.map((own, k) =>
      k === 0
        ? { ...own, values: own.values.map((value, i) => value + (i >= 1000 ? 0.002 : 0) + 1e-5 * ((i * 7919) % 13)) }
        : own,
    );
    const failed = evaluateSurvey(description, shifted).checks.filter(({ passed }) => !passed);
    expect(failed.map(({ check }) => check)).toEqual([expect.stringContaining("offset P − Q stays constant")]);
    const settling = logs.map((own, k) =>
      k === 0 ? { ...own, values: own.values.map((value, i) => value + 0.02 * Math.exp(-(i % 200) / 60)) } : own,
    );
    expect(
      evaluateSurvey(description, settling).checks.some(({ check, passed }) => check.includes("settled") && !passed),
    ).toBe(true);
  });

  it("refuses names and times that do not fit, all at once", () => {
    const wrong = { ...description, reference: "middle", steps: [{ from: 0, to: 100, at: { P: "centre", S: "top" } }] };
    expect(() => evaluateSurvey(wrong, logs)).toThrow(
      /reference: got "middle"[\s\S]*steps\.0\.at\.S: got "S"[\s\S]*got "top"/,
    );
    const late = {
      ...description,
      steps: [...description.steps, { from: 18000, to: 24000, at: { P: "centre", Q: "centre" } }],
    };
    expect(() => evaluateSurvey(late, logs)).toThrow(
      /steps\.9\.to: got "?24000 s"?; expected a moment within the log of P, which ends 17990 s/,
    );
    const over = { ...description, steps: [description.steps[0]!, { ...description.steps[1]!, from: 1000 }] };
    expect(() => evaluateSurvey(over, logs)).toThrow(/steps\.1\.from/);
  });

  it("lets the user choose another distribution", () => {
    const evaluation = evaluateSurvey(description, logs);
    expect(surveyStatements(evaluation, { bathStability: "arcsine" }).bathStability).toMatchObject({
      distribution: "arcsine",
      estimate: 0,
    });
    expect(surveyStatements(evaluation, { bathStability: "normal" }).bathStability).toMatchObject({
      distribution: "normal",
      standardUncertainty: evaluation.stability.worst.standardDeviation,
    });
  });

  it("states what readings that do not differ cannot tell, and loses nothing else", () => {
    // Offsets of 0.1 K at values near 72 °C differ by a rounding from swap to swap.
    const still = invented({}, 0.1, 0, 0);
    const evaluation = evaluateSurvey(still.description, still.logs);
    const failed = evaluation.checks.filter(({ passed }) => !passed);
    expect(failed.map(({ check }) => check)).toEqual([
      "readings of the stability that the thermometers resolve",
      "vertical differences that the thermometers resolve",
      "horizontal differences that the thermometers resolve",
    ]);
    expect(failed[0]!.found).toContain("state the resolution of the readings");
    for (const choice of [{}, { bathStability: "normal" }, { bathAxial: "arcsine" }] as const) {
      const statements = surveyStatements(evaluation, choice);
      expect(Object.values(statements)).toHaveLength(3);
      for (const statement of Object.values(statements))
        expect(statement).toMatchObject({ distribution: "constant", value: 0 });
    }
  });

  it("keeps the stability if the vertical differences alone are all equal", () => {
    const uniform = invented({ east: 0.003, west: -0.002 }, 0.1, 0, 0.004);
    const statements = surveyStatements(evaluateSurvey(uniform.description, uniform.logs));
    expect(statements.bathAxial).toMatchObject({ distribution: "constant", value: 0 });
    expect(statements.bathStability).toMatchObject({ distribution: "rectangular" });
    expect(statements.bathRadial).toMatchObject({ distribution: "rectangular" });
  });

  it("reports an offset that moved although its readings do not differ, without a count of standard uncertainties of 0", () => {
    const still = invented({}, 0.1, 0, 0);
    const moved = still.logs.map((own, k) =>
      k === 0 ? { ...own, values: own.values.map((value, i) => value + (i >= 1000 ? 0.002 : 0)) } : own,
    );
    const check = evaluateSurvey(still.description, moved).checks.find(({ check: asked }) =>
      asked.includes("offset P"),
    )!;
    expect(check.passed).toBe(false);
    expect(check.found).toContain("do not differ, so their standard uncertainty is not known");
    expect(check.found).not.toContain("standard uncertainties off");
  });

  it("is plain data that survives JSON", () => {
    const evaluation = evaluateSurvey(description, logs);
    expect(JSON.parse(JSON.stringify(evaluation)).axial.quantity).toEqual(evaluation.axial!.quantity);
  });
});
