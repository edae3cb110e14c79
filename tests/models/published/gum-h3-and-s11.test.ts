import { describe, expect, test } from "vitest";
import { runExample } from "../../read-example.ts";

// JCGM 100:2008, H.3, table H.6 and H.3.4 (printed), unrounded figures from the normal equations.
describe("H.3: calibration line of a thermometer", () => {
  const { measurands, joint } = runExample("published/thermometer-line");
  test.each([
    { name: "intercept", y: -0.171203790131, u: 0.00287759783516, printed: ["-0.1712", "0.0029"] },
    { name: "slope", y: 0.00218269773989, u: 0.000667938773228, printed: ["0.0022", "0.0007"] },
    { name: "prediction", y: -0.149376812732, u: 0.00413859575285, printed: ["-0.1494", "0.0041"] },
  ])("$name", ({ name, y, u, printed }) => {
    const { linear, monteCarlo } = measurands[name]!;
    expect(linear.estimate).toBeCloseTo(y, 10);
    expect(Math.abs(linear.standardUncertainty / u - 1)).toBeLessThan(1e-9);
    expect([linear.estimate.toFixed(4), linear.standardUncertainty.toFixed(4)]).toEqual(printed);
    expect(Math.abs(monteCarlo.standardUncertainty! - u)).toBeLessThan(
      5 * monteCarlo.standardErrors.standardUncertainty!,
    );
  });
  test("r(y₁, y₂) = −0.930", () => {
    expect(joint!.linear.correlation[0]![1]).toBeCloseTo(-0.930429603093, 8);
    expect(Math.abs(joint!.monteCarlo!.correlation[0]![1]! + 0.930429603093)).toBeLessThan(
      (5 * (1 - 0.93 * 0.93)) / 1000,
    );
    // The prediction is a sum of the other two: no ellipsoid has a volume.
    expect(joint!.ellipsoid).toBeNull();
  });
});

// EA-4/02 M:2022, supplement 2, example S11 (temperature block calibrator at 180 °C), quoted at second hand: u = 164 mK;
// computed independently from the characteristic function: 95.45 % half-width 305.19 mK, k = 1.8576; k = 2 gives
// ±329 mK. The document takes a trapezoid of the axial and the radial term with k = 1.81.
describe("S11: a block calibrator whose axial and radial terms dominate", () => {
  const { linear, monteCarlo, validation, explanation } =
    runExample("published/block-calibrator").measurands["temperature"]!;
  test("k = 2 is too wide", () => {
    expect(linear.standardUncertainty).toBeCloseTo(0.164291407769, 9);
    expect(linear.expandedUncertainty).toBeCloseTo(0.328582815538, 9);
    const [low, high] = monteCarlo.intervals.symmetric;
    // Scale of the 95 % endpoints times √M: 288 mK.
    expect(Math.abs((high - low) / 2 - 0.305190759804)).toBeLessThan((5 * 0.288) / 1000);
    expect(validation.validated).toBe(false);
  });
  // By convolution k is 1.8576 with both rectangular, 1.8527 with the radial term alone normal and 1.9979 with the axial one
  // normal: the shape of the radial term changes nothing, for all its 12 % of u².
  test("the sentence gives the cause, and names the one term whose shape is responsible", () => {
    expect(explanation!.parts.shape.share).toBeGreaterThan(0.95);
    expect(explanation!.parts.shape.inputs).toEqual(["axial"]);
    expect(explanation!.sentence).toMatch(
      /100 % of the difference comes from the shape of the inputs, above all axial \(rectangular, 77 % of u²\)\./,
    );
    expect(explanation!.sentence).toMatch(
      /a smaller factor than k = 2\.00 gives the same coverage probability, k = 1\.8[56]/,
    );
    expect(explanation!.recommendation).toMatchObject({ action: "keep-with-factor", inputs: ["axial"] });
    expect(Math.abs(explanation!.recommendation.factor! - 1.8576)).toBeLessThan(0.01);
  });
});
