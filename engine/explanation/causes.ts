import type { Cause } from "../record/explanation.ts";

/** What can make a Monte Carlo interval differ from the linear one, in the order in which a sentence names it. */
export const CAUSES = ["curvature", "shape", "degreesOfFreedom"] as const satisfies readonly Cause[];
