import { defineModel, elementary } from "../../engine/index.ts";

/** Simultaneous resistance and reactance: JCGM 100:2008, H.2; JCGM 102:2011, 9.4 adds a sixth set of readings. */
export const impedance = defineModel({
  id: "impedance",
  title: "Simultaneous resistance and reactance (JCGM 100, H.2)",
  equation: "R = (V/I)·cos φ; X = (V/I)·sin φ; Z = V/I",
  source: "JCGM 100:2008, H.2.2",
  measurands: {
    resistance: { symbol: "R", meaning: "resistance", unit: "Ω" },
    reactance: { symbol: "X", meaning: "reactance", unit: "Ω" },
    impedance: { symbol: "Z", meaning: "magnitude of the impedance", unit: "Ω" },
  },
  inputs: {
    voltage: { symbol: "V", meaning: "amplitude of the potential difference", unit: "V" },
    current: { symbol: "I", meaning: "amplitude of the alternating current", unit: "A" },
    phase: { symbol: "φ", meaning: "phase-shift angle", unit: "rad" },
  },
  evaluate: ({ voltage, current, phase }) => {
    const z = voltage / current;
    return { resistance: z * elementary.cos(phase), reactance: z * elementary.sin(phase), impedance: z };
  },
});
