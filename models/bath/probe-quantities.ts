import type { Quantity } from "../../engine/index.ts";

/** What the probe itself brings to every comparison in a bath. */
export const probeQuantities = {
  selfHeating: {
    symbol: "δt_sh",
    meaning: "warming of the probe by its measuring current",
    unit: "°C",
    difference: true,
  },
  immersion: { symbol: "δt_imm", meaning: "heat conducted along the probe's stem", unit: "°C", difference: true },
  hysteresis: {
    symbol: "δt_hys",
    meaning: "dependence of the probe on its thermal history",
    unit: "°C",
    difference: true,
  },
  repeatability: {
    symbol: "δt_rep",
    meaning: "change of the probe from one immersion to the next",
    unit: "°C",
    difference: true,
  },
} as const satisfies Record<string, Quantity>;
