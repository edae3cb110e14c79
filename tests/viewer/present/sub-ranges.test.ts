import { expect, test } from "vitest";
import { coefficientNames, subRanges } from "../../../models/platinum/index.ts";
import { SUB_RANGES } from "../../../viewer/present/sub-ranges.ts";

test("a form offers the sub-ranges that the models evaluate", () => {
  expect(SUB_RANGES.map(({ number }) => number)).toEqual(Object.keys(subRanges));
  for (const { number, low, high, coefficients } of SUB_RANGES) {
    const known = subRanges[number as keyof typeof subRanges];
    expect(coefficients).toEqual(coefficientNames(known));
    expect(low + 273.15).toBeCloseTo(known.low, 9);
    expect(high + 273.15).toBeCloseTo(known.high, 9);
  }
});
