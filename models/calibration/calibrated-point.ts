import type { ReportedRecord } from "../../engine/index.ts";
import { errorName } from "./calibration-points.ts";
import type { Calibration } from "./document.ts";

/** One point of a calibration as a certificate states it. Temperatures in °C, resistances in Ω. */
export interface CalibratedPoint {
  /** Its number in the order in which the points were measured, from 1. */
  readonly number: number;
  /** Measurand of the record. */
  readonly measurand: string;
  readonly nominal: number;
  readonly bath: string;
  readonly direction: "rising" | "falling" | null;
  readonly exchanged: boolean;
  /** Temperature of the bath at the instrument. */
  readonly temperature: number;
  /** Resistance that the instrument had there, corrected. */
  readonly resistance: number;
  readonly error: number;
  readonly standardUncertainty: number;
  readonly coverageFactor: number;
  readonly expandedUncertainty: number;
  readonly interval: readonly [low: number, high: number];
  /** Coverage interval of the distribution, of the kind the study states. */
  readonly distributionInterval: readonly [low: number, high: number];
  /** Whether the linear budget of this point is validated, and whether the trials decide it. */
  readonly validated: boolean;
  readonly firm: boolean;
  readonly conformity: {
    readonly lower: number | null;
    readonly upper: number | null;
    readonly basis: string | null;
    readonly decision: "accepted" | "rejected";
    readonly probability: number;
  } | null;
}

/** What a record says of one point. @param i its place in the order of the document */
export function calibratedPoint(
  { points }: Calibration,
  name: string,
  i: number,
  { temperature, resistance }: { readonly temperature: number; readonly resistance: number },
  { measurands, study }: ReportedRecord,
): CalibratedPoint {
  const measurand = errorName(name);
  const { linear, monteCarlo, validation, conformity } = measurands[measurand]!;
  const { nominal, bath, direction = null, exchanged } = points[i]!;
  return {
    number: i + 1,
    measurand,
    nominal,
    bath,
    direction,
    exchanged,
    temperature,
    resistance,
    error: linear.estimate,
    standardUncertainty: linear.standardUncertainty,
    coverageFactor: linear.coverageFactor,
    expandedUncertainty: linear.expandedUncertainty,
    interval: linear.interval,
    distributionInterval: monteCarlo.intervals[study.coverage.interval],
    validated: validation.validated,
    firm: validation.firm,
    conformity:
      conformity === null
        ? null
        : {
            lower: conformity.tolerance.lower,
            upper: conformity.tolerance.upper,
            basis: conformity.tolerance.basis,
            decision: conformity.monteCarlo.decision,
            probability: conformity.monteCarlo.probabilityOfConformity,
          },
  };
}
