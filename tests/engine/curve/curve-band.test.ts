// A calibration curve with its band, against JCGM 100:2008, H.3 and against plain algebra.
import { describe, expect, test } from "vitest";
import { curveBand } from "../../../engine/curve/curve-band.ts";
import { defineModel, ModelError, prepare, readStudy, propagate, type Model } from "../../../engine/index.ts";
import { probeFit } from "../../../models/index.ts";
import { thermometerLine } from "../../../models/published/thermometer-line.ts";
import { readExample, runExample } from "../../read-example.ts";

const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});

describe("JCGM 100:2008, H.3: the correction of a thermometer from 20 °C to 30 °C", () => {
  const { calibrationCurve, trials } = runExample("published/thermometer-line");
  const curve = calibrationCurve!;
  const at = (t: number) => curve.points.find((point) => point.at === t)!;

  test("41 arguments from the reference temperature to the use, from the first 100 000 of the run's trials", () => {
    expect(curve.points).toHaveLength(41);
    expect([curve.points[0]!.at, curve.points[40]!.at]).toEqual([20, 30]);
    expect([trials.count, curve.trials]).toEqual([1_000_000, 100_000]);
    expect(curve.argument).toEqual({ symbol: "t", meaning: "temperature", unit: "°C" });
  });

  // H.3.4: b(30 °C) = −0.1494 °C, u = 0.0041 °C (printed); H.3.3: y₁ = −0.1712 °C, s(y₁) = 0.0029 °C. Longer
  // figures: the normal equations of table H.6 in double precision, with s = 0.003 497 563 963 51 °C for each b_k.
  test.each([
    { t: 20, b: -0.171203790131, u: 0.00287759783516, printed: ["-0.1712", "0.0029"] },
    { t: 25, b: -0.171203790131 + 5 * 0.00218269773989, u: 0.00124527785402, printed: ["-0.1603", "0.0012"] },
    { t: 30, b: -0.149376812732, u: 0.00413859575285, printed: ["-0.1494", "0.0041"] },
  ])("b($t °C) = $b °C, u = $u °C", ({ t, b, u, printed }) => {
    const { linear, monteCarlo } = at(t);
    expect(linear.estimate).toBeCloseTo(b, 10);
    expect(Math.abs(linear.standardUncertainty / u - 1)).toBeLessThan(1e-9);
    expect([linear.estimate.toFixed(4), linear.standardUncertainty.toFixed(4)]).toEqual(printed);
    // Five standard errors of a normal's mean, standard deviation and 2.5 % quantile (√(0.025·0.975)/φ(1.96) = 2.671).
    const root = Math.sqrt(curve.trials);
    expect(Math.abs(monteCarlo.estimate! - b)).toBeLessThan((5 * u) / root);
    expect(Math.abs(monteCarlo.standardUncertainty! - u)).toBeLessThan((5 * u) / (root * Math.SQRT2));
    for (const [i, end] of [b - 1.959963984540054 * u, b + 1.959963984540054 * u].entries()) {
      expect(Math.abs(monteCarlo.interval[i]! - end)).toBeLessThan((5 * 2.671 * u) / root);
      expect(Math.abs(linear.interval[i]! - end)).toBeLessThan(1e-9);
    }
  });

  test("from the covariance of the two parameters, by u² = u₁² + (t − t₀)²u₂² + 2(t − t₀)u₁u₂r, equation (H.15), at every argument", () => {
    const [u1, u2, r] = [0.00287759783516, 0.000667938773228, -0.930429603093];
    for (const { at: t, linear } of curve.points) {
      const θ = t - 20;
      const u = Math.sqrt(u1 * u1 + θ * θ * u2 * u2 + 2 * θ * u1 * u2 * r);
      expect(Math.abs(linear.standardUncertainty / u - 1)).toBeLessThan(1e-8);
    }
  });

  test("the corrections observed stand beside those predicted, table H.6", () => {
    expect(curve.observed).toHaveLength(11);
    expect(curve.observed[0]).toMatchObject({ at: 21.521, value: -0.171 });
    expect(curve.observed[10]).toMatchObject({ at: 26.511, value: -0.16 });
    // Its column of predicted corrections (printed).
    const predicted = [
      -0.1679, -0.1668, -0.1657, -0.1646, -0.1635, -0.1625, -0.1614, -0.1603, -0.1592, -0.1581, -0.157,
    ];
    expect(curve.observed.map(({ fitted }) => Number(fitted.toFixed(4)))).toEqual(predicted);
  });
});

