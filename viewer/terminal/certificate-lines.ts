import type { Certificate, CertificateEvaluation, OpenedCertificate } from "../../models/index.ts";
import { listPart, milli, plain, tablePart, type Layout } from "./lines.ts";

/** A certificate as it was read: its points and its history. */
export function certificateLines({ certificate, reasoning, file }: OpenedCertificate, layout: Layout): string[] {
  const { thermometer, certificate: number, laboratory, calibrated, points } = certificate;
  return [
    layout.styles.bold(
      `Certificate${number === undefined ? "" : ` ${number}`} of ${thermometer}, calibrated ${calibrated}`,
    ),
    ...(laboratory === undefined ? [] : [laboratory]),
    layout.styles.dim(`${file.name}  SHA-256 ${file.sha256}`),
    ...listPart(layout, "Read as", reasoning),
    ...tablePart(
      layout,
      "Points, mK",
      [
        ["temperature, °C", "point"],
        ["correction", "point"],
        ["u or U", "point"],
        ["stated", "left"],
        ["ν", "right"],
      ],
      points
        .toSorted((a, b) => a.temperature - b.temperature)
        .map((point) => [
          plain(point.temperature, 6),
          milli(point.correction),
          milli(point.standardUncertainty ?? point.expandedUncertainty!),
          point.standardUncertainty !== undefined
            ? "u"
            : point.coverageFactor === undefined
              ? `U, p = ${plain(100 * point.coverageProbability!)} %`
              : `U, k = ${plain(point.coverageFactor)}`,
          plain(point.effectiveDegreesOfFreedom ?? Infinity),
        ]),
    ),
    ...historyPart(certificate, layout),
  ];
}

function historyPart({ history = [], calibrated, points }: Certificate, layout: Layout): string[] {
  if (history.length === 0) return [];
  const all = [...history, { calibrated, points }].toSorted((a, b) => (a.calibrated < b.calibrated ? -1 : 1));
  const temperatures = [...new Set(all.flatMap((one) => one.points.map(({ temperature }) => temperature)))].toSorted(
    (a, b) => a - b,
  );
  return tablePart(
    layout,
    "Corrections over time, mK",
    [["calibrated", "left"], ...temperatures.map((temperature) => [`${plain(temperature, 6)} °C`, "point"] as const)],
    all.map((one) => [
      one.calibrated,
      ...temperatures.map((temperature) => {
        const found = one.points.find((point) => point.temperature === temperature);
        return found === undefined ? "" : milli(found.correction);
      }),
    ]),
  );
}

/** A certificate at a temperature: correction, drift, age. */
export function certificateAtLines(
  { value, drift, noDrift, validity }: CertificateEvaluation,
  layout: Layout,
): string[] {
  const { on, days, due, warning } = validity;
  return [
    ...listPart(layout, `At ${plain(value.temperature, 9)} °C on ${on}`, [
      ...value.reasoning,
      ...(drift?.reasoning ?? [`drift not evaluated: ${noDrift}`]),
      `${days} days since the calibration${due === null ? "" : `; the next is due on ${due}`}`,
      ...(warning === null ? [] : [`Warning: ${warning}.`]),
    ]),
  ];
}
