import type { Router } from "express";
import type { Sample } from "../../engine/index.ts";
import type { Runs } from "../runs/runs.ts";
import type { StudyShelf } from "../shelves/studies.ts";

/** What routes ask of the runs. */
export interface KeptRuns extends Pick<
  Runs,
  "start" | "list" | "get" | "read" | "cancel" | "remove" | "bringBack" | "annotate" | "follow"
> {
  sample(id: string): Promise<{ sample(measurand: string): Sample }>;
}

/** What routes are made from. */
export interface Dependencies {
  readonly runs: KeptRuns;
  readonly shelf: StudyShelf;
  readonly workers: number;
}

/** A group of routes: adds itself to the router of /api. One file a resource, one line in index.ts. */
export type RouteRegistration = (router: Router, dependencies: Dependencies) => void;
