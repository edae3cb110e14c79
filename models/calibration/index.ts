// A thermometer's whole calibration: several points that share inputs, the curve through them, what it says of conformity.
export { calibrationPoints, errorName } from "./calibration-points.ts";
export { fittedPoints, fitWithCovariance, type FittedPoints } from "./point-covariance.ts";
export {
  certificateFieldsOf,
  REQUIRED as CERTIFICATE_FIELDS,
  type CertificateFields,
  type CertificateReference,
  type CertificateStatements,
  type ItemFields,
  type RequiredField,
} from "./certificate-fields.ts";
export { namesFiles, readCalibration, studyOf } from "./to-study.ts";
export {
  calibrationSchema,
  type CalibratedInstrument,
  type Calibration,
  type CalibrationDocument,
  type CalibrationPoint,
} from "./document.ts";
export {
  calibrationResult,
  statedFit,
  type BandPoint,
  type CalibrationFit,
  type CalibrationResult,
  type Coefficient,
  type StatedFit,
} from "./result.ts";
export type { CalibratedPoint } from "./calibrated-point.ts";
export type { Repeat } from "./repeats.ts";
export type { ZeroChange, ZeroResistance } from "./zero-resistance.ts";
