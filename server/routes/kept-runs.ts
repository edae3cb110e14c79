import { noteRequest, type RunHead } from "../../viewer/api/runs.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

/**
 * Runs as things that are kept: apart from `/runs/:id`, whose DELETE cancels, so that a person who cancels a run in the
 * moment it ends does not lose its record.
 */
export const keptRuns: RouteRegistration = (router, { runs }) => {
  router.delete("/kept-runs/:id", async (request, response) => {
    await runs.remove(request.params.id);
    response.status(204).end();
  });

  router.put("/kept-runs/:id/note", async (request, response) => {
    const { note } = bodyOf(noteRequest, request.body);
    await runs.annotate(request.params.id, note);
    response.json(runs.get(request.params.id) satisfies RunHead);
  });
};
