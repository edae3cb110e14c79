import { withMinus } from "./text/minus.ts";

/** One thing that was checked about a log, and what came out. */
export interface Check {
  /** What is asked for, with its source or `common practice`. */
  readonly check: string;
  readonly passed: boolean;
  /** What was found, in words with figures. */
  readonly found: string;
}

/** Differences of temperatures below this, K, are what sums of readings near 100 °C are rounded by. */
export const ROUNDING = 1e-9;

/** A difference of temperature for people: in mK to three significant digits. */
export function millikelvin(kelvin: number): string {
  const value = kelvin * 1000;
  if (value === 0) return "0 mK";
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : Math.abs(value) >= 1 ? 2 : 3;
  return `${withMinus(value.toFixed(digits))} mK`;
}

/** A duration for people. */
export function duration(seconds: number): string {
  if (seconds < 120) return `${Number(seconds.toFixed(1))} s`;
  if (seconds < 7200) return `${Number((seconds / 60).toFixed(1))} min`;
  return `${Number((seconds / 3600).toFixed(2))} h`;
}

/** A plain count or ratio for people, to three significant digits. */
export const figure = (value: number): string =>
  Number.isFinite(value) ? withMinus(String(Number(value.toPrecision(3)))) : "∞";
