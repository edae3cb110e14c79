import { describe, expect, test } from "vitest";
import { densities, middleOf } from "../../../viewer/present/pictures/histogram.ts";
import { fixed, freedom, overUnit, quotientUnit } from "../../../viewer/present/numbers.ts";
import { readable } from "../../../viewer/present/readable.ts";
import { RECORDS } from "../page/fixed-records.ts";

const record = RECORDS["published/mass-calibration"]!;
const deviation = record.measurands.deviation!;
/** The same result in gigagrams, where everything starts with zeros. */
const MANY_ZEROS = 1e-12;
const tiny = {
  ...deviation,
  unit: "Gg",
  linear: {
    ...deviation.linear,
    estimate: deviation.linear.estimate * MANY_ZEROS,
    expandedUncertainty: deviation.linear.expandedUncertainty * MANY_ZEROS,
  },
};

const ratio = (figures: Readonly<Record<string, number | null>>): number => figures.low! / figures.high!;

describe("readable", () => {
  test("leaves a result alone that has few places", () => {
    expect(readable(deviation)).toMatchObject(deviation);
    expect(readable(deviation).exponent).toBe(0);
  });

  test("takes a power of ten out where a row of zeros would stand", () => {
    const shown = readable(tiny);
    expect(shown.unit).toBe("10⁻¹²\u00a0Gg");
    // y = 1.234 mg = 1.234·10⁻¹² Gg with U = 0.106 mg; the power is the multiple of three at or below y's.
    expect(fixed(shown.linear.expandedUncertainty, 3)).toBe("0.106");
    expect(overUnit("m", shown.unit)).toBe("m / (10⁻¹²\u00a0Gg)");
    expect(quotientUnit(shown.unit, "K")).toBe("10⁻¹²\u00a0Gg/K");
    expect(quotientUnit("1", shown.unit)).toBe("1/(10⁻¹²\u00a0Gg)");
  });

  test("keeps every share, every ratio and the area of the histogram", () => {
    const shown = readable(tiny);
    const { histogram, trials } = shown.monteCarlo;
    const area = densities(histogram, trials).reduce((sum, density) => sum + density * histogram.width, 0);
    expect(area).toBeCloseTo((trials - histogram.below - histogram.above) / trials, 12);
    expect(shown.linear.contributions.map(({ share }) => share)).toEqual(
      deviation.linear.contributions.map(({ share }) => share),
    );
    expect(shown.validation.dLow / shown.validation.numericalTolerance).toBeCloseTo(
      deviation.validation.dLow / deviation.validation.numericalTolerance,
      12,
    );
    expect(ratio(shown.monteCarlo.settling.doubled)).toBeCloseTo(ratio(deviation.monteCarlo.settling.doubled), 12);
  });
});

describe("middleOf", () => {
  const histogram = {
    low: -50,
    width: 1,
    counts: Array.from({ length: 100 }, (_, i) => 1 + (i % 7)),
    below: 3,
    above: 4,
  };
  const total = ({ counts, below, above }: typeof histogram | ReturnType<typeof middleOf>): number =>
    counts.reduce((sum, count) => sum + count, below + above);

  test("leaves a histogram alone that the intervals fill well", () => {
    expect(middleOf(histogram, [-20, 20])).toBe(histogram);
  });

  test("keeps one length either side, whole bins, and every trial", () => {
    const middle = middleOf(histogram, [-2.5, 3]);
    expect(middle.low).toBe(-8);
    expect(middle.low + middle.counts.length * middle.width).toBe(9);
    expect(total(middle)).toBe(total(histogram));
  });
});

test.each([
  [null, "∞"],
  [16.75, "16.8"],
  [5875.55, "5875"],
  [406_790_576, ">\u00a0100\u202f000"],
])("degrees of freedom %s", (degrees, text) => {
  expect(freedom(degrees)).toBe(text);
});
