import type { CertificateReference } from "../../models/index.ts";
import type { Certificate } from "../../viewer/present/certificate/certificate.ts";
import { languages } from "../../viewer/present/messages/index.ts";
import { certificateHtml } from "../../viewer/report/certificate-html.ts";
import { findChromium, printToPdf } from "./chromium.ts";
import type { ReportForm } from "./document.ts";

/** A calibration certificate as one HTML document. */
export const certificateDocument = (
  certificate: Certificate,
  reference: CertificateReference | null,
  { language, paper }: ReportForm,
): string => certificateHtml(certificate, reference, languages[language], paper ?? null);

/** The same, printed. @throws {Fault} `no-such-file`: there is no Chromium; `cannot-write` */
export const certificatePdf = (
  certificate: Certificate,
  reference: CertificateReference | null,
  form: ReportForm,
  signal?: AbortSignal,
): Promise<Uint8Array> =>
  printToPdf(certificateDocument(certificate, reference, { paper: "A4", ...form }), findChromium(), signal);
