import type { ReportedRecord } from "../../../engine/index.ts";
import type { CalibratedPoint } from "../../../models/index.ts";
import { decimalsFor } from "../numbers.ts";
import { toReport } from "../to-report.ts";

/** A figure as it is stated: rounded, with the decimal places it is printed with. */
export interface StatedFigure {
  readonly value: number;
  readonly places: number;
}

/** The uncertainty of a result in the form that a certificate states it. */
export type StatedUncertainty =
  | {
      readonly kind: "expanded";
      readonly U: StatedFigure;
      readonly k: StatedFigure;
      /** Degrees of freedom of the t distribution that k is of; `null`: normal. */
      readonly degreesOfFreedom: number | null;
      /** k is that of the propagated distribution. */
      readonly fitted: boolean;
    }
  | {
      readonly kind: "interval";
      readonly u: StatedFigure;
      readonly low: StatedFigure;
      readonly high: StatedFigure;
    }
  | { readonly kind: "open" };

/** One point as a certificate states it: the same figures on paper and for machines. */
export interface StatedPoint {
  readonly point: CalibratedPoint;
  readonly temperature: StatedFigure;
  readonly resistance: StatedFigure;
  readonly error: StatedFigure;
  readonly uncertainty: StatedUncertainty;
}

export const figure = (value: number, places: number): StatedFigure => ({
  // 0 − 0 rather than −0, which would be printed with a sign.
  value: 0 + Number(value.toFixed(places)),
  places,
});

/** The figure as a decimal number for machines, with its trailing zeros. */
export const decimalText = ({ value, places }: StatedFigure): string => value.toFixed(places);

/** Two significant digits of an uncertainty (JCGM 100, 7.2.6); at most 0.1 µK, where nothing is known further. */
const placesOf = (uncertainty: number): number => Math.min(7, Math.max(0, decimalsFor(uncertainty, 2)));

/** The result at one point that a certificate states, by the recommendation of its record. */
export function statedPoint(point: CalibratedPoint, { measurands, coverage }: ReportedRecord): StatedPoint {
  const measurand = measurands[point.measurand]!;
  const { linear, monteCarlo } = measurand;
  const found = toReport(measurand);
  const { estimate, standardUncertainty: u } = monteCarlo;
  const stated = (error: number, places: number, uncertainty: StatedUncertainty): StatedPoint => ({
    point,
    error: figure(error, places),
    temperature: figure(point.temperature, places),
    // A tenth of a temperature's last place: dR/dt of a Pt100 is near 0.4 Ω/°C.
    resistance: figure(point.resistance, places + 1),
    uncertainty,
  });
  if (found.kind === "linear" && found.expandedUncertainty > 0) {
    const places = placesOf(found.expandedUncertainty);
    return stated(linear.estimate, places, {
      kind: "expanded",
      U: figure(found.expandedUncertainty, places),
      k: figure(found.coverageFactor, 2),
      degreesOfFreedom: coverage.custom === "factor" || found.fitted ? null : linear.effectiveDegreesOfFreedom,
      fitted: found.fitted,
    });
  }
  if (found.kind === "monteCarlo" && estimate !== null && u !== null) {
    const [low, high] = monteCarlo.intervals[coverage.interval];
    const places = placesOf((high - low) / 2);
    return stated(estimate, places, {
      kind: "interval",
      u: figure(u, places),
      low: figure(low, places),
      high: figure(high, places),
    });
  }
  return stated(linear.estimate, placesOf(linear.standardUncertainty), { kind: "open" });
}
