import { z } from "zod";
import { json } from "../openapi/described.ts";
import { interfacePage } from "../openapi/page.ts";
import type { RouteRegistration } from "./route.ts";

/** The interface described: for programs as an OpenAPI document, for people as a page made from it. */
export const describedInterface: RouteRegistration = (router, { document }) => {
  let page: string | undefined;
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

  router.get(
    "/",
    "read",
    {
      id: "getInterfacePage",
      summary: "This interface as a page for people",
      answers: { 200: { description: "The page.", content: { type: "text/html", schema: "text" } } },
    },
    (request, response) => {
      // Its links lead from /api.
      if (request.originalUrl.split("?")[0]!.endsWith("/")) response.redirect(308, request.baseUrl);
      else
        response
          .set("cache-control", "no-cache")
          .type("html")
          .send((page ??= interfacePage(document())));
    },
  );
};
