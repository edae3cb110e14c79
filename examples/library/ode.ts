// A model that solves a differential equation in every trial: a probe is lifted out of a bath and cools by radiation and
// convection, C·dT/dt = −a·(T − T_air) − b·(T⁴ − T_air⁴). Fixed steps keep it a pure function with fixed bits.
//   npx trialband run examples/library/ode.ts
import { defineModel, defineStudy } from "trialband";

const STEPS = 40;

const cooling = defineModel({
  id: "cooling-probe",
  title: "Temperature of a probe some time after it left the bath",
  equation: "dT/dt = −(T − T_a)/τ − r·(T⁴ − T_a⁴), by 40 steps of Runge and Kutta's fourth order",
  source: "balance of energy; common practice",
  measurands: { temperature: { symbol: "T", meaning: "temperature of the probe", unit: "K" } },
  inputs: {
    bath: { symbol: "T_b", meaning: "temperature of the bath", unit: "K" },
    air: { symbol: "T_a", meaning: "temperature of the air", unit: "K" },
    timeConstant: { symbol: "τ", meaning: "time constant of convection", unit: "s" },
    radiation: { symbol: "r", meaning: "radiation, per heat capacity", unit: "1/(s·K³)" },
    time: { symbol: "t", meaning: "time in the air", unit: "s" },
  },
  evaluate: ({ bath, air, timeConstant, radiation, time }) => {
    const airFourth = air * air * air * air;
    const rate = (T: number): number => (air - T) / timeConstant - radiation * (T * T * T * T - airFourth);
    const h = time / STEPS;
    let T = bath;
    for (let i = 0; i < STEPS; i++) {
      const k1 = rate(T);
      const k2 = rate(T + (h / 2) * k1);
      const k3 = rate(T + (h / 2) * k2);
      const k4 = rate(T + h * k3);
      T += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    return T;
  },
});

export default defineStudy(cooling, {
  title: "A probe 20 s after it left the bath at 134 °C",
  inputs: {
    bath: { distribution: "normal", estimate: 407.15, standardUncertainty: 0.02 },
    air: { distribution: "rectangular", estimate: 296.15, halfWidth: 2 },
    timeConstant: { distribution: "rectangular", estimate: 60, halfWidth: 15 },
    radiation: { distribution: "rectangular", estimate: 3e-11, halfWidth: 1e-11 },
    time: { distribution: "rectangular", estimate: 20, halfWidth: 1 },
  },
  trials: 100_000,
  seed: "cooling",
});
