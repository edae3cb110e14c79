import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readStatement } from "../../../../engine/internal.ts";
import {
  comparisonSequence,
  comparisonStatements,
  criticalDeviate,
  differenceStatement,
  evaluateReadings,
  evaluateTypeA,
  pool,
  readDocument,
  readingsSchema,
  screenOutliers,
  widerByChance,
  type Indication,
} from "../../../../models/index.ts";
import computed from "../../../reference/bath-computed.json" with { type: "json" };
import figures from "../../../reference/bath.json" with { type: "json" };

const relative = (value: number, expected: number): number => Math.abs(value - expected) / Math.abs(expected);

describe("outlier screening", () => {
  it("gives the published figures of Rosner's example (NIST/SEMATECH e-Handbook, 1.3.5.17.3)", () => {
    const { values, statistics, critical, outliers } = figures.rosner;
    const screening = screenOutliers(values);
    expect(screening.test).toContain("extreme studentized deviate");
    screening.steps.forEach((step, i) => {
      // Printed cut off after three decimals.
      expect(step.statistic).toBeGreaterThanOrEqual(statistics[i]! - 1e-9);
      expect(step.statistic).toBeLessThan(statistics[i]! + 1e-3);
      expect(step.critical).toBeGreaterThanOrEqual(critical[i]! - 1e-9);
      expect(step.critical).toBeLessThan(critical[i]! + 1e-3);
      expect(relative(step.statistic, computed.rosner[i]!.statistic)).toBeLessThan(1e-12);
      expect(relative(step.critical, computed.rosner[i]!.critical)).toBeLessThan(1e-9);
    });
    // Three outliers, though the first two statistics fall short: the test that stops there finds none.
    expect(screening.flagged.map((index) => values[index])).toEqual([...outliers].sort((a, b) => a - b));
  });

  it("gives the published statistic of Grubbs' example (NIST/SEMATECH e-Handbook, 1.3.5.17.1)", () => {
    const { values, statistic, outlier } = figures.grubbs;
    const screening = screenOutliers(values);
    expect(screening.test).toContain("Grubbs");
    expect(screening.steps[0]!.statistic).toBeCloseTo(statistic, 3);
    expect(screening.flagged.map((index) => values[index])).toEqual([outlier]);
  });

  it.each(computed.criticalDeviates)("critical value for n = $n against scipy", ({ n, critical }) => {
    expect(relative(criticalDeviate(n, 0.05), critical)).toBeLessThan(1e-9);
  });

  it("prints a coefficient below zero with a minus", () => {
    // r₁ of 1, −1, 1, −1, …: −(n − 1)/n, by its definition.
    const { checks } = evaluateTypeA([1, -1, 1, -1, 1, -1, 1, -1]);
    expect(checks[0]!.found).toMatch(/^−0\.875 against/);
  });

  it("flags, and leaves every value in every figure", () => {
    const values = [1, 1.1, 0.9, 1, 1.05, 0.95, 9];
    const typeA = evaluateTypeA(values);
    expect(typeA.outliers.flagged).toEqual([6]);
    expect(typeA.count).toBe(7);
    expect(typeA.mean).toBeCloseTo(15 / 7, 12);
    expect(typeA.checks.find(({ check }) => check.includes("no outlier"))?.passed).toBe(false);
  });
});

describe("pooled standard deviation", () => {
  it("of ten days of five readings is 85 µV (JCGM 100, H.5, table H.9)", () => {
    const { deviations, degreesOfFreedom, pooled } = figures.pooledDeviation;
    const found = pool(deviations.map((standardDeviation) => ({ standardDeviation, degreesOfFreedom })));
    expect(relative(found.standardDeviation, pooled)).toBeLessThan(1e-11);
    expect(found.degreesOfFreedom).toBe(40);
  });

  it.each(computed.varianceRatio)(
    "variance ratio $ratio with $today and $history degrees of freedom: within 0.01 of the F distribution (scipy)",
    (row) => {
      const found = widerByChance(
        { standardDeviation: row.ratio, degreesOfFreedom: row.today },
        { standardDeviation: 1, degreesOfFreedom: row.history },
      );
      expect(Math.abs(found - row.probability)).toBeLessThan(0.01);
    },
  );

  it("replaces s and its degrees of freedom, and carries a single reading", () => {
    const history = [{ standardDeviation: 0.002, degreesOfFreedom: 20 }];
    expect(evaluateTypeA([0.01, 0.012, 0.011, 0.013], { history })).toMatchObject({
      standardUncertainty: 0.001,
      degreesOfFreedom: 20,
    });
    expect(evaluateTypeA([0.01], { history })).toMatchObject({ standardUncertainty: 0.002, degreesOfFreedom: 20 });
    expect(() => evaluateTypeA([0.01])).toThrow(/at least 2 values/);
  });

  it("states so if today is wider than the history", () => {
    const typeA = evaluateTypeA([0, 0.01, -0.01, 0.012, -0.008], {
      history: [{ standardDeviation: 0.002, degreesOfFreedom: 40 }],
    });
    expect(typeA.checks.find(({ check }) => check.includes("agrees with the history"))?.passed).toBe(false);
  });
});

