import { defineModel } from "../../engine/index.ts";

/** Calibration of a weight by comparison in air: JCGM 101:2008, 9.3. */
export const massCalibration = defineModel({
  id: "mass-calibration",
  title: "Mass calibration (JCGM 101, 9.3)",
  equation: "δm = (m_Rc + δm_Rc)·[1 + (a − 1.2 kg/m³)·(1/ρ_W − 1/ρ_R)] − m_nom",
  source: "JCGM 101:2008, 9.3.1.3, equation (24)",
  measurands: {
    deviation: { symbol: "δm", meaning: "deviation of the conventional mass of the weight from nominal", unit: "mg" },
  },
  inputs: {
    referenceMass: { symbol: "m_Rc", meaning: "conventional mass of the reference weight", unit: "mg" },
    balancingMass: { symbol: "δm_Rc", meaning: "conventional mass of the small weight added for balance", unit: "mg" },
    airDensity: { symbol: "a", meaning: "density of the air", unit: "kg/m³" },
    weightDensity: { symbol: "ρ_W", meaning: "density of the weight", unit: "kg/m³" },
    referenceDensity: { symbol: "ρ_R", meaning: "density of the reference weight", unit: "kg/m³" },
    nominalMass: { symbol: "m_nom", meaning: "nominal mass", unit: "mg" },
  },
  evaluate: (x) => {
    // Deviation first: the difference of two numbers near 10⁵ mg would cost five digits.
    const buoyancy = (x.airDensity - 1.2) * (1 / x.weightDensity - 1 / x.referenceDensity);
    const mass = x.referenceMass + x.balancingMass;
    return x.referenceMass - x.nominalMass + x.balancingMass + mass * buoyancy;
  },
});
