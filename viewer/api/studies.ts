import { z } from "zod";
import type { Problem } from "../../engine/index.ts";

/** A study to start from, as a list shows it. */
export interface ListedStudy {
  readonly id: string;
  readonly group: string;
  readonly title: string;
  readonly model: string;
  readonly laboratory: string | null;
  readonly notes: string | null;
}

/** `GET /api/studies` */
export type StudyList = readonly ListedStudy[];

/** `POST /api/studies/check` */
export const studyCheckRequest = z.object({ study: z.unknown() }, "a JSON object with a study");
export type StudyCheckRequest = z.infer<typeof studyCheckRequest>;

/** Everything that can be found wrong with a study without drawing a trial; no problem if it can be run. */
export interface StudyCheck {
  readonly problems: readonly Problem[];
}
