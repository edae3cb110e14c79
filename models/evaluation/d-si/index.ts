// Digital Calibration Certificates and other files with quantities in the D-SI data model.
export { certificateFromDsi } from "./certificate.ts";
export { dsiFile } from "./read.ts";
export { dsiStatement } from "./statement.ts";

export type { DsiMapping, ImportedCertificate } from "./certificate.ts";
export type { DsiFile, DsiQuantity, DsiReal, DsiUncertainty } from "./quantities.ts";
export type { XmlElement } from "./read.ts";
export { dsiUnit } from "./unit.ts";
