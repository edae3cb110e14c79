import { readBySchema } from "../engine/internal.ts";
import {
  certificateSchema,
  immersionSchema,
  readingsSchema,
  surveySchema,
  type Certificate,
  type ImmersionDescription,
  type ReadingsDescription,
  type SurveyDescription,
} from "../models/index.ts";

/** Checks the description of a comparison's readings, as JSON gives it. @throws {InputError} every problem, with its place */
export const readReadings = (document: unknown): ReadingsDescription => readBySchema(readingsSchema, document);

/** Checks the description of a bath's survey, as JSON gives it. @throws {InputError} every problem, with its place */
export const readSurvey = (document: unknown): SurveyDescription => readBySchema(surveySchema, document);

/** Checks the description of an immersion check, as JSON gives it. @throws {InputError} every problem, with its place */
export const readImmersion = (document: unknown): ImmersionDescription => readBySchema(immersionSchema, document);

/** Checks a reference's certificate, as JSON gives it. @throws {InputError} every problem, with its place */
export const readCertificate = (document: unknown): Certificate => readBySchema(certificateSchema, document);