describe("a probe's R(t) from four baths", () => {
  const document = { ...readExample("platinum/probe-fit-hf-021"), trials: 20_000 };
  const model = probeFit.build(
    (document as Readonly<Record<string, unknown>>)["parameters"] as Record<string, unknown>,
  );
  const prepared = prepare(model, readStudy(document));
  const curve = curveBand(prepared, 20_000)!;

  test("the linear band is gᵀUg with the covariance of R₀, A, B, C and the derivatives of the equation by hand", () => {
    const { joint } = propagate(model, readStudy(document));
    const place = (name: string): number => joint!.measurands.indexOf(name);
    const U = joint!.linear.covariance;
    const y = Object.fromEntries(Object.entries(prepared.linear).map(([name, { estimate }]) => [name, estimate]));
    for (const { at: t, linear } of curve.points) {
      const cubic = t < 0 ? (t - 100) * t * t * t : 0;
      const g: [string, number][] = [
        ["R0", 1 + y["A"]! * t + y["B"]! * t * t + y["C"]! * cubic],
        ["A", y["R0"]! * t],
        ["B", y["R0"]! * t * t],
        ["C", y["R0"]! * cubic],
      ];
      const variance = g.reduce(
        (sum, [a, ga]) => sum + g.reduce((part, [b, gb]) => part + ga * gb * U[place(a)]![place(b)]!, 0),
        0,
      );
      // Terms up to 10⁴ times the sum cancel, of derivatives with relative error 1e-9.
      expect(Math.abs(linear.standardUncertainty / Math.sqrt(variance) - 1)).toBeLessThan(1e-4);
    }
  });

  test("runs through the four points, which determine its four parameters", () => {
    expect(curve.observed).toHaveLength(4);
    for (const { at: t, value: R, fitted } of curve.observed) {
      const { R0, A, B, C } = Object.fromEntries(
        Object.entries(prepared.linear).map(([name, { estimate }]) => [name, estimate]),
      ) as Record<string, number>;
      const ratio = 1 + A! * t + B! * t * t + (t < 0 ? C! * (t - 100) * t * t * t : 0);
      expect(Math.abs(R0! * ratio - R)).toBeLessThan(1e-9);
      expect(Math.abs(fitted - R)).toBeLessThan(1e-9);
    }
  });

  test("of many trials takes the first, identical bit for bit", () => {
    expect(curveBand(prepared, 20_000)).toEqual(curve);
    expect(curveBand(prepared, 15_000)!.points[7]!.linear).toEqual(curve.points[7]!.linear);
  });
});

describe("what a curve may be", () => {
  const line = (
    range: readonly [number, number],
    evaluate: (y: Readonly<Record<"slope", number>>, t: number) => number,
  ): Model =>
    defineModel({
      id: "proportion",
      title: "Proportion",
      measurands: { slope: { symbol: "s", meaning: "slope", unit: "1" } },
      inputs: { a: { symbol: "a", meaning: "a", unit: "1" } },
      calibrationCurve: {
        argument: { symbol: "x", meaning: "x", unit: "1", from: range[0], to: range[1] },
        value: { symbol: "y", meaning: "y", unit: "1" },
        evaluate,
      },
      evaluate: ({ a }) => a,
    });
  const study = {
    title: "t",
    model: "proportion",
    inputs: { a: normal(2, 0.1) },
    trials: 10_000,
    coverage: { factor: 2 },
  };

  test("one parameter that the model returns bare, with the study's own k", () => {
    const { calibrationCurve } = propagate(
      line([0, 10], ({ slope }, x) => slope * x),
      readStudy(study),
    );
    const last = calibrationCurve!.points[40]!;
    expect(last.linear).toMatchObject({ estimate: 20, coverageFactor: 2 });
    expect(Math.abs(last.linear.standardUncertainty - 1)).toBeLessThan(1e-9);
    expect(calibrationCurve!.points[0]!.monteCarlo).toEqual({ estimate: 0, standardUncertainty: 0, interval: [0, 0] });
    expect(calibrationCurve!.observed).toEqual([]);
  });
  test("none: the record has null", () =>
    expect(runExample("published/polar-010-correlated").calibrationCurve).toBeNull());
  test("a few readings without a standard deviation (ν = 2) leave the interval alone", () => {
    const few = {
      ...study,
      inputs: { a: { distribution: "t", estimate: 2, standardUncertainty: 0.1, degreesOfFreedom: 2 } },
    };
    const { monteCarlo } = propagate(
      line([1, 2], ({ slope }, x) => slope * x),
      readStudy(few),
    ).calibrationCurve!.points[0]!;
    expect(monteCarlo.standardUncertainty).toBeNull();
    expect(monteCarlo.interval[0]).toBeLessThan(monteCarlo.interval[1]);
  });
  test.each([[[1, 1]], [[2, 1]], [[0, Infinity]], [[Number.NaN, 1]]] as [[number, number]][])(
    "the range %j is refused",
    (range) => {
      expect(() => line(range, () => 0)).toThrow(/model\.calibrationCurve\.argument/);
    },
  );
  test("the error for a curve that is not finite names the argument, the trial and the parameters", () => {
    const model = line([0, 10], ({ slope }, x) => (x > 9 && slope > 2.3 ? Number.NaN : slope * x));
    expect(() => propagate(model, readStudy(study))).toThrow(ModelError);
    expect(() => propagate(model, readStudy(study))).toThrow(
      /calibration curve of model proportion gave NaN at 9\.25 at trial \d+ \(slope = 2\.3/,
    );
  });
  test("a curve with functions that differ between engines is remarked on", () => {
    const model = line([1, 2], ({ slope }, x) => slope * Math.log(x));
    expect(propagate(model, readStudy(study)).model.fixedBits).toBe(false);
  });
});

test("the range of the line reaches over every temperature named", () => {
  const model = thermometerLine.build({ temperatures: [10, 12], reference: 11, use: 40 });
  expect(model.calibrationCurve!.argument).toMatchObject({ from: 10, to: 40 });
});
