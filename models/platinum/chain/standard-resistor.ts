/** What a certificate states about a standard resistor. */
export interface StandardResistor {
  /** R at the reference temperature when calibrated, Ω. */
  readonly resistance: number;
  /** Temperature the certificate refers to, °C: 20 or 23 as a rule. */
  readonly referenceTemperature: number;
  /** First and second temperature coefficients, 1/°C and 1/°C². */
  readonly alpha: number;
  readonly beta: number;
  /** Relative drift, 1/year. */
  readonly drift: number;
}

/**
 * A standard resistor as it is now: R·(1 + α·Δt + β·Δt²)·(1 + drift·years), Ω (the usual form of certificates; common
 * practice).
 *
 * @param temperature of the resistor, °C
 * @param years since its calibration
 */
export function standardResistance(resistor: StandardResistor, temperature: number, years: number): number {
  const difference = temperature - resistor.referenceTemperature;
  return (
    resistor.resistance *
    (1 + difference * (resistor.alpha + difference * resistor.beta)) *
    (1 + resistor.drift * years)
  );
}
