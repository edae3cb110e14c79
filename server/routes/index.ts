import { about } from "./about.ts";
import { measurands } from "./measurands.ts";
import { models } from "./models.ts";
import type { RouteRegistration } from "./route.ts";
import { runs } from "./runs.ts";
import { studies } from "./studies.ts";

/** Every group of routes under /api: one line a resource. */
export const routes: readonly RouteRegistration[] = [about, models, studies, runs, measurands];
