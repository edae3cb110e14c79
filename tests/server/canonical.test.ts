import { describe, expect, test } from "vitest";
import { canonicalJson } from "../../server/canonical.ts";

describe("canonical JSON, RFC 8785", () => {
  test("the example of its 3.2.2 and 3.2.3", () => {
    const input = String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`;
    const output = String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`;
    expect(canonicalJson(JSON.parse(input))).toBe(output);
  });
  test("keys in code unit order, 3.2.3", () => {
    const keys = ["\u20ac", "\r", "\ufb33", "1", "\ud83d\ude00", "\u0080", "\u00f6"];
    const sorted = ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\ud83d\ude00", "\ufb33"];
    expect(
      Object.keys(JSON.parse(canonicalJson(Object.fromEntries(keys.map((key) => [key, 0])))) as object).toSorted(),
    ).toEqual(sorted.toSorted());
    expect(canonicalJson(Object.fromEntries(keys.map((key) => [key, 0])))).toBe(
      `{${sorted.map((key) => `${JSON.stringify(key)}:0`).join(",")}}`,
    );
  });
});
