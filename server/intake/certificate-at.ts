import type { Evidence, Statement } from "../../engine/index.ts";
import {
  certificateFromDsi,
  certificateStatement,
  driftStatement,
  interpolationStatement,
  type Certificate,
  type CertificateEvaluation,
  type DsiMapping,
  type OpenedCertificate,
} from "../../models/index.ts";
import { loadCertificate, readDsi } from "./index.ts";
import { withEvidence } from "./with-evidence.ts";
import type { WatchedFile } from "./watched-file.ts";

/** What a certificate file does not say, or says in a way of its own. */
export interface CertificateRequest {
  readonly thermometer?: string | undefined;
  readonly calibrated?: string | undefined;
  /** Which quantity of an XML certificate plays which part. */
  readonly parts?: Partial<DsiMapping> | undefined;
}

/** Reads a certificate: our own description, or the XML of a Digital Calibration Certificate. @throws {InputError} */
export async function openCertificate(
  { source, trace }: WatchedFile,
  path: string,
  { thermometer, calibrated, parts }: CertificateRequest,
): Promise<OpenedCertificate> {
  if (!/\.xml$/i.test(path)) return { certificate: await loadCertificate(source), reasoning: [], file: trace() };
  const about = {
    ...(thermometer === undefined ? {} : { thermometer }),
    ...(calibrated === undefined ? {} : { calibrated }),
  };
  const { certificate, reasoning } = certificateFromDsi(await readDsi(source), parts, about);
  return { certificate, reasoning, file: trace() };
}

/** The certificate's correction and drift as input quantities, with their evidence. @throws {InputError} */
export function certificateStatements(
  certificate: Certificate,
  { value, drift, validity }: CertificateEvaluation,
  file: Evidence["files"][number],
): Record<string, Statement> {
  const day = [
    { name: "calibrated", value: certificate.calibrated },
    { name: "used on", value: validity.on },
    { name: "days since", value: validity.days, unit: "d" },
  ];
  const correction = withEvidence(certificateStatement(certificate, value), {
    method:
      value.between.length === 1
        ? "as stated at a point of the certificate"
        : "correction and u interpolated linearly between two points of the certificate",
    files: [file],
    figures: [
      { name: "temperature", value: value.temperature, unit: "°C" },
      ...value.between.map((point) => ({ name: "point", value: point, unit: "°C" })),
      { name: "correction", value: value.correction, unit: "K" },
      { name: "standard uncertainty", value: value.standardUncertainty, unit: "K" },
      ...day,
    ],
  });
  const beyond = interpolationStatement(certificate, value);
  const stated = {
    referenceCertificate: correction,
    ...(beyond === null
      ? {}
      : {
          referenceInterpolation: withEvidence(beyond, {
            method: "departure of the parabola through the nearest three points from the straight line between two",
            files: [file],
            figures: [
              { name: "temperature", value: value.temperature, unit: "°C" },
              { name: "half-width", value: value.interpolation!, unit: "K" },
            ],
          }),
        }),
  };
  if (drift === null) return stated;
  const figures =
    drift.method === "bounds"
      ? [{ name: "largest change between calibrations", value: drift.halfWidth, unit: "K" }]
      : [
          { name: "fitted rate", value: drift.rate * 365.25, unit: "K/a" },
          { name: "change since the calibration", value: drift.change, unit: "K" },
          { name: "standard uncertainty of the change", value: drift.standardUncertainty, unit: "K" },
        ];
  return {
    ...stated,
    referenceDrift: withEvidence(driftStatement(certificate, drift), {
      method:
        drift.method === "bounds"
          ? "bounded by the largest change between successive calibrations"
          : "straight line through the calibrations, continued",
      files: [file],
      figures: [
        ...drift.history.map(({ calibrated, correction: at }) => ({
          name: `correction of ${calibrated}`,
          value: at,
          unit: "K",
        })),
        ...figures,
        ...day,
      ],
    }),
  };
}

/** Today by the clock of this machine, YYYY-MM-DD. */
export function today(): string {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}
