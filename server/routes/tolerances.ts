import { platinum } from "../../models/index.ts";
import { toleranceLimits, toleranceRequest, type ToleranceLimits } from "../../viewer/api/tolerances.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

/** The limits of a tolerance class of IEC 60751. */
export const tolerances: RouteRegistration = (router) => {
  router.post(
    "/tolerances",
    "read",
    {
      id: "readTolerance",
      summary: "The limits that a class of IEC 60751 sets at a temperature",
      body: json(toleranceRequest),
      answers: { 200: { description: "The limits in the unit asked for.", content: json(toleranceLimits) } },
    },
    (request, response) => {
      const { parameters, unit } = bodyOf(toleranceRequest, request.body);
      const {
        lower = null,
        upper = null,
        basis,
      } = platinum.classTolerance.limits(parameters as never, { name: "result", unit }, "parameters");
      response.json({ lower, upper, basis } satisfies ToleranceLimits);
    },
  );
};
