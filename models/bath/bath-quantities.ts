import type { Quantity } from "../../engine/index.ts";

/** What the bath adds to every comparison in it: the temperature differs between the places and between the readings. */
export const bathQuantities = {
  bathAxial: {
    symbol: "δt_ax",
    meaning: "vertical temperature difference between the two thermometers",
    unit: "°C",
    difference: true,
  },
  bathRadial: {
    symbol: "δt_rad",
    meaning: "horizontal temperature difference between the two thermometers",
    unit: "°C",
    difference: true,
  },
  bathStability: {
    symbol: "δt_st",
    meaning: "change of the bath between the two readings",
    unit: "°C",
    difference: true,
  },
} as const satisfies Readonly<Record<string, Quantity>>;
