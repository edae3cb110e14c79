import { z } from "zod";
import type { Evidence } from "../../engine/index.ts";
import type { SurveyDescription, SurveyEvaluation } from "../../models/index.ts";
import type { Sent } from "./sent.ts";

/** A survey as a list shows it. */
export interface ListedSurvey {
  readonly id: string;
  readonly title: string;
  readonly notes: string | null;
  readonly log: string;
  /** Its files were opened on the page; the server keeps them until it stops. */
  readonly opened?: true;
}

/** `GET /api/surveys` */
export type SurveyList = readonly ListedSurvey[];

/** `GET /api/surveys/:id` and `POST /api/surveys`. Temperatures in °C, differences in K, times in s. */
export interface EvaluatedSurvey {
  readonly id: string;
  /** Description and log, with their digests. */
  readonly files: Evidence["files"];
  /** The files were opened on the page; the server keeps them until it stops. */
  readonly opened: boolean;
  readonly positions: SurveyDescription["positions"];
  readonly reference: string;
  readonly calibrationMinutes: number;
  readonly arrangement: SurveyDescription["arrangement"];
  /** What the person wrote beside the survey. */
  readonly remark: string | null;
  /** What was noticed while the log was read. */
  readonly notes: readonly string[];
  /** Lowest and highest reading in the worst window of stability, °C. */
  readonly worst: readonly [number, number];
  readonly evaluation: Sent<SurveyEvaluation>;
  /** Statements of a study, by input. */
  readonly statements: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
}

/** Parts of an evaluation as the page gets them. */
type Evaluation = EvaluatedSurvey["evaluation"];
export type StabilityWindow = Evaluation["stability"]["worst"];
export type AllanPoint = Evaluation["stability"]["allan"][number];
export type ZonePoint = Evaluation["map"]["reference"];
export type AxisEvaluation = NonNullable<Evaluation["axial"]>;
export type Outline = Evaluation["outlines"][number];
export type Check = Evaluation["checks"][number];

/** A study that the survey's quantities can go into. */
export interface FittingStudy {
  readonly id: string;
  readonly title: string;
  /** Same fluid and set temperature as the survey's bath. */
  readonly sameBath: boolean;
}

/** `GET /api/surveys/:id/studies`, those of the survey's own bath first. */
export type FittingStudies = readonly FittingStudy[];

/**
 * `POST /api/surveys/:id/study`: the id of a listed study or a study document, by default the listed study of the same
 * bath; distributions by quantity, in place of what the evaluation gives.
 */
export const surveyStudyRequest = z.object(
  {
    study: z.unknown().optional(),
    distributions: z
      .record(z.string(), z.unknown(), "an object with a distribution for some of the quantities")
      .default({}),
  },
  "a JSON object with a study and distributions, or an empty one",
);
export type SurveyStudyRequest = z.input<typeof surveyStudyRequest>;

/** The study with the survey's quantities in place of its own, and what a person should know of it. */
export interface SurveyStudy {
  readonly study: Readonly<Record<string, unknown>>;
  readonly remarks: readonly string[];
}
