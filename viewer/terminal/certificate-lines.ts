import type { CertificateEvaluation, OpenedCertificate } from "../../models/index.ts";
import { fillText } from "../present/fill.ts";
import { en } from "../present/messages/en/index.ts";
import { withUnit } from "../present/numbers.ts";
import { ENGLISH } from "../present/statement.ts";
import { certificateHistory, certificatePoints } from "../present/tables/certificate.ts";
import { listPart, plain, presentedPart, type Layout } from "./lines.ts";

const words = en.certificate;

/** A certificate as it was read: its points and its history. */
export function certificateLines({ certificate, reasoning, file }: OpenedCertificate, layout: Layout): string[] {
  const { thermometer, certificate: number, laboratory, calibrated: date } = certificate;
  return [
    layout.styles.bold(
      number === undefined
        ? fillText(words.title, { thermometer, date })
        : fillText(words.titleNumber, { number, thermometer, date }),
    ),
    ...(laboratory === undefined ? [] : [laboratory]),
    layout.styles.dim(`${file.name}  SHA-256 ${file.sha256}`),
    ...listPart(layout, words.readAs, reasoning),
    ...presentedPart(layout, certificatePoints(certificate, ENGLISH)),
    ...presentedPart(layout, certificateHistory(certificate, ENGLISH)),
  ];
}

/** A certificate at a temperature: correction, drift, age. */
export const certificateAtLines = (
  { value, drift, noDrift, validity }: CertificateEvaluation,
  layout: Layout,
): string[] =>
  listPart(
    layout,
    fillText(words.at, { temperature: withUnit(plain(value.temperature, 9), "°C"), date: validity.on }),
    [
      ...value.reasoning,
      ...(drift?.reasoning ?? [fillText(words.noDrift, { reason: String(noDrift) })]),
      ...validityTexts(validity),
    ],
  );

/** How old a certificate is on a day. */
export const validityLines = (validity: CertificateEvaluation["validity"], layout: Layout): string[] =>
  listPart(layout, fillText(words.on, { date: validity.on }), validityTexts(validity));

const validityTexts = ({ days, due, warning }: CertificateEvaluation["validity"]): string[] => [
  due === null ? fillText(words.age, { days: plain(days, 9) }) : fillText(words.ageDue, { days: plain(days, 9), due }),
  ...(warning === null ? [] : [fillText(en.warning, { warning })]),
];
