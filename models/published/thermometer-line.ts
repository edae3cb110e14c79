import { defineModel, refuse, type Model, type ModelFamily } from "../../engine/index.ts";

/** A straight line through a thermometer's corrections by unweighted least squares: JCGM 100:2008, H.3. */
export const thermometerLine: ModelFamily = {
  id: "thermometer-line",
  title: "Calibration line of a thermometer (JCGM 100, H.3)",
  source: "JCGM 100:2008, H.3.2, equations (H.13)",
  parameters: {
    temperatures: "The temperatures t_k at which the corrections b1, b2, … were observed, in °C; two or more",
    reference: "The reference temperature t_0 of the line, in °C",
    use: "The temperature at which the correction is predicted, in °C",
  },
  build(parameters): Model {
    const temperatures = parameters["temperatures"];
    if (!Array.isArray(temperatures) || temperatures.length < 2 || !temperatures.every((t) => Number.isFinite(t))) {
      return refuse("parameters.temperatures", temperatures, "a list of two or more finite numbers, in °C");
    }
    const t0 = finiteAt("reference", parameters["reference"]);
    const use = finiteAt("use", parameters["use"]);
    const θ = (temperatures as number[]).map((t) => t - t0);
    const n = θ.length;
    const sum = θ.reduce((a, b) => a + b, 0);
    const squares = θ.reduce((a, b) => a + b * b, 0);
    const D = n * squares - sum * sum;
    if (!(D > 1e-12 * n * squares))
      refuse("parameters.temperatures", temperatures, "temperatures that are not all equal");
    const names = θ.map((_, k) => `b${k + 1}`);
    return defineModel({
      id: this.id,
      title: this.title,
      equation: "b(t) = y_1 + y_2·(t − t_0)",
      source: this.source!,
      measurands: {
        intercept: { symbol: "y_1", meaning: `correction at ${t0} °C`, unit: "°C", difference: true },
        slope: { symbol: "y_2", meaning: "slope of the correction", unit: "1" },
        prediction: { symbol: "b", meaning: `correction predicted at ${use} °C`, unit: "°C", difference: true },
      },
      calibrationCurve: {
        argument: {
          symbol: "t",
          meaning: "temperature",
          unit: "°C",
          from: Math.min(t0, use, ...temperatures),
          to: Math.max(t0, use, ...temperatures),
        },
        value: { symbol: "b", meaning: "correction predicted by the line", unit: "°C", difference: true },
        evaluate: ({ intercept, slope }, t) => intercept + slope * (t - t0),
        observed: (x) => names.map((name, k) => [temperatures[k], x[name]!]),
      },
      inputs: Object.fromEntries(
        names.map((name, k) => [
          name,
          {
            symbol: `b_${k + 1}`,
            meaning: `correction observed at ${temperatures[k]} °C`,
            unit: "°C",
            difference: true,
          },
        ]),
      ),
      evaluate: (x) => {
        let b = 0;
        let bθ = 0;
        for (let k = 0; k < n; k++) {
          b += x[names[k]!]!;
          bθ += x[names[k]!]! * θ[k]!;
        }
        const intercept = (b * squares - bθ * sum) / D;
        const slope = (n * bθ - b * sum) / D;
        return { intercept, slope, prediction: intercept + slope * (use - t0) };
      },
    }) as Model;
  },
};

function finiteAt(name: string, value: unknown): number {
  if (typeof value === "number" && Number.isFinite(value)) return value;
  return refuse(`parameters.${name}`, value, "a finite number, in °C");
}
