// Certificates: what a reference's calibration states at a temperature, how it drifts, and how old it is.
export { certificateAt, certificateSchema, certificateStatement, interpolationStatement } from "./certificate.ts";
export { driftStatement, evaluateDrift } from "./drift.ts";
export { evaluateCertificate } from "./evaluate.ts";
export { validityOf } from "./validity.ts";

export type { Certificate, CertificateDocument, CertificatePoint, CertificateValue } from "./certificate.ts";
export type { DriftEvaluation, HistoryPoint } from "./drift.ts";
export type { Validity } from "./validity.ts";
export type { CertificateEvaluation, OpenedCertificate } from "./evaluate.ts";
