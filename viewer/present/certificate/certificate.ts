import type { ReportedRecord } from "../../../engine/index.ts";
import type {
  Calibration,
  CalibrationFit,
  CalibrationResult,
  CertificateStatements,
  RequiredField,
} from "../../../models/index.ts";
import { statedPoint, type StatedPoint } from "./stated-point.ts";

/** What stands on the calibration certificate of one instrument, decided once for paper and for machines. */
export interface Certificate {
  readonly instrument: string;
  readonly description: string | null;
  readonly stated: CertificateStatements;
  /** What keeps it a draft: fields that are not filled, points at which no result can be stated yet. */
  readonly lacking: {
    readonly fields: readonly { readonly field: RequiredField; readonly place: string }[];
    /** Numbers of these points. */
    readonly points: readonly number[];
  };
  readonly draft: boolean;
  readonly coverageProbability: number;
  readonly nominalResistance: number;
  readonly points: readonly StatedPoint[];
  readonly fit: CalibrationFit | null;
  /** r of the guard band w = r·U; `null` where no conformity is stated. */
  readonly guardBandMultiplier: number | null;
  readonly result: CalibrationResult;
  /** Digest of the record that the results are taken from, and what made it. */
  readonly digest: string;
  readonly program: string;
  readonly version: string;
}

/**
 * @param stated what the calibration states for this instrument (`certificateFieldsOf`)
 * @param result of the same instrument
 * @param record that the result was made of
 * @param digest of that record
 */
export function certificateOf(
  { guardBandMultiplier }: Pick<Calibration, "guardBandMultiplier">,
  stated: CertificateStatements,
  result: CalibrationResult,
  record: ReportedRecord,
  digest: string,
): Certificate {
  const points = result.points.map((point) => statedPoint(point, record));
  const open = points.filter(({ uncertainty }) => uncertainty.kind === "open").map(({ point }) => point.number);
  return {
    instrument: result.instrument,
    description: result.description,
    stated,
    lacking: { fields: stated.lacking, points: open },
    draft: stated.lacking.length > 0 || open.length > 0,
    coverageProbability: result.coverageProbability,
    nominalResistance: result.nominalResistance,
    points,
    fit: result.fit,
    guardBandMultiplier: points.some(({ point }) => point.conformity !== null) ? guardBandMultiplier : null,
    result,
    digest,
    program: `${record.engine.name} ${record.engine.version}`,
    version: record.engine.version,
  };
}
