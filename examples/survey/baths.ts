import type { SurveyDocument } from "trialband/evaluation";

/** What the log of one bath is generated from. Temperatures in °C, differences in K, lengths in mm. All invented. */
export interface GeneratedBath {
  readonly name: string;
  readonly title: string;
  readonly setTemperature: number;
  /** Half-widths the log must give back. */
  readonly axial: number;
  readonly radial: number;
  readonly stability: number;
  /** HS-11 minus HS-12. */
  readonly offset: number;
  /** Standard deviation of a single reading. */
  readonly noise: number;
  /** Period of the controller, s. */
  readonly period: number;
  readonly bath: NonNullable<SurveyDocument["bath"]>;
  /** How the logger writes. */
  readonly format: {
    readonly separator: "," | ";" | "\t";
    readonly comma?: boolean;
    readonly clock: "iso" | "dotted" | "elapsed";
    readonly unit: "°C" | "K";
    readonly windows?: boolean;
  };
}

export const THERMOMETERS = ["HS-11", "HS-12"] as const;
/** First reading, seconds since 1970: 2026-03-02T08:00:00. */
export const START = 1772438400;
export const INTERVAL = 10;
export const REFERENCE_DEPTH = 280;

/** Part of the half-width that each position has. */
export const POSITIONS = {
  centre: { depth: REFERENCE_DEPTH, radius: 0, axial: 0, radial: 0 },
  high: { depth: REFERENCE_DEPTH - 20, radius: 0, axial: 0.55, radial: 0 },
  low: { depth: REFERENCE_DEPTH + 20, radius: 0, axial: -1, radial: 0 },
  east: { depth: REFERENCE_DEPTH, radius: 30, axial: 0, radial: 0.45 },
  west: { depth: REFERENCE_DEPTH, radius: 30, axial: 0, radial: -1 },
} as const;

export type PositionName = keyof typeof POSITIONS;

export const BATHS: readonly GeneratedBath[] = [
  {
    name: "freezer-minus-40",
    title: "Survey of the silicone bath at −40 °C",
    setTemperature: -40,
    axial: 0.004,
    radial: 0.003,
    stability: 0.003,
    offset: 0.0094,
    noise: 0.00015,
    period: 660,
    bath: {
      fluid: "silicone-2",
      setTemperature: -40,
      flashPoint: 79,
      overTemperatureCutOut: 45,
      underTemperatureCutOut: -50,
    },
    format: { separator: ",", clock: "iso", unit: "°C" },
  },
  {
    name: "cold-store-4",
    title: "Survey of the water bath at 4 °C",
    setTemperature: 4,
    axial: 0.0025,
    radial: 0.002,
    stability: 0.0015,
    offset: -0.0062,
    noise: 0.0001,
    period: 540,
    bath: { fluid: "water", setTemperature: 4, overTemperatureCutOut: 40, underTemperatureCutOut: 1.5 },
    format: { separator: ";", comma: true, clock: "dotted", unit: "°C", windows: true },
  },
  {
    name: "pasteuriser-72",
    title: "Survey of the water bath at 72 °C",
    setTemperature: 72,
    axial: 0.005,
    radial: 0.004,
    stability: 0.004,
    offset: 0.0031,
    noise: 0.0002,
    period: 600,
    bath: { fluid: "water", setTemperature: 72, overTemperatureCutOut: 85 },
    format: { separator: ",", clock: "elapsed", unit: "°C" },
  },
  {
    name: "steriliser-134",
    title: "Survey of the silicone bath at 134 °C",
    setTemperature: 134,
    axial: 0.02,
    radial: 0.006,
    stability: 0.008,
    offset: -0.0127,
    noise: 0.00025,
    period: 720,
    bath: { fluid: "silicone-20", setTemperature: 134, flashPoint: 230, overTemperatureCutOut: 165 },
    format: { separator: "\t", clock: "iso", unit: "K" },
  },
];
