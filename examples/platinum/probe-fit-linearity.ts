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
import { defineModel, prepare, propagate, readStudy, type LinearBudget } from "trialband";
import { platinum, probeFit } from "trialband/models";
import study from "./probe-fit-hf-021.json" with { type: "json" };

const TRIALS = 400_000;
const IN_USE = ["readoutInUse", "driftInUse", "selfHeatingInUse"];
const constant = (value: number) => ({ distribution: "constant", value });

const model = probeFit.build(study.parameters);

/** The study's calibration with a resistance in use that is exactly known. */
const calibrationAt = (resistance: number) =>
  readStudy({
    ...study,
    trials: TRIALS,
    inputs: {
      ...study.inputs,
      ...Object.fromEntries(IN_USE.map((name) => [name, constant(0)])),
      resistanceInUse: constant(resistance),
    },
  });

/** The study's model with t and the gap between t and its linear form as measurands. */
function withGap({ estimate, contributions }: LinearBudget) {
  const uncertain = contributions.filter((row) => row.standardUncertainty > 0);
  return defineModel({
    id: "probe-fit-gap",
    title: "Temperature in use and its departure from linearity",
    inputs: model.inputs,
    measurands: {
      t: model.measurands["t"]!,
      gap: { symbol: "t − t_lin", meaning: "temperature in use less its linear form", unit: "°C", difference: true },
    },
    evaluate: (x) => {
      const { t } = model.evaluate(x) as Readonly<Record<string, number>>;
      let linear = estimate;
      for (const row of uncertain) linear += row.sensitivityCoefficient * (x[row.input]! - row.estimate);
      return { t: t!, gap: t! - linear };
    },
  });
}

const fitted = prepare(model, calibrationAt(100)).linear;
const own = { A: fitted["A"]!.estimate, B: fitted["B"]!.estimate, C: fitted["C"]!.estimate };

console.log(`Probe HF-021, calibration alone, ${TRIALS} trials. All in mK but t.`);
console.log("      t/°C  u linear u MonteCarlo  low end   high end  gap: mean         sd   greatest");
for (let t = -40; t <= 134; t += 14.5) {
  const document = calibrationAt(platinum.callendarVanDusen.resistanceAt(own, fitted["R0"]!.estimate, t));
  const linear = prepare(model, document).linear["t"]!;
  const { measurands } = propagate(withGap(linear), document);
  const monteCarlo = measurands.t.monteCarlo;
  const gap = measurands.gap.monteCarlo;
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
  console.log(`${t.toFixed(1).padStart(10)}${row.join(" ")}`);
}
