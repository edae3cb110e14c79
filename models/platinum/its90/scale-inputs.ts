import type { Quantity } from "../../../engine/index.ts";

/**
 * What the scale itself leaves open between its fixed points: two thermometers that both meet it, or two sub-ranges that
 * both include the temperature, give values that differ. Published standard deviations are of some tenths of a millikelvin
 * (CCT Guide to the Realization of the ITS-90, Platinum Resistance Thermometry); a study states its own figure.
 */
export const scaleInputs = {
  nonUniqueness: {
    symbol: "δt_nu",
    meaning: "non-uniqueness of ITS-90 between thermometers of one kind at this temperature",
    unit: "°C",
    difference: true,
  },
  subRangeInconsistency: {
    symbol: "δt_sr",
    meaning: "inconsistency between the sub-ranges of ITS-90 that include this temperature",
    unit: "°C",
    difference: true,
  },
} as const satisfies Record<string, Quantity>;

export type ScaleInputs = Readonly<Partial<Record<keyof typeof scaleInputs, number>>>;
