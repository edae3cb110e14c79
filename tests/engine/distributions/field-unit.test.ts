import { expect, test } from "vitest";
import * as z from "zod";
import { distributionKinds, fieldUnits } from "../../../engine/internal.ts";

/** Fields of a statement that are no figures. */
const NO_FIGURES = new Set(["distribution", "unit", "source", "evidence", "components", "evaluation"]);

test("every figure of every kind of distribution declares its unit", () => {
  for (const { kind, statement } of distributionKinds.values()) {
    const fields = Object.keys((statement as z.ZodObject).shape).filter((name) => !NO_FIGURES.has(name));
    expect(Object.keys(fieldUnits({ distribution: kind })), kind).toEqual(fields);
  }
});

// JCGM 101: a count q (6.4.11), the ratio β of widths (6.4.4), and a density, whose integral over the quantity is 1.
test.each([
  ["gamma", { count: "count", shape: "one", scale: "input" }],
  ["trapezoidal", { estimate: "input", halfWidth: "input", topRatio: "one" }],
  ["log-normal", { estimate: "input", logarithmMean: "one", logarithmStandardDeviation: "one" }],
  ["tabulated-density", { values: "input", densities: "inverse" }],
  ["t", { expandedUncertainty: "input", coverageFactor: "one", degreesOfFreedom: "one" }],
])("%s", (distribution, units) => {
  expect(fieldUnits({ distribution })).toMatchObject(units);
});

test("the published schema of a study carries the units", () => {
  const { properties } = z.toJSONSchema(distributionKinds.get("gamma")!.statement, { io: "input" });
  expect(properties).toMatchObject({ count: { unit: "count" }, scale: { unit: "input" }, shape: { unit: "one" } });
});

test("a kind that is not known declares none", () => {
  for (const distribution of ["constructor", "__proto__", undefined, 7])
    expect(fieldUnits({ distribution })).toEqual({});
});
