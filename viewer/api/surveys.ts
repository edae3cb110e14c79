import { z } from "zod";
import { evidenceSchema, type Immutable } from "../../engine/internal.ts";
import { fileName } from "./file-name.ts";
import { numeral } from "./numeral.ts";
import { several } from "./several.ts";
import { statementShown, studyOrId, studyShown } from "./study-document.ts";
import { surveyEvaluation } from "./survey-evaluation.ts";

const opened = "Its files were opened on the page; the server keeps them until it stops";

/** A survey as a list shows it. */
export const listedSurvey = z
  .strictObject({
    id: z.string(),
    title: z.string(),
    notes: z.string().nullable(),
    log: z.string(),
    opened: z.literal(true).exactOptional().describe(opened),
    draft: z
      .string()
      .exactOptional()
      .describe("It was set up here and is kept: the id of its draft. Its own id names the version evaluated last"),
  })
  .meta({ id: "ListedSurvey" });
export type ListedSurvey = Immutable<z.output<typeof listedSurvey>>;

/** `GET /api/surveys` */
export const surveyList = z.array(listedSurvey);
export type SurveyList = Immutable<z.output<typeof surveyList>>;

/** `GET /api/surveys/:id` and `POST /api/surveys`. Temperatures in °C, differences in K, times in s. */
export const evaluatedSurvey = z
  .strictObject({
    id: z.string(),
    files: evidenceSchema.shape.files.describe("Description and log, with their digests"),
    opened: z.boolean().describe(opened),
    own: z.string().nullable().describe("Id of the survey of one's own that it was evaluated from; null for others"),
    positions: z.record(
      z.string(),
      z.strictObject({
        depth: z.number().describe("mm below the surface"),
        radius: z.number().describe("mm from the axis of the zone"),
        direction: z.string().optional(),
      }),
    ),
    reference: z.string().describe("The position all differences are taken from"),
    calibrationMinutes: z.number(),
    arrangement: z.enum(["reference-fixed", "midpoint", "anywhere"]),
    remark: z.string().nullable().describe("What the person wrote beside the survey"),
    notes: z.array(z.string()).describe("What was noticed while the log was read"),
    worst: z
      .tuple([z.number(), z.number()])
      .describe("Lowest and highest reading in the worst window of stability, °C"),
    evaluation: surveyEvaluation,
    statements: z.record(z.string(), statementShown()).describe("Statements of a study, by input"),
  })
  .meta({ id: "EvaluatedSurvey" });
export type EvaluatedSurvey = Immutable<z.output<typeof evaluatedSurvey>>;

/** Parts of an evaluation as the page gets them. */
type Evaluation = EvaluatedSurvey["evaluation"];
export type StabilityWindow = Evaluation["stability"]["worst"];
export type AllanPoint = Evaluation["stability"]["allan"][number];
export type ZonePoint = Evaluation["map"]["reference"];
export type AxisEvaluation = NonNullable<Evaluation["axial"]>;
export type Outline = Evaluation["outlines"][number];
export type Check = Evaluation["checks"][number];

const MOST_FILES = 8;
const FILES = `1 to ${MOST_FILES} files, a name and a size in bytes for each`;
const SIZE = "a size in bytes";

/** The query of `POST /api/surveys`: a name and a size for each file, in the order of their bytes. */
export const surveyFilesQuery = z.object({
  name: several(z.array(fileName).min(1, FILES).max(MOST_FILES, FILES)).describe("Name of each file"),
  size: several(z.array(numeral(z.int(SIZE).min(0, SIZE))).max(MOST_FILES, FILES)).describe(
    "Size of each file in bytes",
  ),
});

/** A study that the survey's quantities may go into. */
export const fittingStudy = z
  .strictObject({
    id: z.string(),
    title: z.string(),
    sameBath: z.boolean().describe("Same fluid and set temperature as the survey's bath"),
    fits: z
      .boolean()
      .describe("Its inputs have the names of all quantities; of another one says which input takes what"),
  })
  .meta({ id: "FittingStudy" });
export type FittingStudy = Immutable<z.output<typeof fittingStudy>>;

/** `GET /api/surveys/:id/studies`, those of the survey's own bath first, then those whose inputs have the quantities' names. */
export const fittingStudies = z.array(fittingStudy);
export type FittingStudies = Immutable<z.output<typeof fittingStudies>>;

/**
 * `POST /api/surveys/:id/study`: the id of a listed study or a study document, by default the listed study of the same
 * bath; distributions by quantity, in place of what the evaluation gives.
 */
export const surveyStudyRequest = z
  .object(
    {
      study: studyOrId.optional(),
      into: z
        .record(z.string(), z.string(), "an object with the name of an input for some of the quantities")
        .default({})
        .describe("Input that a quantity goes into, where it has another name; empty to leave the quantity out"),
      distributions: z
        .record(z.string(), z.unknown(), "an object with a distribution for some of the quantities")
        .default({}),
    },
    "a JSON object with a study and distributions, or an empty one",
  )
  .meta({ id: "SurveyStudyRequest" });
export type SurveyStudyRequest = z.input<typeof surveyStudyRequest>;

/** The study with the survey's quantities in place of its own, and what a person should know of it. */
export const surveyStudy = z
  .strictObject({ study: studyShown(), remarks: z.array(z.string()) })
  .meta({ id: "SurveyStudy" });
export type SurveyStudy = Immutable<z.output<typeof surveyStudy>>;
