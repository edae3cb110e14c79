import { noteRequest, removedRunList, runHead, type RemovedRun, type RunHead } from "../../viewer/api/runs.ts";
import { identityOf } from "../access/identity.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { versionSeen } from "./if-match.ts";
import type { RouteRegistration } from "./route.ts";

/**
 * Runs as things that are kept: apart from `/runs/:id`, whose DELETE cancels, so that a person who cancels a run in the
 * moment it ends does not lose its record.
 */
export const keptRuns: RouteRegistration = (router, { runs }) => {
  const path = { id: "Id of the run." };

  router.delete(
    "/kept-runs/:id",
    "administer",
    {
      id: "removeRun",
      summary: "Remove a run that has ended",
      description: "Its record stays in the store, and the removal can be undone.",
      path,
      answers: { 204: { description: "It is removed." } },
      faults: ["no-such-run", "not-finished", "cannot-keep", "busy"],
    },
    async (request, response) => {
      await runs.remove(request.params.id, identityOf(response).name);
      response.status(204).end();
    },
  );

  router.get(
    "/removed-runs",
    "read",
    {
      id: "listRemovedRuns",
      summary: "The runs that were removed, the last first",
      answers: { 200: { description: "Each run in short: it can be put back.", content: json(removedRunList) } },
    },
    (_request, response) => {
      response.set("cache-control", "no-cache").json(runs.removed() satisfies RemovedRun[]);
    },
  );

  router.post(
    "/kept-runs/:id/undo-removal",
    "administer",
    {
      id: "undoRemoval",
      summary: "Put a removed run back",
      path,
      answers: { 200: { description: "The run as the list has it again.", content: json(runHead) } },
      faults: ["no-such-run", "cannot-keep", "busy"],
    },
    async (request, response) => {
      await runs.bringBack(request.params.id, identityOf(response).name);
      response.json(runs.get(request.params.id) satisfies RunHead);
    },
  );

  router.put(
    "/kept-runs/:id/note",
    "run",
    {
      id: "writeNote",
      summary: "Write a note beside a run that has ended",
      path,
      reads: { "If-Match": 'Version of the note that the writer has seen, such as "3": 412 if it has another by now.' },
      body: json(noteRequest),
      answers: {
        200: {
          description: "The run with its note.",
          content: json(runHead),
          headers: { ETag: 'Version of the note, such as "4".' },
        },
      },
      faults: ["no-such-run", "not-finished", "changed-meanwhile", "cannot-keep", "busy"],
    },
    async (request, response) => {
      const { note } = bodyOf(noteRequest, request.body);
      const seen = versionSeen(request.headers["if-match"]);
      await runs.annotate(request.params.id, note, seen, identityOf(response).name);
      const head = runs.get(request.params.id);
      response.set("etag", `"${head.noteVersion}"`).json(head satisfies RunHead);
    },
  );
};
