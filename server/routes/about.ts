import { VERSION } from "../../engine/index.ts";
import type { About } from "../../viewer/api/about.ts";
import type { RouteRegistration } from "./route.ts";

export const about: RouteRegistration = (router, { workers }) => {
  router.get("/about", "read", (_request, response) => {
    response.json({ name: "trialband", version: VERSION, node: process.version, workers } satisfies About);
  });
};