describe("type A evaluation", () => {
  it.each(computed.neighbours.filter(({ rho }) => rho > 0))(
    "known correlation of neighbours: n = $n, ρ = $rho, against the matrices (numpy)",
    (row) => {
      // Values without correlation of their own, so that only the known one counts.
      const values = Array.from({ length: row.n }, (_, i) => (i % 2 === 0 ? 1 : -1) * (1 + i / 10));
      const plain = evaluateTypeA(values);
      const shared = evaluateTypeA(values, { sharedCorrelation: row.rho });
      expect(relative(shared.effectiveCount, row.effective)).toBeLessThan(1e-12);
      expect(relative(shared.degreesOfFreedom, row.degreesOfFreedom)).toBeLessThan(1e-10);
      const expected = (plain.standardDeviation * row.deviationFactor) / Math.sqrt(row.effective);
      expect(relative(shared.standardUncertainty, expected)).toBeLessThan(1e-12);
    },
  );

  it("widens u if values are correlated", () => {
    const values = computed.autoregressive.first;
    const found = evaluateTypeA(values);
    const naive = found.standardDeviation / Math.sqrt(found.count);
    // √((1 + φ)/(1 − φ)) = 2; n_eff is known to ± 50 % (see the effective sample size), its root to ± 25 %.
    expect(found.standardUncertainty / naive).toBeGreaterThan(2 / 1.25);
    expect(found.standardUncertainty / naive).toBeLessThan(2 * 1.25);
    expect(found.degreesOfFreedom).toBeCloseTo(found.effectiveCount - 1, 10);
  });
});

const logOf = (order: string, value: (channel: string, time: number, i: number) => number, step = 60): Indication[] =>
  [...order].map((letter, i) => ({ time: i * step, channel: letter, value: value(letter, i * step, i) }));

const flat = (): number => 0;

const offsetOf: Readonly<Record<string, number>> = { A: 0.01, B: -0.02 };
const drifting = (channel: string, time: number): number => 72 + 1e-5 * time + (offsetOf[channel] ?? 0);

