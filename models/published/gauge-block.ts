import { defineModel } from "../../engine/index.ts";

/** Gauge-block calibration: JCGM 101:2008, 9.5, the end gauge of JCGM 100, H.1 with its limits inexactly known. */
export const gaugeBlock = defineModel({
  id: "gauge-block",
  title: "Gauge-block calibration (JCGM 101, 9.5)",
  equation: "δL = L_S + D + d_1 + d_2 − L_S·[δα·(θ_0 + Δ) + α_S·δθ] − L_nom",
  source: "JCGM 101:2008, 9.5.1, equation (36)",
  measurands: {
    deviation: { symbol: "δL", meaning: "deviation of the gauge block from its nominal length at 20 °C", unit: "nm" },
  },
  inputs: {
    standardLength: { symbol: "L_S", meaning: "length of the standard at 20 °C", unit: "nm" },
    difference: { symbol: "D", meaning: "difference of the lengths, mean of the indications", unit: "nm" },
    comparatorRandom: { symbol: "d_1", meaning: "random effects of the comparator", unit: "nm" },
    comparatorSystematic: { symbol: "d_2", meaning: "systematic effects of the comparator", unit: "nm" },
    standardExpansion: { symbol: "α_S", meaning: "thermal expansion coefficient of the standard", unit: "1/°C" },
    meanTemperature: {
      symbol: "θ_0",
      meaning: "mean deviation of the gauge block from 20 °C",
      unit: "°C",
      difference: true,
    },
    cycling: { symbol: "Δ", meaning: "cyclic variation of the temperature", unit: "°C", difference: true },
    expansionDifference: { symbol: "δα", meaning: "difference of the expansion coefficients", unit: "1/°C" },
    temperatureDifference: { symbol: "δθ", meaning: "difference of the temperatures", unit: "°C", difference: true },
    nominalLength: { symbol: "L_nom", meaning: "nominal length", unit: "nm" },
  },
  evaluate: (x) => {
    const expansion =
      x.expansionDifference * (x.meanTemperature + x.cycling) + x.standardExpansion * x.temperatureDifference;
    // Deviation first: the difference of two numbers near 5·10⁷ nm would cost digits.
    const deviation = x.standardLength - x.nominalLength;
    return deviation + x.difference + x.comparatorRandom + x.comparatorSystematic - x.standardLength * expansion;
  },
});
