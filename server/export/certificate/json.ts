import type { CertificateReference } from "../../../models/index.ts";
import type { Certificate } from "../../../viewer/present/certificate/certificate.ts";

/** A certificate as JSON: what it states, as printed, with the digest of the record that its results come from. */
export function certificateJson(certificate: Certificate, reference: CertificateReference | null): string {
  const { stated, points, fit, draft, lacking, digest, program } = certificate;
  const { fields, item, performed } = stated;
  return `${JSON.stringify(
    {
      format: "trialband-certificate/1",
      draft,
      lacking: { fields: lacking.fields.map(({ place }) => place), points: lacking.points },
      instrument: certificate.instrument,
      description: certificate.description,
      ...item,
      ...fields,
      performed,
      reference,
      coverageProbability: certificate.coverageProbability,
      nominalResistance: certificate.nominalResistance,
      points: points.map(({ point, temperature, resistance, error, uncertainty }) => ({
        number: point.number,
        nominal: point.nominal,
        bath: point.bath,
        direction: point.direction,
        exchanged: point.exchanged,
        temperature: temperature.value,
        resistance: resistance.value,
        error: error.value,
        ...(uncertainty.kind === "expanded"
          ? { expandedUncertainty: uncertainty.U.value, coverageFactor: uncertainty.k.value }
          : uncertainty.kind === "interval"
            ? { standardUncertainty: uncertainty.u.value, interval: [uncertainty.low.value, uncertainty.high.value] }
            : {}),
        conformity: point.conformity,
      })),
      zero: certificate.result.zero,
      fit:
        fit === null
          ? null
          : {
              deviation: fit.deviation,
              coefficients: fit.coefficients,
              covariance: fit.covariance,
              correlation: fit.correlation,
            },
      record: digest,
      program,
    },
    null,
    2,
  )}\n`;
}
