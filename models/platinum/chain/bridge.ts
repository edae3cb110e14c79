/**
 * Resistance in Ω from a bridge's ratio to a standard resistor.
 *
 * @param ratio indicated R/R_s
 * @param correction to be added to the indicated ratio (linearity, zero)
 * @param standardResistance R_s as it is now, Ω (see `standardResistance`)
 */
export const bridgeResistance = (ratio: number, correction: number, standardResistance: number): number =>
  (ratio + correction) * standardResistance;
