import { explorationAnswer, explorationRequest, type ExplorationAnswer } from "../../viewer/api/explorations.ts";
import { requireFewInputs } from "../runs/limits.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

export const explorations: RouteRegistration = (router, { checker }) => {
  router.post(
    "/explorations",
    "read",
    {
      id: "exploreStudy",
      summary: "A quick look at a study",
      description:
        "Evaluates the model at low-discrepancy points, a few thousand times, and keeps nothing. What is reported comes from a run, whose trials are random. It ends after half a minute.",
      body: json(explorationRequest),
      answers: { 200: { description: "The figures with their standard errors.", content: json(explorationAnswer) } },
      faults: ["no-such-model", "busy", "worker-lost"],
    },
    async (request, response) => {
      const { study, points } = bodyOf(explorationRequest, request.body);
      requireFewInputs(study);
      response.json((await checker.explore(study, points, leaving(response))) satisfies ExplorationAnswer);
    },
  );
};
