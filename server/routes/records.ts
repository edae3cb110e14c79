import { z } from "zod";
import { shownRecord } from "../../viewer/api/records.ts";
import { json } from "../openapi/described.ts";
import { leaving } from "./leaving.ts";
import { recordFileOf } from "./record-body.ts";
import type { RouteRegistration } from "./route.ts";

/** A record from a file, to be shown: brought to today's format, with what its seal shows. Nothing is kept. */
export const records: RouteRegistration = (router, { documents }) => {
  router.post(
    "/records",
    "read",
    {
      id: "openRecord",
      summary: "A filed record, brought to today's format",
      description: "With what its seal shows. Nothing is kept.",
      body: json(z.unknown().meta({ description: "A record of any version of Trialband, as its file has it." })),
      answers: { 200: { description: "The record, and what its digests say.", content: json(shownRecord) } },
      faults: ["busy", "worker-lost"],
    },
    async (request, response) => {
      const shown = await documents.shown(recordFileOf(request), leaving(response));
      response.type("json").end(shown);
    },
  );
};