describe("comparison sequence", () => {
  it("A B B A removes linear drift, A B alone is wrong by a step of it (common comparison practice, computed case)", () => {
    const { minutes, readings_C, mean_B_minus_mean_A_mK, AB_only_mK } = figures.driftAbba.values;
    const indications = readings_C.map((value, i) => ({
      time: minutes[i]! * 60,
      channel: i === 1 || i === 2 ? "B" : "A",
      value,
    }));
    const { cycles } = comparisonSequence(indications, "A", "B");
    expect(cycles).toHaveLength(1);
    expect(cycles[0]!.difference * 1000).toBeCloseTo(mean_B_minus_mean_A_mK, 9);
    expect((readings_C[1]! - readings_C[0]!) * 1000).toBeCloseTo(AB_only_mK, 9);
    // 0.8 mK/min.
    expect(cycles[0]!.drift * 60e3).toBeCloseTo(0.8, 9);
  });

  it("property: any linear drift and any spacing leave the difference", () => {
    const arbitrary = fc.record({
      difference: fc.double({ min: -1, max: 1, noNaN: true }),
      drift: fc.double({ min: -1e-3, max: 1e-3, noNaN: true }),
      waits: fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 12, maxLength: 12 }),
    });
    fc.assert(
      fc.property(arbitrary, ({ difference, drift, waits }) => {
        let time = 0;
        const indications = [..."RXXRRXXRRXXR"].map((channel, i) => {
          time += waits[i]!;
          return { time, channel, value: 72 + drift * time + (channel === "X" ? difference : 0) };
        });
        const { cycles, shared } = comparisonSequence(indications, "R", "X");
        return (
          !shared && cycles.length === 3 && cycles.every((cycle) => Math.abs(cycle.difference - difference) < 1e-11)
        );
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it("divides the references between cycles, or knows that they are shared", () => {
    expect(comparisonSequence(logOf("RXXRRXXR", flat), "R", "X")).toMatchObject({
      shared: false,
      sharedCorrelation: 0,
    });
    const shared = comparisonSequence(logOf("RXXRXXR", flat), "R", "X");
    expect(shared.shared).toBe(true);
    // σ²/4 over σ²·(1/2 + 1/2).
    expect(shared.sharedCorrelation).toBeCloseTo(0.25, 12);
    expect(shared.cycles).toHaveLength(2);
  });

  it("takes several probes of one pass, each against its nearest references", () => {
    const indications = logOf("RABBARRABBAR", drifting);
    for (const [probe, expected] of [
      ["A", 0.01],
      ["B", -0.02],
    ] as const) {
      const { cycles, shared } = comparisonSequence(indications, "R", probe);
      expect(shared).toBe(false);
      expect(cycles.map(({ difference }) => Number(difference.toFixed(12)))).toEqual([expected, expected]);
    }
    const apart = comparisonSequence(logOf("RAARBBRAAR", drifting), "R", "A");
    expect(apart.cycles.map(({ referenceReadings }) => referenceReadings)).toEqual([2, 2]);
    expect(apart.shared).toBe(false);
  });

  it("leaves readings out that nothing brackets, and says how many", () => {
    expect(
      comparisonSequence(
        logOf("XRXXRX", () => 0),
        "R",
        "X",
      ),
    ).toMatchObject({ unbracketed: 2 });
    expect(() =>
      comparisonSequence(
        logOf("RRXX", () => 0),
        "R",
        "X",
      ),
    ).toThrow(/before and after/);
    expect(() =>
      comparisonSequence(
        logOf("RXXR", () => 0),
        "R",
        "Y",
      ),
    ).toThrow(/channels: got "Y"/);
  });
});

describe("readings as input quantities", () => {
  const description = readDocument(readingsSchema, {
    title: "probe",
    reference: "R",
    channels: { R: {}, X: { unit: "Ω", nominalResistance: 100 } },
  });
  const scatter = [0.0003, -0.0002, 0.0001, -0.0004, 0.0002, 0.0004, -0.0003, -0.0001];
  const indications = logOf(
    "RXXR".repeat(8),
    (channel, time, i) => 72 + 2e-5 * time + (channel === "X" ? 0.02 + scatter[i >> 2]! : 0),
  );
  const [evaluation] = evaluateReadings(description, indications);

  it("has n − 1 degrees of freedom for independent cycles", () => {
    expect(evaluation!.typeA).toMatchObject({ count: 8, degreesOfFreedom: 7 });
    expect(evaluation!.typeA.mean).toBeCloseTo(0.02, 10);
  });

  it("states the difference, and the two readings of bath-comparison, with the same u", () => {
    const difference = readStatement(differenceStatement(evaluation!), "difference");
    const { probeResistance, referenceReading } = comparisonStatements(evaluation!);
    const resistance = readStatement(probeResistance, "probeResistance");
    expect(difference.budget).toMatchObject({ evaluation: "A", degreesOfFreedom: 7 });
    // IEC 60751 at 72 °C: dR/dt = 100·(A + 2Bt).
    const slope = 100 * (3.9083e-3 - 2 * 5.775e-7 * 72.03);
    expect(relative(resistance.budget.standardUncertainty, difference.budget.standardUncertainty * slope)).toBeLessThan(
      1e-4,
    );
    expect(readStatement(referenceReading, "referenceReading").budget.standardUncertainty).toBe(0);
  });

  it("takes a channel called constructor as any other", () => {
    const named = (probe: string) =>
      evaluateReadings(
        readDocument(readingsSchema, { title: "probe", reference: "R", channels: { R: {}, [probe]: {} }, history: {} }),
        indications.map((reading) => (reading.channel === "X" ? { ...reading, channel: probe } : reading)),
      )[0]!.typeA;
    expect(named("constructor")).toEqual(named("X"));
  });

  it("states t if cycles share a reference", () => {
    const [shared] = evaluateReadings(
      description,
      logOf(`R${"XXR".repeat(8)}`, (channel, _, i) => (channel === "X" ? 0.02 + scatter[Math.floor(i / 3)]! : 0)),
    );
    const statement = differenceStatement(shared!);
    expect(statement.distribution).toBe("t");
    expect(shared!.typeA.degreesOfFreedom).toBeLessThan(7);
  });

  it("refuses a dispersion of nothing: the resolution is an input of its own", () => {
    const [still] = evaluateReadings(
      description,
      logOf("RXXR".repeat(3), () => 10),
    );
    expect(() => differenceStatement(still!)).toThrow(/resolution of the readout/);
  });
});
