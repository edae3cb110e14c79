import type { Router } from "express";
import type { Runs } from "../runs/runs.ts";
import type { StudyShelf } from "../shelves/studies.ts";

/** What routes are made from. */
export interface Dependencies {
  readonly runs: Runs;
  readonly shelf: StudyShelf;
  readonly workers: number;
}

/** A group of routes: adds itself to the router of /api. One file a resource, one line in index.ts. */
export type RouteRegistration = (router: Router, dependencies: Dependencies) => void;
