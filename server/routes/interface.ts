import { z } from "zod";
import { json } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** The interface described, for programs. */
export const describedInterface: RouteRegistration = (router, { document }) => {
  router.get(
    "/openapi.json",
    "read",
    {
      id: "getDocument",
      summary: "This interface as an OpenAPI document",
      answers: {
        200: {
          description: "OpenAPI, version 3.1.",
          content: json(z.record(z.string(), z.unknown()).meta({ description: "An OpenAPI document." })),
        },
      },
    },
    (_request, response) => {
      response.set("cache-control", "no-cache").json(document());
    },
  );
};
