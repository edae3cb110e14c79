import { VERSION } from "../../engine/index.ts";
import { about as answer, type About } from "../../viewer/api/about.ts";
import { json } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

export const about: RouteRegistration = (router, { workers, queue }) => {
  router.get(
    "/about",
    "read",
    {
      id: "getAbout",
      summary: "Which Trialband answers",
      answers: { 200: { description: "Its version, and what it runs on.", content: json(answer) } },
    },
    (_request, response) => {
      response.json({
        name: "trialband",
        version: VERSION,
        node: process.version,
        workers,
        queue: queue !== null,
      } satisfies About);
    },
  );
};
