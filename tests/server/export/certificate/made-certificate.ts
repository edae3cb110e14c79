import { propagate, readStudy, type RunRecord } from "../../../../engine/index.ts";
import {
  calibrationPoints,
  calibrationResult,
  certificateFieldsOf,
  readCalibration,
  studyOf,
  type CalibrationDocument,
  type CertificateReference,
} from "../../../../models/index.ts";
import { certificateOf, type Certificate } from "../../../../viewer/present/certificate/certificate.ts";
import { fiveBaths } from "../../../models/calibration/five-baths.ts";

/** Every field of a certificate, optional ones too, in an invented laboratory. */
export const FIELDS = {
  language: "en",
  laboratory: {
    name: "Harrowfen Calibration Room",
    address: ["Harrowfen Works", "2 Fen Lane"],
    country: "GB",
    email: "calibration@harrowfen.example",
    phone: "01 234",
    code: "HCR 7",
  },
  customer: {
    name: "Harrowfen Dairy",
    address: ["Dock 4"],
    country: "GB",
    email: "dairy@harrowfen.example",
  },
  location: { at: "customer", place: "cold store of dock 4" },
  performed: { from: "2026-03-02", to: "2026-03-04" },
  issued: "2026-03-09",
  method: {
    name: "Comparison in stirred baths, HCR-T-07",
    norms: ["IEC 60751:2022"],
    deviations: "Immersion 120 mm in place of 200 mm.",
  },
  conditions: [
    { quantity: "temperature", low: 22.1, high: 23.4 },
    { quantity: "humidity", low: 41, high: 41 },
  ],
  traceability: "Traceable to ITS-90 through the certificate of the reference.",
  opinions: "The thermometer suits use as a working standard.",
  external: "The ice point was measured by Fen Ice Works.",
  fromCustomer: "Depth of immersion in use: 120 mm.",
  sampling: "One probe of ten, drawn by plan HCR-S-01.",
  nextCalibration: "2027-03-01",
  authorised: { name: "M. Tarrow", role: "head of the room" },
} as const satisfies NonNullable<CalibrationDocument["certificate"]>;

export const ITEM = {
  number: "HCR-2026-041",
  replaces: "HCR-2026-019",
  manufacturer: "Harrowfen Works",
  type: "stem probe",
  received: "2026-02-26",
  condition: "Sheath without visible damage.",
  adjustment: "Ageing at 150 °C for 4 h.",
  before: [{ temperature: 4, error: -0.171, expandedUncertainty: 0.03 }],
};

export const REFERENCE: CertificateReference = {
  thermometer: "HR-02",
  certificate: "HCR-2025-118",
  laboratory: "Harrowfen Standards Room",
  calibrated: "2025-09-15",
};

/** The five baths with all fields of their certificate, or others. */
export function documentWith(more: Partial<CalibrationDocument> = {}, item: object | null = ITEM) {
  const document = fiveBaths({ trials: 10_000 });
  return {
    ...document,
    guardBandMultiplier: 1,
    certificate: FIELDS,
    ...more,
    instruments: document.instruments.map((each) => ({
      description: "platinum thermometer Pt100",
      ...each,
      ...(item === null ? {} : { certificate: item }),
    })),
  } as CalibrationDocument;
}

let made: RunRecord | undefined;

/** As if the recommendation were to keep the linear budget everywhere, which so few trials do not decide. */
const kept = (record: RunRecord): RunRecord => ({
  ...record,
  measurands: Object.fromEntries(
    Object.entries(record.measurands).map(([name, measurand]) => [
      name,
      {
        ...measurand,
        explanation: { recommendation: { action: "keep", factor: null } },
      } as unknown as typeof measurand,
    ]),
  ),
});

/** A certificate of the five baths; the fields of a certificate change no figure, so one run serves all. */
export function certificateFrom(
  document: CalibrationDocument,
  change: (record: RunRecord) => RunRecord = (record) => record,
): Certificate {
  const calibration = readCalibration(document);
  const study = studyOf(calibration, "HF-021");
  made ??= kept(propagate(calibrationPoints.build(study.parameters ?? {}), readStudy(study)));
  const record = change(structuredClone(made));
  const result = calibrationResult(calibration, "HF-021", record);
  return certificateOf(calibration, certificateFieldsOf(calibration, "HF-021"), result, record, "ab".repeat(32));
}
