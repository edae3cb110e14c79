import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { calibrationDocument, calibrationReference, preparedCalibration } from "./calibrations.ts";

/** A kept calibration as a list shows it. */
const listed = {
  id: z.string(),
  name: z.string().describe("As a person named it; until then the title of its document"),
  note: z.string().nullable(),
  laboratory: z.string().nullable(),
  points: z.int(),
  instruments: z.array(
    z.strictObject({
      id: z.string(),
      run: z.string().nullable().describe("Id of the run of its study; null if none was started"),
    }),
  ),
  made: z.iso.datetime(),
  changed: z.iso.datetime(),
  revision: z.int().describe("Counts the changes, from 1"),
};
export const listedCalibration = z.strictObject(listed).meta({ id: "ListedCalibration" });
export type ListedCalibration = Immutable<z.output<typeof listedCalibration>>;

/** `GET /api/kept-calibrations`, the one changed last first; `GET /api/removed-calibrations`, the one removed last first. */
export const calibrationList = z.array(listedCalibration);
export type CalibrationList = Immutable<z.output<typeof calibrationList>>;

/** `GET /api/kept-calibrations/:id`, and the answer to every change. */
export const keptCalibration = z
  .strictObject({ ...listed, prepared: preparedCalibration })
  .meta({ id: "KeptCalibration" });
export type KeptCalibration = Immutable<z.output<typeof keptCalibration>>;

/** `POST /api/kept-calibrations`: what the reading of its files gave. */
export const newCalibration = z
  .object(
    {
      calibration: calibrationDocument,
      reference: calibrationReference,
      overdue: z.string().nullable().describe("Warning of the reference's certificate"),
      files: z
        .array(z.strictObject({ name: z.string().max(300), sha256: z.string().max(64) }), "a list of files")
        .max(60, "at most 60 files"),
    },
    "an object with calibration, reference, overdue and files",
  )
  .meta({ id: "NewCalibration" });
export type NewCalibration = Immutable<z.input<typeof newCalibration>>;

/** `PUT /api/kept-calibrations/:id`: the document with other fields of its certificates. */
export const changedCalibration = z
  .strictObject({ calibration: calibrationDocument }, "an object with the calibration")
  .meta({ id: "ChangedCalibration" });
export type ChangedCalibration = Immutable<z.input<typeof changedCalibration>>;

/** `PUT /api/kept-calibrations/:id/runs/:instrument` */
export const runOfInstrument = z
  .strictObject({ run: z.string().min(1).describe("Id of the run of its study") }, "an object with the id of a run")
  .meta({ id: "RunOfInstrument" });
export type RunOfInstrument = Immutable<z.input<typeof runOfInstrument>>;

const NAME = "a name of 1 to 200 characters";
const NOTE = "a note of at most 10 000 characters";

/** `PUT /api/kept-calibrations/:id/name` */
export const calibrationNaming = z
  .strictObject(
    {
      name: z.string(NAME).trim().min(1, NAME).max(200, NAME),
      note: z.string(NOTE).trim().max(10_000, NOTE).describe("An empty one takes the note away"),
    },
    "an object with name and note",
  )
  .meta({ id: "CalibrationNaming" });
export type CalibrationNaming = Immutable<z.input<typeof calibrationNaming>>;
