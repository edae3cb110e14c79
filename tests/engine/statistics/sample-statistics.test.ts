import { describe, expect, it } from "vitest";
import { autocorrelation, effectiveSampleSize, sampleStatistics } from "../../../models/index.ts";
import computed from "../../reference/bath-computed.json" with { type: "json" };
import figures from "../../reference/bath.json" with { type: "json" };

/** Digits of π by Machin's formula in whole numbers, as the source of PiDigits says the set was made. */
function digitsOfPi(count: number): number[] {
  const unit = 10n ** BigInt(count + 10);
  const arctanOfInverse = (x: bigint): bigint => {
    let power = unit / x;
    let sum = power;
    for (let n = 3n, sign = -1n; power > 0n; n += 2n, sign = -sign) {
      power /= x * x;
      sum += (sign * power) / n;
    }
    return sum;
  };
  return [...String(4n * (4n * arctanOfInverse(5n) - arctanOfInverse(239n)))].slice(0, count).map(Number);
}

/** 0.1 either side of a middle, as NumAcc2 to NumAcc4 are defined: decimal texts, so that each is the nearest double. */
const alternating = (whole: string): number[] => [
  Number(`${whole}.2`),
  ...Array.from({ length: 500 }, () => [Number(`${whole}.1`), Number(`${whole}.3`)]).flat(),
];

const piDigits = (): number[] => digitsOfPi(5000).map((digit, i) => (i === 956 ? 3 : digit));

const { univariate } = figures;
// Relative tolerances as derived in the reference entries: limited by the representation of the data in a double.
const sets = [
  {
    name: "NumAcc1",
    values: univariate.numacc1.inputs,
    certified: univariate.numacc1.certified,
    mean: 0,
    sd: 0,
    r1: 0,
  },
  {
    name: "NumAcc2",
    values: alternating("1"),
    certified: univariate.numacc2.certified,
    mean: 1e-14,
    sd: 1e-12,
    r1: 1e-12,
  },
  {
    name: "NumAcc3",
    values: alternating("1000000"),
    certified: univariate.numacc3.certified,
    mean: 1e-15,
    sd: 1e-8,
    r1: 1e-8,
  },
  {
    name: "NumAcc4",
    values: alternating("10000000"),
    certified: univariate.numacc4.certified,
    mean: 1e-15,
    sd: 1e-7,
    r1: 1e-7,
  },
  { name: "PiDigits", values: piDigits(), certified: univariate.pidigits.certified, mean: 1e-15, sd: 1e-14, r1: 1e-12 },
  {
    name: "Lew",
    values: univariate.lew.inputs,
    certified: univariate.lew.certified,
    mean: 1e-14,
    sd: 1e-14,
    r1: 1e-13,
  },
  {
    name: "Lottery",
    values: univariate.lottery.inputs,
    certified: univariate.lottery.certified,
    mean: 1e-14,
    sd: 1e-14,
    r1: 1e-13,
  },
  {
    name: "Mavro",
    values: univariate.mavro.inputs,
    certified: univariate.mavro.certified,
    mean: 1e-14,
    sd: 1e-11,
    r1: 1e-11,
  },
];

const relative = (value: number, expected: number): number => Math.abs(value - expected) / Math.abs(expected);

describe("NIST Statistical Reference Datasets, univariate: certified mean, standard deviation and lag-1 autocorrelation", () => {
  it.each(sets)("$name", ({ values, certified, mean, sd, r1 }) => {
    const found = sampleStatistics(values as readonly number[]);
    expect(relative(found.mean, certified.mean)).toBeLessThanOrEqual(mean);
    expect(relative(found.standardDeviation, certified.sd)).toBeLessThanOrEqual(sd);
    expect(relative(autocorrelation(values as readonly number[], 1), certified.r1)).toBeLessThanOrEqual(r1);
  });

  it("keeps s where a one-pass sum of squares loses it (NumAcc4)", () => {
    const values = alternating("10000000");
    const sum = values.reduce((a, b) => a + b, 0);
    const squares = values.reduce((a, b) => a + b * b, 0);
    const naive = Math.sqrt(Math.max(0, squares - (sum * sum) / values.length) / (values.length - 1));
    expect(relative(naive, 0.1)).toBeGreaterThan(1e-3);
    expect(relative(sampleStatistics(values).standardDeviation, 0.1)).toBeLessThan(1e-7);
  });
});

describe("effective sample size", () => {
  it("of a first-order autoregressive series is n·(1 − φ)/(1 + φ) (Bayley and Hammersley 1946)", () => {
    const { first, theory } = computed.autoregressive;
    const { effective, lags } = effectiveSampleSize(first);
    expect(lags).toBeGreaterThan(2);
    // The estimate of Σr_k from 500 values has a relative standard error of about √(2·(2·lags + 1)/n) = 0.2; the
    // tolerance is twice that either way.
    expect(effective / first.length).toBeGreaterThan(theory / 1.5);
    expect(effective / first.length).toBeLessThan(theory * 1.5);
  });

  it("is n for values that alternate: negative correlation is not credited", () => {
    const values = Array.from({ length: 100 }, (_, i) => (i % 2 === 0 ? 1 : -1));
    expect(effectiveSampleSize(values).effective).toBe(100);
  });

  it("is n, not NaN, for equal values", () => {
    expect(effectiveSampleSize([3, 3, 3, 3])).toMatchObject({ effective: 4, lagOne: 0 });
  });
});
