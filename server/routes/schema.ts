import { z } from "zod";
import { json } from "../openapi/described.ts";
import { schemaText } from "../record/json-schema.ts";
import type { RouteRegistration } from "./route.ts";

/** What a study may hold, for a form or an editor that checks as one types. */
export const schema: RouteRegistration = (router) => {
  let text: string | undefined;
  router.get(
    "/schema/study",
    "read",
    {
      id: "getStudySchema",
      summary: "The JSON Schema of a study",
      answers: {
        200: {
          description: "JSON Schema, draft 2020-12.",
          content: json(z.record(z.string(), z.unknown()).meta({ description: "A JSON Schema." })),
        },
      },
    },
    (_request, response) => {
      response.type("json").send((text ??= schemaText()));
    },
  );
};
