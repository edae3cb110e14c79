import { InputError, type Evidence } from "../../../engine/index.ts";
import { certificateAt, type Certificate, type CertificateValue } from "./certificate.ts";
import { evaluateDrift, type DriftEvaluation } from "./drift.ts";
import { validityOf, type Validity } from "./validity.ts";

/** A certificate as it was read, and the file it came from. */
export interface OpenedCertificate {
  readonly certificate: Certificate;
  /** How an XML certificate was read. */
  readonly reasoning: readonly string[];
  readonly file: Evidence["files"][number];
}

/** A certificate at one temperature on one day. */
export interface CertificateEvaluation {
  readonly value: CertificateValue;
  /** `null` if its history is too short, with the reason. */
  readonly drift: DriftEvaluation | null;
  readonly noDrift: string | null;
  readonly validity: Validity;
}

/** @param method required method for the drift; default: bounds, if there is a history @throws {InputError} */
export function evaluateCertificate(
  certificate: Certificate,
  temperature: number,
  on: string,
  method: DriftEvaluation["method"] | undefined,
): CertificateEvaluation {
  const value = certificateAt(certificate, temperature);
  const validity = validityOf(certificate, on);
  if (method !== undefined)
    return { value, validity, drift: evaluateDrift(certificate, temperature, on, method), noDrift: null };
  try {
    return { value, validity, drift: evaluateDrift(certificate, temperature, on, "bounds"), noDrift: null };
  } catch (error) {
    // Drift is not required: a certificate without a history still gives its correction.
    if (!(error instanceof InputError)) throw error;
    return { value, validity, drift: null, noDrift: error.message };
  }
}
