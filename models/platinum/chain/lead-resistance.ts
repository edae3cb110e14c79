/**
 * What connecting leads add to the resistance of a probe, by its connection (IEC 60751:2022 names 2-, 3- and 4-wire
 * connections; the formulas are common practice). Ω in, Ω out.
 */

/** Copper: relative change of resistance with temperature at 20 °C, 1/°C (IEC 60028, annealed copper: 3.93e-3). */
export const COPPER = 3.93e-3;

/** A lead at a temperature: R₂₀·(1 + α(t − 20 °C)), Ω. */
export const leadAt = (resistanceAt20: number, temperature: number, alpha = COPPER): number =>
  resistanceAt20 * (1 + alpha * (temperature - 20));

/** 2-wire: both leads stand in series with the sensor. */
export const twoWire = (indicated: number, outgoing: number, returning: number): number =>
  indicated - outgoing - returning;

/**
 * 3-wire: the meter measures the loop of two leads at one end and takes it off, as if the third lead were equal. What
 * remains is the difference between outgoing and returning lead.
 */
export const threeWire = (indicated: number, outgoing: number, returning: number): number =>
  indicated - (outgoing - returning);

/**
 * 4-wire: the potential leads carry only the meter's own input current, so that leads of resistance r leave
 * the fraction r/R_in of the indication.
 *
 * @param potentialLeads resistance of both potential leads together, Ω
 * @param inputConductance 1/R_in of the meter, S
 */
export const fourWire = (indicated: number, potentialLeads: number, inputConductance: number): number =>
  indicated * (1 + potentialLeads * inputConductance);

/** Takes a leakage path beside the sensor (wet insulation) off a reading: R = R_m/(1 − R_m·G), G in S. */
export const withoutShunt = (indicated: number, conductance: number): number =>
  indicated / (1 - indicated * conductance);
