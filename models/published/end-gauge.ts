import { defineModel } from "../../engine/index.ts";

/** Calibration of an end gauge against a standard: JCGM 100:2008, H.1. */
export const endGauge = defineModel({
  id: "end-gauge",
  title: "End-gauge calibration (JCGM 100, H.1)",
  equation: "l = l_S + d + d_1 + d_2 − l_S·[δα·(θ_0 + Δ) + α_S·δθ]",
  source: "JCGM 100:2008, H.1, equation (H.3)",
  measurands: { length: { symbol: "l", meaning: "length of the end gauge at 20 °C", unit: "nm" } },
  inputs: {
    standardLength: { symbol: "l_S", meaning: "length of the standard at 20 °C", unit: "nm" },
    difference: { symbol: "d", meaning: "difference of the lengths, mean of five indications", unit: "nm" },
    comparatorRandom: { symbol: "d_1", meaning: "random effects of the comparator", unit: "nm" },
    comparatorSystematic: { symbol: "d_2", meaning: "systematic effects of the comparator", unit: "nm" },
    standardExpansion: { symbol: "α_S", meaning: "thermal expansion coefficient of the standard", unit: "1/°C" },
    meanTemperature: { symbol: "θ_0", meaning: "mean deviation of the gauge from 20 °C", unit: "°C", difference: true },
    cycling: { symbol: "Δ", meaning: "cyclic variation of the room temperature", unit: "°C", difference: true },
    expansionDifference: { symbol: "δα", meaning: "difference of the expansion coefficients", unit: "1/°C" },
    temperatureDifference: {
      symbol: "δθ",
      meaning: "difference of the temperatures of gauge and standard",
      unit: "°C",
      difference: true,
    },
  },
  evaluate: (x) => {
    const expansion =
      x.expansionDifference * (x.meanTemperature + x.cycling) + x.standardExpansion * x.temperatureDifference;
    return x.standardLength + x.difference + x.comparatorRandom + x.comparatorSystematic - x.standardLength * expansion;
  },
});
