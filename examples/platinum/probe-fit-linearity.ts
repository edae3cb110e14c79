/**
 * How far is the linear budget from the Monte Carlo for a temperature found with fitted coefficients?
 *
 * Takes the study of probe HF-021 (four baths, R₀, A, B, C fitted), leaves out what belongs to the use, and asks at
 * temperatures from −40 °C to 134 °C:
 *  - u(t) and the ends of the 95 % interval by both methods;
 *  - the gap: t of each trial less the t that its inputs would give by the sensitivity coefficients. Its spread is what
 *    the curvature of the fit does, free of the draw that the two methods share.
 *
 * Run: npx esbuild examples/platinum/probe-fit-linearity.ts --bundle --platform=node --log-level=error | node -
 */
import { defineModel, propagate, type Model } from "../../engine/index.ts";
import { platinum, probeFit } from "../../models/index.ts";
import study from "./probe-fit-hf-021.json" with { type: "json" };

const TRIALS = 400_000;
const IN_USE = ["readoutInUse", "driftInUse", "selfHeatingInUse"];

const model = probeFit.build(study.parameters);
const calibration = {
  ...study,
  trials: TRIALS,
  inputs: { ...study.inputs, ...Object.fromEntries(IN_USE.map((name) => [name, { distribution: "constant", value: 0 }])) },
};

/** The study's model with t and the gap between t and its linear form as measurands. */
function withGap(estimate: number, at: Readonly<Record<string, number>>, coefficients: ReadonlyMap<string, number>): Model {
  return defineModel({
    id: "probe-fit-gap",
    title: "Temperature in use and its departure from linearity",
    inputs: model.inputs,
    measurands: {
      t: model.measurands["t"]!,
      gap: { symbol: "t − t_lin", meaning: "temperature in use less its linear form", unit: "°C" },
    },
    evaluate: (x) => {
      const { t } = model.evaluate(x) as Readonly<Record<string, number>>;
      let linear = estimate;
      for (const [name, c] of coefficients) linear += c * (x[name]! - at[name]!);
      return { t: t!, gap: t! - linear };
    },
  }) as Model;
}

console.log(`Probe HF-021, calibration alone, ${TRIALS} trials. All in mK but t.`);
console.log("      t/°C  u linear  u Monte Carlo   low end   high end       gap: mean      sd   greatest   validated at 1 / 2 digits");
for (let t = -40; t <= 134; t += 14.5) {
  const inputs = { ...calibration.inputs, resistanceInUse: { distribution: "constant", value: resistanceAt(t) } };
  const { contributions, estimate } = propagate(model, { ...calibration, inputs, trials: 1000 }).measurands["t"]!.linear;
  const coefficients = new Map(contributions.filter((row) => row.standardUncertainty > 0).map((row) => [row.input, row.sensitivityCoefficient]));
  const at = Object.fromEntries(contributions.map((row) => [row.input, row.estimate]));
  const record = propagate(withGap(estimate, at, coefficients), { ...calibration, inputs }).measurands;
  const { linear, monteCarlo, validation } = record["t"]!;
  const gap = record["gap"]!.monteCarlo;
  const [low, high] = monteCarlo.intervals.symmetric;
  const row = [
    linear.standardUncertainty,
    monteCarlo.standardUncertainty!,
    low - linear.interval[0],
    high - linear.interval[1],
    gap.estimate!,
    gap.standardUncertainty!,
    Math.max(-gap.least, gap.greatest),
  ].map((value) => (1000 * value).toFixed(4).padStart(10));
  console.log(`${t.toFixed(1).padStart(10)}${row.join(" ")}   ${validation.atDigits.map((d) => d.validated).join(" / ")}`);
}

/** R of the probe at t from the study's own estimates, fitted once. */
function resistanceAt(t: number): number {
  const { R0, A, B, C } = coefficientsOf();
  return platinum.callendarVanDusen.resistanceAt({ A, B, C }, R0, t);
}

function coefficientsOf(): { R0: number; A: number; B: number; C: number } {
  const { measurands } = propagate(model, { ...calibration, trials: 1000 });
  const estimate = (name: string): number => measurands[name]!.linear.estimate;
  return { R0: estimate("R0"), A: estimate("A"), B: estimate("B"), C: estimate("C") };
}
