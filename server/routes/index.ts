import { about } from "./about.ts";
import { budgetTables } from "./budget-tables.ts";
import { equations } from "./equations.ts";
import { exports } from "./exports.ts";
import { explorations } from "./explorations.ts";
import { describedInterface } from "./interface.ts";
import { evidence } from "./evidence.ts";
import { evidenceUse } from "./evidence-use.ts";
import { watchedLogs } from "./watched-logs.ts";
import { keptCalibrations } from "./kept-calibrations.ts";
import { keptRuns } from "./kept-runs.ts";
import { drafts } from "./drafts.ts";
import { laboratory } from "./laboratory.ts";
import { measurands } from "./measurands.ts";
import { models } from "./models.ts";
import { outlooks } from "./outlooks.ts";
import { ownStudies } from "./own-studies.ts";
import { problems } from "./problems.ts";
import { recordFiles } from "./record-files.ts";
import { records } from "./records.ts";
import { queue } from "./queue.ts";
import type { RouteRegistration } from "./route.ts";
import { runs } from "./runs.ts";
import { schema } from "./schema.ts";
import { selfcheck } from "./selfcheck.ts";
import { session } from "./session.ts";
import { studies } from "./studies.ts";
import { calibrations } from "./calibrations.ts";
import { surveys } from "./surveys.ts";
import { templates } from "./templates.ts";
import { tolerances } from "./tolerances.ts";

/** Every group of routes under /api: one line a resource. */
export const routes: readonly RouteRegistration[] = [
  about,
  session,
  models,
  equations,
  schema,
  studies,
  explorations,
  surveys,
  calibrations,
  keptCalibrations,
  outlooks,
  evidence,
  evidenceUse,
  watchedLogs,
  budgetTables,
  templates,
  tolerances,
  records,
  recordFiles,
  runs,
  queue,
  exports,
  keptRuns,
  ownStudies,
  drafts,
  laboratory,
  measurands,
  selfcheck,
  problems,
  describedInterface,
];
