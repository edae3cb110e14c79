import * as z from "zod";
import { studySchema, type Immutable } from "../../engine/internal.ts";
import { daySchema } from "../evaluation/text/document.ts";
import { certificateFieldsSchema, itemFieldsSchema } from "./certificate-fields.ts";
import { HIGHEST, LOWEST } from "../platinum/iec60751.ts";
import { POINT_MODELS } from "./point-model.ts";

const { inputs, coverage, significantDigits, trials, seed, negligible } = studySchema.shape;

/** Sub-ranges of ITS-90 whose coefficients a comparison determines: 6 needs the freezing point of silver. */
export const SUB_RANGES = ["1", "2", "3", "4", "5", "7", "8", "9", "10", "11"] as const;

/** What is known at one level of a calibration: of the laboratory, a bath or an instrument. */
const levels = {
  common: inputs.default({}).describe("Input quantities that are one and the same wherever this level holds"),
  each: inputs.default({}).describe("Input quantities that are stated once and drawn anew at every point"),
};

const instrumentSchema = z.strictObject({
  id: z.string().min(1).max(40).describe("Designation of the instrument: its serial number"),
  description: z.string().min(1).optional().describe("Kind, maker's type and state, as the certificate names them"),
  nominalResistance: z
    .number()
    .gt(0)
    .default(100)
    .describe("R_0 of IEC 60751 that errors refer to, Ω; for fit ITS-90 the nominal R(0.01 °C)"),
  tolerance: z
    .strictObject({
      class: z.enum(["AA", "A", "B", "C"]),
      element: z.enum(["wire", "film"]).optional(),
    })
    .optional()
    .describe("Class of IEC 60751 to be judged, and the kind of element"),
  fit: z
    .enum(["R0-A-B", "R0-A-B-C", "ITS-90", "none"])
    .default("R0-A-B")
    .describe(
      "Coefficients that are fitted; without C of its own, that of IEC 60751 holds below 0 °C; ITS-90: R(0.01 °C) and the deviation function of a standard thermometer",
    ),
  subRange: z.enum(SUB_RANGES).optional().describe("Sub-range of ITS-90 by its customary number, for fit ITS-90"),
  certificate: itemFieldsSchema.optional().describe("What the instrument's certificate states of it"),
  ...levels,
});

const bathSchema = z.strictObject({
  bath: z.record(z.string(), z.json()).optional().describe("Fluid and safety of the bath, as in a study"),
  survey: z.string().min(1).optional().describe("File of the survey's description, beside this document"),
  ...levels,
});

const pointSchema = z.strictObject({
  nominal: z.number().gte(LOWEST).lte(HIGHEST).describe("Nominal temperature, °C"),
  bath: z.string().min(1).describe("Name of the bath, one of `baths`"),
  direction: z
    .enum(["rising", "falling"])
    .optional()
    .describe("Whether the point was reached from below or from above"),
  exchanged: z
    .boolean()
    .default(false)
    .describe("Whether instrument and reference had exchanged their places for this point"),
  readings: z.string().min(1).optional().describe("File of the readings' description, beside this document"),
  inputs: inputs.default({}).describe("Input quantities of this point: the same for every instrument in the bath"),
  instruments: z
    .record(z.string(), inputs)
    .default({})
    .describe("Input quantities of this point and one instrument, by its designation: its readings"),
});

/** A calibration: instruments compared with a reference at several points, and what the points share. */
export const calibrationSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1).describe("What was calibrated, for the heading"),
  laboratory: z.string().optional().describe("Who calibrated"),
  notes: z.string().optional(),
  calibrated: daySchema
    .optional()
    .describe("Day of the calibration, YYYY-MM-DD; the reference's certificate is used on it"),
  certificate: certificateFieldsSchema.optional().describe("What the certificates state beside the results"),
  pointModel: z.enum(POINT_MODELS).default("bath-comparison").describe("Model of a single point"),
  pointParameters: z.record(z.string(), z.json()).default({}).describe("Parameters of that model"),
  reference: z
    .strictObject({
      certificate: z.string().min(1).describe("File of the reference's certificate, beside this document"),
      drift: z.enum(["bounds", "rate"]).optional().describe("How its drift is evaluated"),
      correlation: z
        .number()
        .gte(0)
        .lte(1)
        .default(1)
        .describe(
          "Correlation between points of what the certificate leaves unknown, and of the drift; 1: one unknown",
        ),
    })
    .optional(),
  ...levels,
  baths: z.record(z.string(), bathSchema).describe("The baths, by name"),
  instruments: z.array(instrumentSchema).min(1).max(20),
  points: z.array(pointSchema).min(1).max(60).describe("The points in the order in which they were measured"),
  together: z
    .array(
      z.strictObject({
        input: z.string().min(1).describe("An input quantity that is stated point by point"),
        coefficient: z.number().gte(-1).lte(1).default(1).describe("Correlation coefficient between any two points"),
        source: z.string().min(1).optional(),
      }),
    )
    .default([])
    .describe("Input quantities whose statements differ from point to point though their causes are shared"),
  weights: z
    .enum(["joint", "equal"])
    .default("joint")
    .describe("Whether the fit weighs points by the inverse of their joint covariance, or all alike"),
  guardBandMultiplier: z.number().gte(-5).lte(5).default(0).describe("r of the guard band w = r·U of every point"),
  negligible,
  coverage,
  significantDigits,
  trials,
  seed,
});

/**
 * A calibration that has been checked, with every default filled in: instruments compared with a reference at several
 * points, and what the points share. `readCalibration` returns it. Temperatures are in °C, resistances in Ω.
 */
export type Calibration = Immutable<z.output<typeof calibrationSchema>>;
/** A calibration as a person writes it: fields with a default may be missing. */
export type CalibrationDocument = Immutable<z.input<typeof calibrationSchema>>;
/** One point of a calibration: its nominal temperature, °C, its bath, and what is known of the inputs at this point. */
export type CalibrationPoint = Calibration["points"][number];
export type CalibratedInstrument = Calibration["instruments"][number];
