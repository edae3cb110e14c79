import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { problem } from "./fault.ts";
import { studySent } from "./study-document.ts";

/** A study to start from, as a list shows it. */
export const listedStudy = z
  .strictObject({
    id: z.string(),
    group: z.string(),
    title: z.string(),
    model: z.string(),
    laboratory: z.string().nullable(),
    notes: z.string().nullable(),
  })
  .meta({ id: "ListedStudy" });
export type ListedStudy = Immutable<z.output<typeof listedStudy>>;

/** `GET /api/studies` */
export const studyList = z.array(listedStudy);
export type StudyList = Immutable<z.output<typeof studyList>>;

/** `POST /api/studies/check` */
export const studyCheckRequest = z
  .object({ study: studySent }, "a JSON object with a study")
  .meta({ id: "StudyCheckRequest" });
export type StudyCheckRequest = z.input<typeof studyCheckRequest>;

/** Everything that can be found wrong with a study without drawing a trial; no problem if it can be run. */
export const studyCheck = z.strictObject({ problems: z.array(problem) }).meta({ id: "StudyCheck" });
export type StudyCheck = Immutable<z.output<typeof studyCheck>>;
