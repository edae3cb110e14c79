import { defineModel, elementary } from "../../engine/index.ts";

/**
 * Effect of one degree in a steam steriliser: minutes at the reference temperature that one minute at the load's
 * temperature is equivalent to. The exponential makes it a model that no linear budget follows far.
 */
export const lethalRate = defineModel({
  id: "lethal-rate",
  title: "Lethality of a steriliser hold, from the corrected reading of its probe",
  equation: "F = τ·10^((t_X − e − t_ref) / z)",
  source: "common practice in moist-heat sterilisation: t_ref = 121.11 °C and z = 10 °C for F_0",
  cautions: [
    "A steriliser holds steam under pressure: open it only when its own interlocks allow, and never defeat them.",
    "Whether a load is sterile is decided by the validated process, local regulation and qualified persons, not by this figure.",
  ],
  measurands: { lethality: { symbol: "F", meaning: "equivalent time at the reference temperature", unit: "min" } },
  inputs: {
    reading: { symbol: "t_X", meaning: "temperature that the probe indicates in the load", unit: "°C" },
    probeError: { symbol: "e", meaning: "error of the probe from its calibration", unit: "°C", difference: true },
    referenceTemperature: { symbol: "t_ref", meaning: "reference temperature of the process", unit: "°C" },
    resistanceValue: {
      symbol: "z",
      meaning: "temperature change that changes the lethal rate tenfold",
      unit: "°C",
      difference: true,
    },
    holdTime: { symbol: "τ", meaning: "duration of the hold", unit: "min" },
  },
  evaluate: ({ reading, probeError, referenceTemperature, resistanceValue, holdTime }) =>
    holdTime * elementary.exp((Math.LN10 * (reading - probeError - referenceTemperature)) / resistanceValue),
});
