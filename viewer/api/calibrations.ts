import { z } from "zod";
import { several } from "./several.ts";
import { fileName } from "./file-name.ts";
import { numeral } from "./numeral.ts";
import type { Immutable } from "../../engine/internal.ts";

/** Most files of a calibration: its document, a survey and a log for each bath, the certificate, readings. */
const MOST_FILES = 60;
const FILES = `1 to ${MOST_FILES} files, a name and a size in bytes for each`;
const SIZE = "a size in bytes";

/** The query of `POST /api/calibrations`: a name and a size for each file, in the order of their bytes. */
export const calibrationFilesQuery = z.object({
  name: several(z.array(fileName).min(1, FILES).max(MOST_FILES, FILES)).describe("Name of each file"),
  size: several(z.array(numeral(z.int(SIZE).min(0, SIZE))).max(MOST_FILES, FILES)).describe("Its size in bytes"),
});

const object = z.record(z.string(), z.unknown());
/** A calibration with the statements of its files in it. */
export const calibrationDocument = object.describe("The calibration with the statements of its files in it");
export const calibrationReference = z
  .looseObject({ thermometer: z.string(), calibrated: z.string() })
  .nullable()
  .describe("The reference's certificate; null if the calibration states its quantities itself");

/** A calibration whose files were read: what to run, and what its results are made of afterwards. */
export const preparedCalibration = z
  .strictObject({
    title: z.string(),
    laboratory: z.string().nullable(),
    calibration: calibrationDocument,
    reference: calibrationReference,
    overdue: z.string().nullable().describe("Warning of the reference's certificate"),
    files: z.array(z.strictObject({ name: z.string(), sha256: z.string() })),
    instruments: z.array(
      z.strictObject({
        id: z.string(),
        description: z.string().nullable(),
        study: object.describe("The study of this instrument, to be run"),
      }),
    ),
  })
  .meta({ id: "PreparedCalibration" });
export type PreparedCalibration = Immutable<z.output<typeof preparedCalibration>>;

const ofOne = {
  calibration: object.describe("As the preparation gave it"),
  reference: calibrationReference,
  instrument: z.string().min(1),
  run: z.string().min(1).describe("Id of the finished run of its study"),
};

/** `POST /api/calibrations/result` */
export const calibrationResultRequest = z.strictObject(ofOne).meta({ id: "CalibrationResultRequest" });
export type CalibrationResultRequest = Immutable<z.output<typeof calibrationResultRequest>>;

/** What a calibration found of one instrument, and what its certificate still lacks. */
export const calibrationFound = z
  .strictObject({
    result: object.describe("Points, coefficients, band, conformity, repeated points"),
    lacking: z.array(z.string()).describe("Required fields of the certificate that nobody filled, by their names"),
    openPoints: z.array(z.int()).describe("Numbers of points at which no result can be stated yet"),
  })
  .meta({ id: "CalibrationFound" });
export type CalibrationFound = Immutable<z.output<typeof calibrationFound>>;

export const CERTIFICATE_FORMS = ["html", "pdf", "dcc", "json"] as const;
export type CertificateForm = (typeof CERTIFICATE_FORMS)[number];

/** `POST /api/calibrations/certificate` */
export const certificateRequest = z
  .strictObject({
    ...ofOne,
    form: z.enum(CERTIFICATE_FORMS).describe("dcc: digital calibration certificate, XML"),
    language: z.enum(["en", "de"]),
  })
  .meta({ id: "CertificateRequest" });
export type CertificateRequest = Immutable<z.output<typeof certificateRequest>>;
